package siltwright.analysis;

import java.util.List;

/**
 * A further table of records beside the one that the analysis works on. Whoever runs the analysis
 * reads it into {@link Context#tables()}.
 *
 * @param name name
 * @param columns columns to take from it
 * @param meaning meaning
 */
public record RecordsParameter(String name, List<RecordColumn> columns, String meaning)
    implements Parameter<String> {
  public RecordsParameter {
    columns = List.copyOf(columns);
  }

  @Override
  public String form() {
    return "a table of records (CSV)";
  }

  @Override
  public String read(String text) {
    return text;
  }
}
