package siltwright.fleet.internal;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Numbers;
import siltwright.life.Interval;

/** Numbers within sentences. */
final class Words {
  private Words() {}

  static String number(double v) {
    return Double.isInfinite(v) ? "without bound" : Numbers.grouped(Numbers.text(v));
  }

  /** Returns a number with three digits, which is what an estimate is good for. */
  static String rough(double v) {
    if (!Double.isFinite(v)) {
      return Double.isInfinite(v) ? "without bound" : Numbers.NONE;
    }
    double rounded = BigDecimal.valueOf(v).round(new MathContext(3)).doubleValue();
    return Numbers.grouped(Numbers.text(rounded));
  }

  static String rough(Interval i) {
    return rough(i.lower()) + " to " + rough(i.upper());
  }

  /** Returns a p-value as people write it. */
  static String p(double p) {
    return p < 0.001 ? "p below 0.001" : "p " + Numbers.text(p, "h");
  }

  static String count(double n, String one, String many) {
    return number(n) + " " + (n == 1 ? one : many);
  }

  static String list(List<String> words) {
    List<String> all = new ArrayList<>(words);
    if (all.size() < 2) {
      return String.join("", all);
    }
    String last = all.remove(all.size() - 1);
    return String.join(", ", all) + " and " + last;
  }
}
