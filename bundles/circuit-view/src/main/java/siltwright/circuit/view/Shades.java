package siltwright.circuit.view;

import java.awt.Color;
import siltwright.cleanliness.Iso4406;
import siltwright.model.Bands;
import siltwright.model.SizeBands;

/**
 * Colours of dirty oil by the first number of its ISO 4406 code: the dirtier, the further from the
 * paper in lightness, so that the order is seen without telling colours apart. Each keeps a
 * contrast of 3:1 to the paper (WCAG 2.1, 1.4.11).
 */
final class Shades {
  /** Code numbers of the steps. */
  static final int[] STEPS = {12, 14, 16, 18, 20, 22, 24};

  private static final Color[] ON_LIGHT = {
    new Color(0x6f93b8),
    new Color(0x5a829f),
    new Color(0x8f7a3a),
    new Color(0x96601a),
    new Color(0x8a3c0c),
    new Color(0x6b1d12),
    new Color(0x3d0616)
  };

  private static final Color[] ON_DARK = {
    new Color(0x5f7f9f),
    new Color(0x6d96bd),
    new Color(0xb59646),
    new Color(0xd9a233),
    new Color(0xf0ba4e),
    new Color(0xf7d684),
    new Color(0xfff3cf)
  };

  private Shades() {}

  /** Returns the colour of oil with some counts. */
  static Color of(Bands perMl, boolean dark) {
    double atLeast4 = SizeBands.toCumulative(perMl.toArray())[0];
    return at(step(Iso4406.scaleNumber(Math.max(0, atLeast4))), dark);
  }

  /** Returns the colour of a step. */
  static Color at(int step, boolean dark) {
    return (dark ? ON_DARK : ON_LIGHT)[step];
  }

  /** Returns the step of a code number: that of the greatest one not above it. */
  static int step(int scaleNumber) {
    int step = 0;
    while (step + 1 < STEPS.length && scaleNumber >= STEPS[step + 1]) {
      step++;
    }
    return step;
  }
}
