package siltwright.parquet;

/** What is wrong with a file, before it is said of which one and where in it. */
final class Damage extends RuntimeException {
  private static final long serialVersionUID = 1;

  private final String found;
  private final String expected;

  Damage(String found, String expected) {
    super(found, null, false, false);
    this.found = found;
    this.expected = expected;
  }

  static Damage damaged(String what) {
    return new Damage("a damaged file (" + what + ")", "a sound Parquet file");
  }

  String found() {
    return found;
  }

  String expected() {
    return expected;
  }
}
