package siltwright.analysis;

import java.util.List;

/** Something drawn in a panel: numbers, not pixels. Arrays are not modified by anybody. */
public sealed interface Layer {
  /** Returns the label in the legend; empty to stay out of it. */
  String label();

  /**
   * A line through points.
   *
   * @param label label
   * @param xs x, rising
   * @param ys y; not a number leaves a gap
   * @param style how it looks
   */
  record Line(String label, double[] xs, double[] ys, Style style) implements Layer {}

  /**
   * A line that keeps its y up to the next x.
   *
   * @param label label
   * @param xs x, rising
   * @param ys y from that x on
   * @param style how it looks
   */
  record Steps(String label, double[] xs, double[] ys, Style style) implements Layer {}

  /**
   * The area between two curves.
   *
   * @param label label
   * @param xs x, rising
   * @param lows lower curve
   * @param highs upper curve
   */
  record Band(String label, double[] xs, double[] lows, double[] highs) implements Layer {}

  /**
   * Areas on top of each other.
   *
   * @param label label
   * @param xs x, rising
   * @param parts parts from the bottom up
   */
  record Stack(String label, double[] xs, List<Part> parts) implements Layer {
    public Stack {
      parts = List.copyOf(parts);
    }
  }

  /**
   * A part of a stack.
   *
   * @param label label
   * @param ys its height at each x
   */
  record Part(String label, double[] ys) {}

  /**
   * Single points.
   *
   * @param label label
   * @param xs x
   * @param ys y
   * @param mark how they look
   * @param names what is written beside each, empty for nothing; no names at all if there are none
   */
  record Points(String label, double[] xs, double[] ys, Mark mark, List<String> names)
      implements Layer {
    public Points {
      names = List.copyOf(names);
    }

    /** Makes points without names. */
    public Points(String label, double[] xs, double[] ys, Mark mark) {
      this(label, xs, ys, mark, List.of());
    }
  }

  /**
   * An upright line at an x.
   *
   * @param label label
   * @param x where
   * @param style how it looks
   */
  record At(String label, double x, Style style) implements Layer {}

  /**
   * A level line at a y.
   *
   * @param label label
   * @param y where
   */
  record Level(String label, double y) implements Layer {}

  /**
   * A shaded range of x.
   *
   * @param label label
   * @param low lower end
   * @param high upper end
   */
  record Span(String label, double low, double high) implements Layer {}

  /** How a line looks; what it means decides, not a colour. */
  enum Style {
    /** The curve that matters. */
    MAIN,
    /** One of several that are compared; colours follow their order. */
    COMPARED,
    /** Something to compare with. */
    REFERENCE,
    /** A limit. */
    LIMIT
  }

  /** How a point looks. */
  enum Mark {
    /** Something that happened, such as a failure. */
    EVENT,
    /** Something cut off before it happened, such as a part taken out. */
    CENSORED
  }
}
