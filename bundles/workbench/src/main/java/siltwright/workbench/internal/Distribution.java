package siltwright.workbench.internal;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * What the program on this computer is made of, as the folder it runs from tells.
 *
 * @param version the version, such as {@code 0.1.0}
 * @param feature which product it is, such as {@code desk}
 * @param home the folder that it runs from
 */
record Distribution(String version, String feature, Path home) {

  /** A line such as {@code (MIT) Name (group:artifact:1.0 - https://...)}. */
  private static final Pattern LINE =
      Pattern.compile("\\s+\\((.+?)\\) (.+) \\([^: ]+:[^: ]+:([^: ]+) - .*\\)");

  /** The licence of the Java that is brought along; its folder {@code legal} has the texts. */
  private static final String OF_JAVA = "GPL-2.0 with Classpath exception";

  /**
   * A part by others.
   *
   * @param name its name
   * @param version its version
   * @param licence the name of its licence
   */
  record Part(String name, String version, String licence) {}

  /** Makes it of what the launcher tells; the version is empty where nothing does. */
  static Distribution of(Map<String, String> told) {
    return new Distribution(
        told.getOrDefault("version", ""),
        told.getOrDefault("feature", ""),
        Path.of(told.getOrDefault("home", "")));
  }

  /** Returns whether the Java that runs this came with the program. */
  boolean bringsJava() {
    return java().startsWith(home.toAbsolutePath());
  }

  private static Path java() {
    return Path.of(System.getProperty("java.home"));
  }

  /** Returns the parts by others in their order, those of the Java brought along as one. */
  List<Part> parts() {
    List<Part> parts = new ArrayList<>();
    if (bringsJava()) {
      parts.add(
          new Part(
              System.getProperty("java.runtime.name"),
              System.getProperty("java.runtime.version"),
              OF_JAVA));
    }
    Path list = home.resolve("licences").resolve("THIRD-PARTY.txt");
    if (Files.isReadable(list)) {
      for (String line : read(list).split("\n")) {
        Matcher part = LINE.matcher(line);
        if (part.matches()) {
          parts.add(new Part(part.group(2), part.group(3), part.group(1)));
        }
      }
    }
    return parts;
  }

  /** Returns the files with texts of licences that the distribution carries. */
  List<Path> texts() {
    List<Path> texts = new ArrayList<>(List.of(home.resolve("LICENSE")));
    texts.addAll(in(home.resolve("licences"), ".*(?<!THIRD-PARTY)[.]txt"));
    if (bringsJava()) {
      texts.addAll(in(java().resolve("legal").resolve("java.base"), ".*"));
    }
    texts.removeIf(file -> !Files.isReadable(file));
    return texts;
  }

  private static List<Path> in(Path folder, String names) {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(f -> f.getFileName().toString().matches(names)).sorted().toList();
    } catch (IOException e) {
      return List.of();
    }
  }

  /** Returns a text; what is not UTF-8 in it is marked, since names of people stand in some. */
  static String read(Path file) {
    try {
      return new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
