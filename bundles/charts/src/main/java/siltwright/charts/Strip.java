package siltwright.charts;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Where the labels of marks go in the strip above a panel, so that none lies on another or on the
 * line that leads from another to its mark.
 *
 * <p>Labels of upright lines stand like flags at the end of their line, in the rows next to the
 * panel; labels of ranges stand over their range in the rows above them.
 */
final class Strip {
  /** Space between texts, and between a text and a foreign line. */
  static final double GAP = 10;

  /** Space between a flag's text and its own line. */
  static final double POLE = 4;

  /**
   * A mark.
   *
   * @param index number of the caller's own
   * @param low left end in pixels
   * @param high right end; as the left end for a line
   * @param width width of its text
   * @param range whether it is a range
   */
  record Mark(int index, double low, double high, double width, boolean range) {}

  /**
   * A label's place.
   *
   * @param mark its mark
   * @param row row, 0 next to the panel
   * @param textX left end of the text
   */
  record Label(Mark mark, int row, double textX) {
    double textEnd() {
      return textX + mark.width();
    }
  }

  private Strip() {}

  /**
   * Places labels.
   *
   * @param marks marks within the panel
   * @param left leftmost pixel a text may take
   * @param right rightmost pixel a text may take
   */
  static List<Label> place(List<Mark> marks, double left, double right) {
    Set<Mark> turned = new HashSet<>();
    List<Label> best = place(marks, turned, left, right);
    long harm = harm(best);
    for (Mark m : marks) {
      if (harm > 0 && !m.range() && m.low() - POLE - m.width() >= left) {
        turned.add(m);
        List<Label> other = place(marks, turned, left, right);
        if (harm(other) < harm) {
          best = other;
          harm = harm(other);
        } else {
          turned.remove(m);
        }
      }
    }
    return best;
  }

  private static long harm(List<Label> placed) {
    return placed.stream()
        .mapToLong(a -> placed.stream().filter(b -> b != a).mapToLong(b -> harm(a, b)).sum())
        .sum();
  }

  /**
   * Places labels.
   *
   * @param turned lines whose flags go to the left though they have room to the right
   */
  private static List<Label> place(List<Mark> marks, Set<Mark> turned, double left, double right) {
    List<Label> placed = new ArrayList<>();
    // Flags to the right from the right, so that each next pole stands left of all texts; those
    // without room there from the left, to the left.
    Comparator<Mark> byX = Comparator.comparingDouble(Mark::low);
    List<Mark> lines = marks.stream().filter(m -> !m.range()).toList();
    List<Mark> rightwards =
        lines.stream()
            .filter(m -> m.low() + POLE + m.width() <= right && !turned.contains(m))
            .sorted(byX.reversed().thenComparing(Mark::index))
            .toList();
    for (Mark m : rightwards) {
      placed.add(flag(m, m.low() + POLE, placed));
    }
    List<Mark> leftwards =
        lines.stream()
            .filter(m -> !rightwards.contains(m))
            .sorted(byX.thenComparing(Mark::index))
            .toList();
    for (Mark m : leftwards) {
      placed.add(flag(m, Math.max(left, m.low() - POLE - m.width()), placed));
    }
    int above = placed.stream().mapToInt(l -> l.row() + 1).max().orElse(0);
    List<Mark> ranges =
        marks.stream()
            .filter(Mark::range)
            .sorted(Comparator.comparingDouble((Mark m) -> m.high() - m.low()))
            .toList();
    for (Mark m : ranges) {
      double x = (m.low() + m.high() - m.width()) / 2;
      x = Math.max(left, Math.min(x, right - m.width()));
      int row = above;
      while (overlapsRange(new Label(m, row, x), placed)) {
        row++;
      }
      placed.add(new Label(m, row, x));
    }
    return placed;
  }

  private static Label flag(Mark m, double x, List<Label> placed) {
    Label best = null;
    long fewest = Long.MAX_VALUE;
    int rows = placed.stream().mapToInt(l -> l.row() + 1).max().orElse(0);
    for (int row = 0; row <= rows; row++) {
      Label label = new Label(m, row, x);
      long hits = placed.stream().mapToLong(other -> harm(label, other)).sum();
      if (hits < fewest) {
        best = label;
        fewest = hits;
      }
    }
    return best;
  }

  /** Returns whether the text of one meets the text or the leading line of the other. */
  static boolean collide(Label a, Label b) {
    return harm(a, b) > 0;
  }

  /** Returns how bad it is that two meet: a line through a text can still be read. */
  private static long harm(Label a, Label b) {
    boolean texts =
        a.row() == b.row() && a.textX() < b.textEnd() + GAP && b.textX() < a.textEnd() + GAP;
    return (texts ? 100 : 0) + (crosses(a, b) ? 1 : 0) + (crosses(b, a) ? 1 : 0);
  }

  private static boolean crosses(Label text, Label line) {
    double x = line.mark().low();
    return !line.mark().range()
        && line.row() >= text.row()
        && x > text.textX() - POLE / 2
        && x < text.textEnd() + POLE / 2;
  }

  /** Returns whether the text or the shade of a range meets one in the same row. */
  private static boolean overlapsRange(Label a, List<Label> placed) {
    return placed.stream()
        .filter(b -> b.mark().range() && b.row() >= a.row())
        .anyMatch(
            b ->
                Math.min(a.textX(), a.mark().low()) < Math.max(b.textEnd(), b.mark().high()) + GAP
                    && Math.min(b.textX(), b.mark().low())
                        < Math.max(a.textEnd(), a.mark().high()) + GAP);
  }
}
