package siltwright.analysis;

import java.util.List;
import org.osgi.annotation.versioning.ConsumerType;

/**
 * One analysis. Register it as a service and it has a command, a view and a section in the report.
 *
 * <p>{@link #run} is stateless: it may be called from many threads at once, reads nothing but its
 * arguments, and gives the same result for the same arguments.
 */
@ConsumerType
public interface Analysis {
  /** Returns what the analysis is called, what it works on and which parameters it takes. */
  Description description();

  /**
   * Returns the columns it takes from a table of records, where that is its scope.
   *
   * @param values a value for each parameter: some may name columns
   */
  default List<RecordColumn> columns(Values values) {
    return List.of();
  }

  /**
   * Computes the result.
   *
   * @param context what the analysis works on, as {@link Description#scope()} asks
   * @param values a value for each parameter
   * @param progress told how far the work is; asks to stop by {@link Progress#check}
   * @return values, tables, figures and findings
   * @throws siltwright.model.InputException if a value or the context is at fault
   * @throws java.util.concurrent.CancellationException if asked to stop
   */
  Result run(Context context, Values values, Progress progress);
}
