package siltwright.model;

import java.util.Map;

/** Units on screen. Files, engines and programs use the first ones; this is the only conversion. */
public enum Units {
  /** L, L/min, kPa, °C and so on, as in the files. */
  SI(Map.of()),
  /**
   * US customary units. Factors are exact by definition: 1 US gallon = 231 in³ = 3.785411784 L, 1
   * lb = 453.59237 g, 1 psi = 1 lbf/in² = 6.894757293168361 kPa, 1 in = 25.4 mm (NIST Special
   * Publication 811, 2008, appendix B).
   */
  US(
      Map.ofEntries(
          Map.entry("L", new Conversion("gal", 1 / 3.785411784, 0)),
          Map.entry("L/min", new Conversion("gal/min", 1 / 3.785411784, 0)),
          Map.entry("L/h", new Conversion("gal/h", 1 / 3.785411784, 0)),
          Map.entry("kPa", new Conversion("psi", 1 / 6.894757293168361, 0)),
          Map.entry("°C", new Conversion("°F", 1.8, 32)),
          Map.entry("kg", new Conversion("lb", 1 / 0.45359237, 0)),
          Map.entry("mm", new Conversion("in", 1 / 25.4, 0)),
          Map.entry("N", new Conversion("lbf", 1 / 4.4482216152605, 0)),
          Map.entry("kN", new Conversion("lbf", 1 / 4.4482216152605e-3, 0)),
          Map.entry("N·m", new Conversion("lbf·ft", 1 / 1.3558179483314004, 0))));

  private final transient Map<String, Conversion> conversions;

  Units(Map<String, Conversion> conversions) {
    this.conversions = conversions;
  }

  private record Conversion(String unit, double factor, double offset) {}

  /** Returns the unit on screen of numbers in a unit; what has no other stays as it is. */
  public String unit(String unit) {
    Conversion c = conversions.get(unit);
    return c == null ? unit : c.unit();
  }

  /** Returns a number in a unit as it stands on screen. */
  public double shown(double value, String unit) {
    Conversion c = conversions.get(unit);
    return c == null ? value : value * c.factor() + c.offset();
  }

  /** Returns a number from the screen in a unit; {@link #shown} the other way round. */
  public double read(double shown, String unit) {
    Conversion c = conversions.get(unit);
    return c == null ? shown : (shown - c.offset()) / c.factor();
  }
}
