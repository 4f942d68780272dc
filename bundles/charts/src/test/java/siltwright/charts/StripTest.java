package siltwright.charts;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class StripTest {
  @Test
  void labelsNeverLieOnEachOtherOrOnAForeignLine() {
    Random random = new Random(20261);
    for (int run = 0; run < 2000; run++) {
      List<Strip.Mark> marks = new ArrayList<>();
      for (int k = 0; k < 1 + random.nextInt(6); k++) {
        // Far enough from the right end for a flag to the right; at least a line's width apart.
        double x = 40 + 5 * random.nextInt(60) + k * 0.001;
        double taken = x;
        if (marks.stream().noneMatch(m -> Math.abs(m.low() - taken) < 2)) {
          marks.add(new Strip.Mark(k, x, x, 20 + random.nextInt(140), false));
        }
      }
      List<Strip.Label> labels = Strip.place(marks, 0, 600);
      assertEquals(marks.size(), labels.size());
      for (Strip.Label a : labels) {
        for (Strip.Label b : labels) {
          assertFalse(a != b && Strip.collide(a, b), () -> labels.toString());
        }
      }
    }
  }

  @Test
  void aFlagAtTheRightEndPointsLeft() {
    Strip.Label label = Strip.place(List.of(new Strip.Mark(0, 580, 580, 60, false)), 0, 600).get(0);
    assertEquals(580 - Strip.POLE, label.textEnd());
  }

  /** Best, today and the maker's maximum of a demo machine, in a pane of usual width. */
  @Test
  void aFlagTurnsAwayFromALineThatWouldStrikeItThrough() {
    List<Strip.Label> labels =
        Strip.place(
            List.of(
                new Strip.Mark(0, 212, 212, 63, false),
                new Strip.Mark(1, 271, 271, 72, false),
                new Strip.Mark(2, 339, 339, 158, false)),
            0,
            345);
    for (Strip.Label a : labels) {
      for (Strip.Label b : labels) {
        assertFalse(a != b && Strip.collide(a, b), () -> labels.toString());
      }
    }
  }

  @Test
  void nestedRangesStandAboveEachOtherTheWidestOnTop() {
    List<Strip.Label> labels =
        Strip.place(
            List.of(
                new Strip.Mark(0, 100, 300, 60, true),
                new Strip.Mark(1, 180, 200, 60, true),
                new Strip.Mark(2, 190, 190, 60, false)),
            0,
            600);
    assertEquals(List.of(2, 1, 0), labels.stream().map(l -> l.mark().index()).toList());
    assertEquals(List.of(0, 1, 2), labels.stream().map(Strip.Label::row).toList());
  }

  @Test
  void placesSpreadInOrderWithinTheEnds() {
    assertArrayEquals(
        new double[] {10, 26, 42}, PanelPlot.spread(new double[] {10, 11, 12}, 16, 0, 100));
    assertArrayEquals(
        new double[] {52, 68, 84}, PanelPlot.spread(new double[] {90, 91, 92}, 16, 0, 84));
    assertArrayEquals(
        new double[] {10, 50, 90}, PanelPlot.spread(new double[] {10, 50, 90}, 16, 0, 100));
  }
}
