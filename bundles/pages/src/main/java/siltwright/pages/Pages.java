package siltwright.pages;

import java.io.IOException;
import java.io.InputStream;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Turns the project's papers into web pages, and tells every link, anchor and picture that leads
 * nowhere. Addresses of other hosts are not tried: the build needs no network.
 */
public final class Pages {
  private static final String STYLE = "docs/pages.css";

  /** Folders whose files the distribution holds. */
  private static final Set<String> CARRIED = Set.of("docs", "demo-data", "LICENSE");

  /** The kit for add-ons, and where the distribution has it. */
  private static final Path KIT = Path.of("features", "src", "main", "kit");

  /** What stands on top of every page. */
  private static final List<Map.Entry<String, String>> TOP =
      List.of(
          Map.entry("Siltwright", "README.md"),
          Map.entry("User guide", "docs/user-guide.md"),
          Map.entry("Theory", "docs/theory.md"),
          Map.entry("Limits", "docs/limits.md"),
          Map.entry("Predictions", "docs/predictions.md"),
          Map.entry("Glossary", "docs/glossary.md"));

  private final Path project;
  private final Map<Path, Paper> papers = new TreeMap<>();
  private final Set<Path> folders = new TreeSet<>();
  private final List<String> dead = new ArrayList<>();

  private Pages(Path project) {
    this.project = project;
  }

  /**
   * Writes the pages.
   *
   * @param arguments folder of the project, folder of the pages
   * @throws IOException if one cannot be read or written
   * @throws IllegalStateException with all that leads nowhere
   */
  public static void main(String[] arguments) throws IOException {
    List<String> dead = write(Path.of(arguments[0]), Path.of(arguments[1]));
    if (!dead.isEmpty()) {
      throw new IllegalStateException("links that lead nowhere:\n" + String.join("\n", dead));
    }
  }

  /**
   * Writes the pages.
   *
   * @param project folder of the project
   * @param to folder of the pages
   * @return each link that leads nowhere, with the text that it stands in
   * @throws IOException if one cannot be read or written
   */
  static List<String> write(Path project, Path to) throws IOException {
    Pages pages = new Pages(project.toAbsolutePath().normalize());
    pages.gather();
    for (Paper paper : pages.papers.values()) {
      for (Paper.Pointer pointer : paper.pointers()) {
        pages.follow(paper, pointer);
      }
      put(
          to.resolve(paper.page()),
          pages.page(paper.page(), paper.title(), paper.contents(), paper.body()));
    }
    for (Path folder : pages.folders) {
      Path page = folder.resolve("index.html");
      put(to.resolve(page), pages.page(page, folder.toString(), "", pages.list(folder)));
    }
    try (InputStream style = Pages.class.getResourceAsStream("pages.css")) {
      put(to.resolve(STYLE), new String(style.readAllBytes(), StandardCharsets.UTF_8));
    }
    return pages.dead;
  }

  private static void put(Path file, String text) throws IOException {
    Files.createDirectories(file.getParent());
    Files.writeString(file, text);
  }

  private void gather() throws IOException {
    List<Path> texts = new ArrayList<>();
    texts.add(Path.of("README.md"));
    texts.add(Path.of("DEVELOPERS.md"));
    for (String folder : List.of("docs", "demo-data")) {
      try (Stream<Path> files = Files.walk(project.resolve(folder))) {
        files
            .filter(f -> f.toString().endsWith(".md"))
            .map(project::relativize)
            .forEach(texts::add);
      }
    }
    try (Stream<Path> bundles = Files.list(project.resolve("bundles"))) {
      bundles.map(b -> project.relativize(b).resolve("README.md")).forEach(texts::add);
    }
    for (Path text : texts) {
      if (Files.exists(project.resolve(text))) {
        papers.put(text, Paper.read(project, text));
      }
    }
  }

  /** Makes a pointer lead to the page of the text that it leads to. */
  private void follow(Paper paper, Paper.Pointer pointer) {
    String[] target = pointer.target().split("#", 2);
    if (target[0].matches("[a-z][a-z0-9+.-]*:.*")) {
      return;
    }
    Path text = paper.from();
    if (!target[0].isEmpty()) {
      text = text.resolveSibling(URLDecoder.decode(target[0], StandardCharsets.UTF_8)).normalize();
    }
    Path page = led(text, target.length == 2 ? target[1] : "");
    if (page == null) {
      dead.add(paper.from() + ": " + pointer.target());
      return;
    }
    if (target[0].isEmpty()) {
      return;
    }
    Path folder = paper.page().getParent();
    String way = (folder == null ? page : folder.relativize(page)).toString().replace('\\', '/');
    pointer.pointTo(target.length == 2 ? way + "#" + target[1] : way);
  }

  /** Returns what is shown of a file, or nothing if there is nothing. */
  private Path led(Path file, String anchor) {
    Paper paper = papers.get(file);
    if (paper != null) {
      return anchor.isEmpty() || paper.anchors().containsValue(anchor) ? paper.page() : null;
    }
    if (!anchor.isEmpty() || !Files.exists(project.resolve(file))) {
      return null;
    }
    if (file.startsWith(KIT)) {
      return Path.of("kit").resolve(KIT.relativize(file));
    }
    if (!CARRIED.contains(file.getName(0).toString())) {
      return null;
    }
    if (Files.isDirectory(project.resolve(file))) {
      folders.add(file);
      return file.resolve("index.html");
    }
    return file;
  }

  private String list(Path folder) throws IOException {
    StringBuilder list = new StringBuilder("<h1>" + escaped(folder.toString()) + "</h1>\n<ul>\n");
    try (Stream<Path> files = Files.list(project.resolve(folder))) {
      for (Path file : files.map(project::relativize).sorted().toList()) {
        Paper paper = papers.get(file);
        list.append("<li><a href=\"")
            .append(folder.relativize(paper == null ? file : paper.page()))
            .append("\">")
            .append(escaped(paper == null ? file.getFileName().toString() : paper.title()))
            .append("</a></li>\n");
      }
    }
    return list.append("</ul>\n").toString();
  }

  private String page(Path page, String title, String contents, String body) {
    String up = "../".repeat(page.getNameCount() - 1);
    String top =
        TOP.stream()
            .filter(e -> papers.containsKey(Path.of(e.getValue())))
            .map(
                e ->
                    "<a href=\""
                        + up
                        + Paper.page(Path.of(e.getValue())).toString().replace('\\', '/')
                        + "\">"
                        + e.getKey()
                        + "</a>")
            .collect(Collectors.joining("\n"));
    return """
        <!DOCTYPE html>
        <html lang="en">
        <head>
        <meta charset="utf-8">
        <meta name="viewport" content="width=device-width">
        <title>%s</title>
        <link rel="stylesheet" href="%s">
        </head>
        <body>
        <nav class="top">
        %s
        </nav>
        %s<main>
        %s</main>
        </body>
        </html>
        """
        .formatted(escaped(title), up + STYLE, top, contents, body);
  }

  static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
