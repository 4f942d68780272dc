package siltwright.card;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Names in braces that stand for a machine's own values. */
final class Placeholders {
  private static final Pattern NAME = Pattern.compile("\\{([^{}]*)\\}");

  /** Those that have a value on every machine. */
  static final Set<String> ALWAYS =
      Set.of(
          "machine",
          "machineId",
          "site",
          "procedure",
          "interval_h",
          "today_h",
          "element",
          "elementId",
          "oil",
          "volume_L",
          "hottest_degC",
          "labour_h",
          "oilLost_L",
          "capacity_g",
          "cracking_kPa");

  /** Those that have one on some. */
  static final Set<String> SOMETIMES =
      Set.of(
          "flat_h",
          "maker_h",
          "indicator_kPa",
          "indicatorState",
          "retained_g",
          "right_g",
          "wrong",
          "wrong_g",
          "times",
          "rightRatio",
          "wrongRatio",
          "rightCode",
          "wrongCode",
          "sample1_min",
          "sample2_min",
          "sample3_min",
          "meter_h",
          "next_h",
          "nextWeeks",
          "nextDate");

  private Placeholders() {}

  /** Returns the names in a text. */
  static Set<String> in(String text) {
    Set<String> names = new TreeSet<>();
    Matcher m = NAME.matcher(text);
    while (m.find()) {
      names.add(m.group(1));
    }
    return names;
  }

  /** Returns a text with its values, or nothing where one is missing. */
  static Optional<String> fill(String text, Map<String, String> values) {
    if (!values.keySet().containsAll(in(text))) {
      return Optional.empty();
    }
    return Optional.of(
        NAME.matcher(text).replaceAll(m -> Matcher.quoteReplacement(values.get(m.group(1)))));
  }
}
