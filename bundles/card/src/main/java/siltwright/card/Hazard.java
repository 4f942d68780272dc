package siltwright.card;

import java.util.Arrays;
import java.util.List;

/** What can hurt someone at a change. Each has its caution in every template. */
public enum Hazard {
  /** Somebody starts or moves the machine, or it moves by itself. */
  MACHINE_MOVES("machine-moves"),
  /** Raised loads, accumulators, springs, oil shut in. */
  STORED_ENERGY("stored-energy"),
  /** Air over the oil, in a tank that is meant to hold it or behind a blocked breather. */
  TANK_PRESSURE("tank-pressure"),
  /** Oil and metal that burn the skin. */
  HOT_OIL("hot-oil"),
  /** A jet too thin to see that goes through skin. */
  FLUID_INJECTION("fluid-injection"),
  /** A place from which one can fall. */
  WORKING_HEIGHT("working-height"),
  /** Oil on the ground: slips, fire, water. */
  SPILL("spill"),
  /** A load too heavy or too awkward for the hands. */
  LIFTING("lifting");

  private final String word;

  Hazard(String word) {
    this.word = word;
  }

  /** Returns the word that templates use. */
  public String word() {
    return word;
  }

  /** Returns all words, in order. */
  public static List<String> words() {
    return Arrays.stream(values()).map(Hazard::word).toList();
  }

  /**
   * Returns the hazard with a word.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Hazard of(String word) {
    return Arrays.stream(values())
        .filter(h -> h.word.equals(word))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException(word));
  }
}
