package siltwright.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The review of known faults is of the parts that the distribution carries. */
class ReviewIT {
  private static final Pattern PART = Pattern.compile("\\(([^():]+):([^():]+):([^() ]+) - ");

  @Test
  void everyPartIsReviewedInItsVersion() throws IOException {
    List<String> rows =
        Files.readAllLines(Path.of("../docs/security-review.md")).stream()
            .filter(line -> line.startsWith("| "))
            .toList();
    List<String> missing = new ArrayList<>();
    Matcher part =
        PART.matcher(Files.readString(Installation.BUILT.resolve("licences/THIRD-PARTY.txt")));
    int parts = 0;
    while (part.find()) {
      parts++;
      String version = part.group(3);
      if (rows.stream().noneMatch(row -> names(row, version))) {
        missing.add(part.group(1) + ":" + part.group(2) + ":" + version);
      }
    }
    assertTrue(parts > 40, parts + " parts");
    assertEquals(List.of(), missing);
  }

  /** The second cell lists versions with commas. */
  private static boolean names(String row, String version) {
    String[] cells = row.split("\\|");
    return cells.length > 3 && List.of(cells[2].strip().split(", ")).contains(version);
  }
}
