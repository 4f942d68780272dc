package siltwright.life.internal;

import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Numbers;
import siltwright.life.Interval;

/** Numbers within sentences. */
final class Say {
  private Say() {}

  static String number(double v) {
    return Double.isInfinite(v) ? "without bound" : Numbers.text(v);
  }

  static String range(Interval i) {
    return number(i.lower()) + " to " + number(i.upper());
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
