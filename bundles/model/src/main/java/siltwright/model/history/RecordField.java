package siltwright.model.history;

import java.util.Locale;

/**
 * A field of a record.
 *
 * @param name name with its unit, such as {@code drop_kPa}
 * @param type what stands in it
 * @param low lowest number, where it is one
 * @param high highest number
 * @param need whether it may be empty
 * @param meaning what it means, in one clause
 */
public record RecordField(
    String name, Type type, double low, double high, Need need, String meaning) {
  /** What stands in a field. */
  public enum Type {
    /** A number in the unit that the name states. */
    NUMBER,
    /** A text. */
    TEXT
  }

  /** Whether a field may be empty. */
  public enum Need {
    /** It may. */
    OPTIONAL,
    /** It may not. */
    REQUIRED,
    /**
     * It tells records of one machine and instant apart; empty is a value like another. At most one
     * a kind.
     */
    KEY,
    /** Both of the two before. */
    REQUIRED_KEY
  }

  static RecordField number(String name, double low, double high, String meaning) {
    return new RecordField(name, Type.NUMBER, low, high, Need.OPTIONAL, meaning);
  }

  static RecordField text(String name, String meaning) {
    return text(name, Need.OPTIONAL, meaning);
  }

  static RecordField text(String name, Need need, String meaning) {
    return new RecordField(
        name, Type.TEXT, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, need, meaning);
  }

  RecordField required() {
    return new RecordField(name, type, low, high, Need.REQUIRED, meaning);
  }

  /** Returns the name of its column in a database: the same in lower case. */
  public String column() {
    return name.toLowerCase(Locale.ROOT);
  }

  /** Returns whether records of one machine and instant differ in it. */
  public boolean isKey() {
    return need == Need.KEY || need == Need.REQUIRED_KEY;
  }

  /** Returns whether it must not be empty. */
  public boolean isRequired() {
    return need == Need.REQUIRED || need == Need.REQUIRED_KEY;
  }
}
