package siltwright.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TimeZone;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.features.Installation.Outcome;
import siltwright.launcher.Feature;
import siltwright.launcher.Product;

/**
 * Faults of the machine and its settings through the whole product; {@code docs/reliability.md}.
 */
class FaultsIT {
  private static final Path DEMO = Path.of("..", "demo-data").toAbsolutePath().normalize();
  private static final Path FLEET = DEMO.resolve("three-pits.json");

  @TempDir Path folder;

  private static Outcome withHeap(int mostMiB, Object... arguments) throws Exception {
    List<String> command = Installation.quickJava();
    command.add("-Xmx" + mostMiB + "m");
    command.add("-jar");
    command.add(Installation.BUILT.resolve("siltwright.jar").toString());
    for (Object argument : arguments) {
      command.add(argument.toString());
    }
    return Installation.run(new ProcessBuilder(command));
  }

  /** 2000 machines, 13 MB of text, in as little memory as the demo needs, and in a little more. */
  @Test
  void aHugeFleetInLittleMemoryIsToldOrDone() throws Exception {
    Path large = folder.resolve("large.json");
    LargeFleet.write(FLEET, large, 2000);
    assertEquals(0, withHeap(48, "simulate", FLEET, "--machine", "EX-11").code());
    Outcome told = withHeap(48, "simulate", large, "--machine", "EX-11-0");
    assertEquals(1, told.code(), told.err());
    assertEquals("", told.out());
    assertEquals(1, told.err().lines().count(), told.err());
    assertTrue(told.err().startsWith("siltwright: not enough memory: "), told.err());
    Outcome done = withHeap(256, "simulate", large, "--machine", "EX-11-0");
    assertEquals(0, done.code(), done.err());
  }

  @Test
  void aFleetBeyondTheBoundIsRefused() throws Exception {
    Path large = folder.resolve("large.json");
    String machine = Files.readString(FLEET);
    Files.writeString(large, machine + " ".repeat((64 << 20) - machine.length() + 1));
    Outcome told = withHeap(400, "simulate", large);
    assertEquals(2, told.code(), told.err());
    assertTrue(told.err().contains("large.json: found a longer file; expected at most 64 MiB"));
  }

  /**
   * Digits and signs of other languages, an i of its own, decimal commas, both sides of the date
   * line.
   */
  @Test
  void everyCommandIsTheSameInEveryLanguageAndZone() throws Exception {
    Locale locale = Locale.getDefault();
    TimeZone zone = TimeZone.getDefault();
    Set<String> answers = new TreeSet<>();
    try (Product product =
        Product.start(
            Feature.read(Installation.BUILT.resolve("features/desk.json")),
            Installation.BUILT.resolve("bundles"),
            folder.resolve("cache"))) {
      int n = 0;
      for (String settings :
          List.of(
              "en-US UTC",
              "tr-TR Pacific/Apia",
              "ar-EG-u-nu-arab America/New_York",
              "de-DE Asia/Kathmandu")) {
        String[] words = settings.split(" ");
        Locale.setDefault(Locale.forLanguageTag(words[0]));
        TimeZone.setDefault(TimeZone.getTimeZone(words[1]));
        answers.add(answers(product, Files.createDirectory(folder.resolve("run" + n++))));
      }
    } finally {
      Locale.setDefault(locale);
      TimeZone.setDefault(zone);
    }
    assertEquals(1, answers.size(), () -> differences(answers));
  }

  /** What commands print and write that read, compute and write numbers, dates and words. */
  private static String answers(Product product, Path run) throws Exception {
    Path store = run.resolve("fleet.db");
    Path years = DEMO.resolve("five-years");
    StringBuilder all = new StringBuilder();
    for (List<Object> command :
        List.<List<Object>>of(
            List.of("simulate", FLEET, "--machine", "EX-11"),
            List.of("tune", FLEET, "--machine", "EX-11", "--draws", "0", "--json"),
            List.of("life", DEMO.resolve("pump-lives.csv"), "--json"),
            List.of("samples", DEMO.resolve("pit-samples.csv"), "--fleet", FLEET, "--json"),
            List.of("card", FLEET, "--machine", "EX-12", "--card", run.resolve("card.html")),
            List.of("plan", FLEET, "--meters", DEMO.resolve("pit-meters.csv"), "--json"),
            List.of("import", years.resolve("machines.csv"), "--store", store),
            List.of(
                "import",
                years.resolve("dusthollow-changes.csv"),
                "--store",
                store,
                "--refused",
                run.resolve("refused.csv")),
            List.of(
                "import",
                years.resolve("telematics.xml"),
                "--store",
                store,
                "--refused",
                run.resolve("refused2.csv")),
            List.of("export", store, "--csv", run.resolve("out")))) {
      all.append(command.get(0)).append(' ');
      all.append(run(product, command.stream().map(Object::toString).toArray(String[]::new)));
    }
    try (Stream<Path> files = Files.walk(run)) {
      for (Path file :
          files.filter(f -> f.toString().matches(".*\\.(csv|html)")).sorted().toList()) {
        all.append(Files.readString(file));
      }
    }
    return all.toString()
        .replace(run.toString(), "RUN")
        .replaceAll("\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d\\.\\d+Z", "NOW");
  }

  private static String run(Product product, String... arguments) throws Exception {
    PrintStream out = System.out;
    PrintStream err = System.err;
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
    System.setErr(System.out);
    try {
      int code = product.entry().applyAsInt(arguments);
      return code + "\n" + printed.toString(StandardCharsets.UTF_8);
    } finally {
      System.setOut(out);
      System.setErr(err);
    }
  }

  private static String differences(Set<String> answers) {
    List<List<String>> all = answers.stream().map(a -> a.lines().toList()).toList();
    List<String> told = new ArrayList<>();
    for (int i = 0; i < all.get(0).size() && told.size() < 20; i++) {
      int line = i;
      Set<String> here =
          all.stream().map(a -> line < a.size() ? a.get(line) : "").collect(Collectors.toSet());
      if (here.size() > 1) {
        told.add(here.toString());
      }
    }
    return String.join("\n", told);
  }

  /** Each promise names the tests that show it; each of them is there, and each fault has one. */
  @Test
  void everyPromiseHasItsTest() throws IOException {
    Set<String> tests;
    try (Stream<Path> files = Files.walk(Path.of(".."))) {
      tests =
          files
              .filter(f -> f.toString().matches(".*/src/test/java/.*\\.java"))
              .map(f -> f.getFileName().toString().replace(".java", ""))
              .collect(Collectors.toSet());
    }
    String page = Files.readString(Path.of("..", "docs", "reliability.md"));
    List<String> rows =
        page.lines()
            .filter(l -> l.startsWith("| ") && !l.startsWith("| fault |") && !l.startsWith("| ---"))
            .toList();
    assertTrue(rows.size() > 15, rows.size() + " rows");
    Pattern name =
        Pattern.compile("`([A-Z][A-Za-z]*(?:Test|IT|Contract))`(?: \\(((?:`\\w+`(?:, )?)+)\\))?");
    for (String row : rows) {
      Matcher m = name.matcher(row);
      boolean any = false;
      while (m.find()) {
        any = true;
        assertTrue(tests.contains(m.group(1)), m.group(1) + " of docs/reliability.md");
        if (m.group(2) != null) {
          String source = source(m.group(1));
          for (String method : m.group(2).replace("`", "").split(", ")) {
            assertTrue(source.contains("void " + method + "("), m.group(1) + "." + method);
          }
        }
      }
      assertTrue(any, "no test in " + row);
    }
    assertFalse(rows.isEmpty());
  }

  private static String source(String test) throws IOException {
    try (Stream<Path> files = Files.walk(Path.of(".."))) {
      return Files.readString(
          files
              .filter(f -> f.toString().contains("/src/test/java/"))
              .filter(f -> f.getFileName().toString().equals(test + ".java"))
              .findFirst()
              .orElseThrow());
    }
  }
}
