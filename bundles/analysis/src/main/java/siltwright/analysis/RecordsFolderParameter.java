package siltwright.analysis;

/**
 * A folder of tables of the same columns as the one worked on, such as earlier logs. Whoever runs
 * the analysis reads them, in the natural order of their names, into {@link Context#others()}.
 *
 * @param name name
 * @param meaning meaning
 */
public record RecordsFolderParameter(String name, String meaning) implements Parameter<String> {
  @Override
  public String form() {
    return "a folder of tables of records (CSV)";
  }

  @Override
  public String read(String text) {
    return text;
  }
}
