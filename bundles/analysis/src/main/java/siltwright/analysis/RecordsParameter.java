package siltwright.analysis;

import java.util.List;
import java.util.Optional;

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
  public Optional<String> standard() {
    return Optional.empty();
  }

  @Override
  public boolean required() {
    return false;
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
