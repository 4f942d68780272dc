package siltwright.circuit.view;

import java.math.BigDecimal;
import java.math.MathContext;
import siltwright.analysis.Numbers;
import siltwright.cleanliness.Iso4406;
import siltwright.model.Bands;
import siltwright.model.SizeBands;

/** Numbers as the picture writes them: three significant digits, no more is read on the move. */
final class Digits {
  private static final double MG_PER_G = 1000;
  private static final double G_PER_KG = 1000;
  private static final MathContext THREE = new MathContext(3);

  private Digits() {}

  static String three(double value) {
    return Double.isFinite(value)
        ? Numbers.grouped(Numbers.text(new BigDecimal(value).round(THREE).doubleValue()))
        : Numbers.NONE;
  }

  static String percent(double share) {
    return three(100 * share) + " %";
  }

  static String mass(double grams) {
    double size = Math.abs(grams);
    if (size < 1) {
      return three(grams * MG_PER_G) + " mg";
    }
    return size < G_PER_KG ? three(grams) + " g" : three(grams / G_PER_KG) + " kg";
  }

  static String perHour(double mgPerH) {
    return mass(mgPerH / MG_PER_G) + "/h";
  }

  /** The cleanliness code of band counts. */
  static String code(Bands perMl) {
    return Iso4406.code(perMl).toString();
  }

  /** The count at or above the size with a number, 0 for 4 µm(c), from band counts. */
  static String count(Bands perMl, int size) {
    return three(SizeBands.toCumulative(perMl.toArray())[size]);
  }
}
