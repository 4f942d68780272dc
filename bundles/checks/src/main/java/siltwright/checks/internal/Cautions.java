package siltwright.checks.internal;

/** What every check says besides its number. */
final class Cautions {
  static final String MANUAL =
      "The machine maker's manual, local codes and licensed practice come first; where they and"
          + " this sheet differ, follow them.";
  static final String PRESSURE =
      "Before anything is opened: engine off and locked out, loads lowered, pressure let off"
          + " accumulators and tank, and the gauge at zero. A thin jet goes through skin; hot oil burns.";

  private Cautions() {}
}
