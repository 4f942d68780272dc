package siltwright.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class ProblemTest {
  @Test
  void aLineIsOneThatCanBeRead() {
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

  @Test
  void halfOfACharacterIsNotLeftOver() {
    String value = new Problem("a.csv", "", "\uD83D\uDE00".repeat(100), "words").value();
    assertEquals("\uD83D\uDE00".repeat(60) + "…", value);
  }
}
