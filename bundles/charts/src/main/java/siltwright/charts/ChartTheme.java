package siltwright.charts;

import java.awt.Color;
import java.util.List;

/**
 * The colours of a chart, as data. Each line colour keeps a contrast of at least 3:1 to the paper
 * and each text colour 4.5:1 (WCAG 2.1, 1.4.11 and 1.4.3); the colours of compared lines stay apart
 * for people who cannot tell red from green.
 *
 * @param paper background
 * @param ink text that matters
 * @param quiet axis numbers and less important text
 * @param grid grid lines
 * @param lines the main line first, then compared lines in their order
 * @param reference lines to compare with
 * @param limit limits
 * @param span shaded ranges, see-through
 * @param band areas of uncertainty, see-through
 */
public record ChartTheme(
    Color paper,
    Color ink,
    Color quiet,
    Color grid,
    List<Color> lines,
    Color reference,
    Color limit,
    Color span,
    Color band) {
  /** Dark on light: paper, and light screens. */
  public static final ChartTheme LIGHT =
      new ChartTheme(
          new Color(0xffffff),
          new Color(0x1d2530),
          new Color(0x56606d),
          new Color(0xe3e7ec),
          colours(0x1b4f8f, 0xd27a00, 0x2f958b, 0xa855e8, 0x6f5a2e, 0x45092b),
          new Color(0x5f6975),
          new Color(0xb3261e),
          new Color(0x1b, 0x4f, 0x8f, 26),
          new Color(0x1b, 0x4f, 0x8f, 52));

  /** Light on dark, for dark screens. */
  public static final ChartTheme DARK =
      new ChartTheme(
          new Color(0x171c23),
          new Color(0xe8ecf1),
          new Color(0xa4aebb),
          new Color(0x2e3641),
          colours(0x9cc8f2, 0xd9572f, 0x5fe0a6, 0xb565f0, 0xf0db55, 0xb06a80),
          new Color(0x97a2b0),
          new Color(0xff7b72),
          new Color(0x9c, 0xc8, 0xf2, 30),
          new Color(0x9c, 0xc8, 0xf2, 56));

  public ChartTheme {
    lines = List.copyOf(lines);
  }

  private static List<Color> colours(int... rgbs) {
    return java.util.Arrays.stream(rgbs).mapToObj(Color::new).toList();
  }

  /** Returns the colour of the line with a number; they begin again when they are used up. */
  Color line(int index) {
    return lines.get(index % lines.size());
  }
}
