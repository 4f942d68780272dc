package siltwright.analysis;

/**
 * A column that an analysis takes from a table of records.
 *
 * @param name its name in the table's first row
 * @param kind what stands in it
 * @param low lowest number, where it holds numbers
 * @param high highest number
 * @param required whether the table must have it; a single cell may be empty all the same
 * @param meaning what it means, with its unit, in one clause
 */
public record RecordColumn(
    String name, Kind kind, double low, double high, boolean required, String meaning) {
  /** What stands in a column. */
  public enum Kind {
    /** Numbers; a row with anything else is refused. */
    NUMBER,
    /** Words; numbers are words too. */
    WORD,
    /** Numbers if there is nothing else in it, else words. */
    EITHER
  }

  /** Returns a column of numbers in a range. */
  public static RecordColumn number(
      String name, double low, double high, boolean required, String meaning) {
    return new RecordColumn(name, Kind.NUMBER, low, high, required, meaning);
  }

  /** Returns a column of words. */
  public static RecordColumn word(String name, boolean required, String meaning) {
    return new RecordColumn(
        name, Kind.WORD, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, required, meaning);
  }

  /** Returns a column of numbers or of words, which must be there. */
  public static RecordColumn either(String name, String meaning) {
    return new RecordColumn(
        name, Kind.EITHER, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, true, meaning);
  }
}
