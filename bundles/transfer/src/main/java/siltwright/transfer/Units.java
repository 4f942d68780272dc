package siltwright.transfer;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import siltwright.model.history.RecordField;

/**
 * Units in which columns come, and what makes of them the unit of a field.
 *
 * <p>Source of 1 psi = 6.894 757 kPa and of the US gallon, 3.785 412 L: NIST Special Publication
 * 811 (2008), appendix B. The rest are definitions.
 */
final class Units {
  private static final double PSI_KPA = 6.894757293168361;
  private static final double GALLON_L = 3.785411784;

  private static final Map<String, Map<String, Unit>> BY_SUFFIX = table();

  private Units() {}

  /**
   * A unit.
   *
   * @param name its name, as shown
   * @param factor what a number is multiplied by
   * @param shift what is added before that
   */
  record Unit(String name, double factor, double shift) {
    double convert(double value) {
      return factor == 1 && shift == 0 ? value : (value + shift) * factor;
    }
  }

  private static Map<String, Map<String, Unit>> table() {
    Map<String, Map<String, Unit>> all = new LinkedHashMap<>();
    add(all, "_kPa", "kPa", 1, "bar", 100, "mbar", 0.1, "hPa", 0.1, "psi", PSI_KPA, "MPa", 1000);
    add(all, "_h", "h", 1, "hours", 1, "hrs", 1, "hr", 1, "std", 1, "min", 1 / 60.0, "d", 24);
    add(all, "_h", "days", 24, "minutes", 1 / 60.0, "s", 1 / 3600.0);
    add(all, "_per_mL", "1/mL", 1, "/mL", 1, "per mL", 1, "p/mL", 1, "/100 mL", 0.01);
    add(all, "_per_mL", "per 100 mL", 0.01, "1/100 mL", 0.01, "/L", 0.001);
    add(all, "_ppm", "ppm", 1, "mg/kg", 1, "%", 10_000, "µg/g", 1, "wt%", 10_000);
    add(all, "_mm2_per_s", "mm²/s", 1, "mm2/s", 1, "cSt", 1);
    add(all, "_L_per_min", "L/min", 1, "lpm", 1, "gpm", GALLON_L, "m³/h", 1000 / 60.0);
    add(all, "_L_per_min", "m3/h", 1000 / 60.0, "L/h", 1 / 60.0);
    Map<String, Unit> degrees = new LinkedHashMap<>();
    for (String c : new String[] {"°C", "degC", "C"}) {
      degrees.put(key(c), new Unit("°C", 1, 0));
    }
    for (String f : new String[] {"°F", "degF", "F"}) {
      degrees.put(key(f), new Unit("°F", 5 / 9.0, -32));
    }
    degrees.put(key("K"), new Unit("K", 1, -273.15));
    all.put("_degC", degrees);
    return all;
  }

  private static void add(Map<String, Map<String, Unit>> all, String suffix, Object... units) {
    Map<String, Unit> of = all.computeIfAbsent(suffix, s -> new LinkedHashMap<>());
    for (int i = 0; i < units.length; i += 2) {
      String name = (String) units[i];
      of.put(key(name), new Unit(name, ((Number) units[i + 1]).doubleValue(), 0));
    }
  }

  private static String key(String unit) {
    return unit.toLowerCase(Locale.ROOT)
        .replaceAll("\\s", "")
        .replace('μ', 'µ')
        .replace("µ", "u")
        .replace("³", "3")
        .replace("²", "2");
  }

  private static Optional<Map<String, Unit>> of(RecordField field) {
    return BY_SUFFIX.entrySet().stream()
        .filter(e -> field.name().endsWith(e.getKey()))
        .findFirst()
        .map(Map.Entry::getValue);
  }

  /** Returns the unit of a field itself. */
  static Unit own(RecordField field) {
    return of(field).map(m -> m.values().iterator().next()).orElse(new Unit("", 1, 0));
  }

  /** Returns a unit in which a field may come, or nothing if it is none. */
  static Optional<Unit> find(RecordField field, String text) {
    return of(field).map(m -> m.get(key(text)));
  }

  /** Returns whether a text is a unit of anything. */
  static boolean isUnit(String text) {
    return BY_SUFFIX.values().stream().anyMatch(m -> m.containsKey(key(text)));
  }

  /** Returns what units a field may come in, for messages. */
  static String choices(RecordField field) {
    return of(field)
        .map(
            m ->
                String.join(
                    ", ",
                    new java.util.LinkedHashSet<>(m.values().stream().map(Unit::name).toList())))
        .orElse("no unit");
  }
}
