package siltwright.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** The line that the user reads, whatever a file holds. */
class ProblemTest {
  @Test
  void aProblemIsOneLine() {
    assertEquals(
        "fleet.json /machines/0: found 7; expected a name",
        new Problem("fleet.json", "/machines/0", "7", "a name").toString());
    assertEquals("fleet.json: expected text", new Problem("fleet.json", "", "", "text").toString());
  }

  @Test
  void aLongValueIsCutAtSixtyCharacters() {
    String sixty = "x".repeat(60);
    assertEquals(sixty, new Problem("f", "", sixty, "").value());
    assertEquals(sixty + "…", new Problem("f", "", sixty + "x", "").value());
    // a character beyond the first 65 536 is one, though Java counts two
    String faces = "\ud83d\ude00".repeat(60);
    assertEquals(faces, new Problem("f", "", faces, "").value());
    assertEquals(faces + "…", new Problem("f", "", faces + "y", "").value());
  }

  @Test
  void whatATerminalWouldObeyIsMadeVisible() {
    assertEquals(
        "f: found a\\u001b[2Jb\\u000a\\u2028\\u2029\\ud800\\u0085; expected é \ud83d\ude00",
        new Problem("f", "", "a\u001b[2Jb\n\u2028\u2029\ud800\u0085", "é \ud83d\ude00").toString());
  }

  @Test
  void severalProblemsAreALineEach() {
    Problem one = new Problem("f", "/a", "1", "2");
    Problem other = new Problem("f", "/b", "3", "4");
    InputException e = new InputException(List.of(one, other));
    assertEquals(List.of(one, other), e.problems());
    assertEquals("f /a: found 1; expected 2\nf /b: found 3; expected 4", e.getMessage());
    assertEquals(List.of(one), new InputException(one).problems());
  }

  @Test
  void placeAndExpectationAreCutToALineThatCanBeRead() {
    String name = "x".repeat(40_000);
    String line = new Problem("a.csv", "column " + name, name, "one of " + name).toString();
    assertTrue(line.length() < 1200, line);
    assertTrue(line.startsWith("a.csv column xxx"), line);
    assertTrue(line.contains("…: found xxx"), line);
    assertTrue(line.contains("…; expected one of xxx"), line);
  }

  @Test
  void whatIsMadeVisibleCountsAsItIsShown() {
    String nul = "\0".repeat(2000);
    assertTrue(new Problem("a.csv", nul, nul, nul).toString().length() < 1500);
  }
}
