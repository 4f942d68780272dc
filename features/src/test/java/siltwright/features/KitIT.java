package siltwright.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.features.Installation.Outcome;

/**
 * The tutorial of the kit and the consultant's chapter, word for word, in an empty folder with
 * nothing but the distribution.
 */
class KitIT {
  private static final Pattern TYPED = Pattern.compile("(?ms)^```sh\\R(.*?)^```");

  @TempDir Path folder;

  @Test
  void tutorialLeadsToAddOnsThatWork() throws Exception {
    Path zip;
    try (Stream<Path> files = Files.list(Installation.BUILT)) {
      zip = files.filter(f -> f.toString().endsWith(".zip")).findFirst().orElseThrow();
    }
    Files.copy(zip, folder.resolve(zip.getFileName()));
    StringBuilder script = new StringBuilder("set -eu\numask 022\n");
    for (String paper : List.of("add-ons.md", "guide/consultant.md")) {
      Matcher typed = TYPED.matcher(Files.readString(Path.of("../docs", paper)));
      while (typed.find()) {
        script.append(typed.group(1));
      }
    }
    ProcessBuilder shell =
        new ProcessBuilder("sh", "-c", script.toString()).directory(folder.toFile());
    String home = System.getProperty("java.home");
    shell.environment().put("JAVA_HOME", home);
    shell.environment().put("PATH", Path.of(home, "bin") + ":" + System.getenv("PATH"));
    shell.environment().put("XDG_DATA_HOME", folder.resolve("data").toString());
    // no place for the script's archives: making one for a single run only takes time
    shell.environment().put("HOME", "");
    shell.environment().remove("XDG_CACHE_HOME");
    Outcome outcome = Installation.run(shell);
    assertEquals(0, outcome.code(), outcome.toString());
    for (String said :
        new String[] {
          "cold-start: all checks passed",
          "solidity-law: all checks passed",
          "made lap.jar",
          "Even a clean element is bypassed. (add-on example.coldstart 1.0.0)",
          "Minutes that a lap should take at least",
          "analysis lap",
          "CN=A consultant, not known to be trusted",
          "Solidity at the capacity"
        }) {
      assertTrue(outcome.out().replaceAll("\\s+", " ").contains(said), said + "\n" + outcome.out());
    }
    // tune follows the law: the best interval of the first procedure is another one
    Matcher intervals = Pattern.compile("(?m)^Interval \\(h\\) +(\\d+) ").matcher(outcome.out());
    List<String> found = intervals.results().map(r -> r.group(1)).toList();
    assertTrue(found.size() > 1, outcome.out());
    assertNotEquals(found.get(0), found.get(found.size() - 1));
    assertTrue(Files.readString(folder.resolve("lap.html")).contains("Time of a lap"));
  }

  /** An analysis with parameters, two tables and a chart is one short class. */
  @Test
  void anAnalysisIsAClassOfSixtyLines() throws Exception {
    Path type = Path.of("src/main/kit/cold-start/src/example/coldstart/ColdStart.java");
    assertTrue(Files.readAllLines(type).size() <= 60);
    assertTrue(Files.readAllLines(type).stream().allMatch(line -> line.length() <= 100));
  }
}
