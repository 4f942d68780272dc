package siltwright.cleanliness;

import java.util.Arrays;

/** The contamination classes of SAE AS4059 and NAS 1638, cleanest first. */
public enum CountClass {
  /** Class 000, of AS4059's cumulative table only. */
  CLASS_000("000"),
  /** Class 00. */
  CLASS_00("00"),
  /** Class 0. */
  CLASS_0("0"),
  /** Class 1. */
  CLASS_1("1"),
  /** Class 2. */
  CLASS_2("2"),
  /** Class 3. */
  CLASS_3("3"),
  /** Class 4. */
  CLASS_4("4"),
  /** Class 5. */
  CLASS_5("5"),
  /** Class 6. */
  CLASS_6("6"),
  /** Class 7. */
  CLASS_7("7"),
  /** Class 8. */
  CLASS_8("8"),
  /** Class 9. */
  CLASS_9("9"),
  /** Class 10. */
  CLASS_10("10"),
  /** Class 11. */
  CLASS_11("11"),
  /** Class 12, the last of the tables. */
  CLASS_12("12"),
  /** Above the tables. */
  ABOVE_12(">12");

  private final String label;

  CountClass(String label) {
    this.label = label;
  }

  /**
   * Reads a class such as {@code 00} or {@code 7}.
   *
   * @throws IllegalArgumentException if there is no such class
   */
  public static CountClass parse(String text) {
    return Arrays.stream(values())
        .filter(c -> c.label.equals(text))
        .findFirst()
        .orElseThrow(
            () -> new IllegalArgumentException("a class is 000, 00, 0 to 12 or >12, not " + text));
  }

  /** Returns the class as it is written. */
  @Override
  public String toString() {
    return label;
  }
}
