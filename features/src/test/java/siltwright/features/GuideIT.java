package siltwright.features;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URLDecoder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.features.Installation.Outcome;

/** What README and guide tell to type runs and gives what they show. */
class GuideIT {

  private static final Path ROOT = Path.of("..");
  private static final String PROGRAM = "java -jar features/target/siltwright.jar ";
  private static final Pattern POINTER = Pattern.compile(" (href|src)=\"([^\"]+)\"");

  /** How far a number shown may be from the one computed, relative. */
  private static final double CLOSE = 0.1;

  @TempDir static Path folder;

  /** What each command gave, in the order of the texts. */
  private static final Map<String, Outcome> OUTCOMES = new LinkedHashMap<>();

  @BeforeAll
  static void runAll() throws Exception {
    String guide = guide();
    List<String> fleets = fenced(guide, "json");
    assertEquals(1, fleets.size());
    Files.writeString(folder.resolve("my-fleet.json"), fleets.get(0));
    for (String line : (read("README.md") + "\n" + guide).lines().toList()) {
      if (line.startsWith("cp ")) {
        String[] words = line.split(" ");
        Files.copy(ROOT.resolve(words[1]), folder.resolve(words[2]));
      }
      int start = line.indexOf(PROGRAM);
      if (start >= 0 && line.substring(0, start).matches("\\s*(mvn [^&]*&& )?")) {
        String command = line.substring(start + PROGRAM.length()).strip();
        // the window is driven by WindowIT
        if (!command.startsWith("open") && !OUTCOMES.containsKey(command)) {
          OUTCOMES.put(command, run(command));
        }
      }
    }
  }

  /** The user guide with its chapters. */
  private static String guide() throws IOException {
    StringBuilder guide = new StringBuilder(read("docs/user-guide.md"));
    try (Stream<Path> chapters = Files.list(ROOT.resolve("docs/guide"))) {
      for (Path chapter : chapters.sorted().toList()) {
        guide.append('\n').append(Files.readString(chapter));
      }
    }
    return guide.toString();
  }

  private static Outcome run(String command) throws IOException, InterruptedException {
    List<String> words = Installation.quickJava();
    words.addAll(Installation.onOneClassPath(Installation.BUILT.toAbsolutePath(), "desk"));
    for (String word : command.split(" +")) {
      words.add(word.startsWith("demo-data/") ? ROOT.resolve(word).toRealPath().toString() : word);
    }
    return Installation.run(new ProcessBuilder(words).directory(folder.toFile()));
  }

  private static Path distribution() throws IOException {
    try (Stream<Path> files = Files.list(Installation.BUILT)) {
      return files.filter(file -> file.toString().endsWith(".zip")).findFirst().orElseThrow();
    }
  }

  private static String read(String path) throws IOException {
    return Files.readString(ROOT.resolve(path));
  }

  /** Returns the fenced blocks of a kind, without the indent of a list. */
  private static List<String> fenced(String text, String kind) {
    List<String> blocks = new ArrayList<>();
    Matcher m = Pattern.compile("(?ms)^ *```" + kind + "\\R(.*?)^ *```").matcher(text);
    while (m.find()) {
      blocks.add(m.group(1));
    }
    return blocks;
  }

  @Test
  void everyCommandSucceeds() {
    assertTrue(OUTCOMES.containsKey("tune demo-data/three-pits.json"), "the README's main job");
    assertTrue(OUTCOMES.size() > 6, OUTCOMES.keySet().toString());
    OUTCOMES.forEach(
        (command, outcome) -> {
          // two of the demo's filled cards cannot be true and are left out
          int code = command.startsWith("card-keep") ? 2 : 0;
          assertEquals(code, outcome.code(), command + ": " + outcome.err());
          assertFalse(outcome.out().isBlank(), command);
        });
  }

  @Test
  void filesThatCommandsWriteAreThere() throws IOException {
    assertTrue(Files.readString(folder.resolve("ex-11.html")).contains("<svg"));
    assertTrue(Files.size(folder.resolve("ex-11/procedures.csv")) > 0);
    for (String pdf : List.of("ex-11.pdf", "class/handout.pdf", "class/slides.pdf")) {
      byte[] bytes = Files.readAllBytes(folder.resolve(pdf));
      assertTrue(new String(bytes, 0, 5, UTF_8).equals("%PDF-"), pdf);
    }
    assertTrue(Files.readString(folder.resolve("ex-12.html")).contains("lang=\"de\""));
    assertTrue(Files.readString(folder.resolve("our-card.json")).contains("siltwright-card/1"));
  }

  /** The same words; numbers within a tenth, so that a better kernel does not spoil the guide. */
  @Test
  void excerptsAreWhatTheCommandsPrint() throws IOException {
    List<String[]> printed =
        OUTCOMES.values().stream().flatMap(o -> o.out().lines()).map(GuideIT::words).toList();
    List<String> excerpts = fenced(guide(), "text").stream().flatMap(String::lines).toList();
    assertTrue(excerpts.size() > 10);
    List<String> strangers = new ArrayList<>();
    for (String line : excerpts) {
      String[] shown = words(line);
      if (printed.stream().noneMatch(p -> begins(p, shown))) {
        strangers.add(line);
      }
    }
    assertEquals(List.of(), strangers, "not printed by any command of the guide");
  }

  private static String[] words(String line) {
    return line.strip().split("\\s+");
  }

  private static boolean begins(String[] printed, String[] shown) {
    if (printed.length < shown.length) {
      return false;
    }
    for (int i = 0; i < shown.length; i++) {
      if (!shown[i].equals(printed[i]) && !close(shown[i], printed[i])) {
        return false;
      }
    }
    return true;
  }

  private static boolean close(String shown, String printed) {
    String number = "-?\\d+(\\.\\d+)?";
    if (!shown.matches(number) || !printed.matches(number)) {
      return false;
    }
    double wanted = Double.parseDouble(shown);
    return Math.abs(Double.parseDouble(printed) - wanted) <= CLOSE * Math.abs(wanted);
  }

  /** The build ends where a link of the Markdown is dead; this is what a reader gets. */
  @Test
  void everyLinkAndPictureOfThePagesIsInTheDistribution() throws IOException {
    Map<String, String> pages = new TreeMap<>();
    Set<String> names = new TreeSet<>();
    try (ZipFile packed = new ZipFile(distribution().toFile())) {
      for (ZipEntry entry : Collections.list(packed.entries())) {
        String name = entry.getName().replaceFirst("^[^/]*/", "");
        names.add(name);
        if (name.endsWith(".html")) {
          pages.put(name, new String(packed.getInputStream(entry).readAllBytes(), UTF_8));
        }
      }
    }
    for (String page :
        List.of(
            "README.html",
            "docs/user-guide.html",
            "docs/guide/analyst.html",
            "docs/decisions/index.html",
            "docs/bundles/interval.html",
            "demo-data/README.html")) {
      assertTrue(pages.containsKey(page), page);
    }
    List<String> dead = new ArrayList<>();
    int pictures = 0;
    for (Map.Entry<String, String> page : pages.entrySet()) {
      Matcher m = POINTER.matcher(page.getValue());
      while (m.find()) {
        String[] target = URLDecoder.decode(m.group(2), UTF_8).split("#", 2);
        if (target[0].contains(":")) {
          continue;
        }
        pictures += m.group(1).equals("src") ? 1 : 0;
        String to =
            target[0].isEmpty()
                ? page.getKey()
                : Path.of(page.getKey()).resolveSibling(target[0]).normalize().toString();
        if (!names.contains(to)
            || target.length == 2 && !pages.get(to).contains("id=\"" + target[1] + "\"")) {
          dead.add(page.getKey() + ": " + m.group(2));
        }
      }
    }
    assertEquals(List.of(), dead);
    assertTrue(pictures > 8, pictures + " pictures");
  }

  @Test
  void everyBundleIsOnTheMap() throws IOException {
    String map = read("DEVELOPERS.md");
    try (Stream<Path> folders = Files.list(ROOT.resolve("bundles"))) {
      List<String> absent =
          folders
              .filter(f -> Files.exists(f.resolve("pom.xml")))
              .map(f -> "`bundles/" + f.getFileName() + "`")
              .filter(name -> !map.contains(name))
              .toList();
      assertEquals(List.of(), absent);
    }
  }

  @Test
  void papersAreInTheDistribution() throws IOException {
    try (ZipFile packed = new ZipFile(distribution().toFile())) {
      Set<String> names = new TreeSet<>();
      packed.stream().forEach(e -> names.add(e.getName().replaceFirst("^[^/]*/", "")));
      for (String paper :
          List.of(
              "README.md",
              "LICENSE",
              "docs/user-guide.md",
              "docs/file-format.md",
              "docs/images/cost.png",
              "demo-data/three-pits.json")) {
        assertTrue(names.contains(paper), paper);
      }
    }
  }
}
