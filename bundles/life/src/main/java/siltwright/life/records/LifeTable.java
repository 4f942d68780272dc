package siltwright.life.records;

import java.util.List;
import siltwright.analysis.Records;
import siltwright.life.LifeData;
import siltwright.life.internal.LifeRecords;

/**
 * Lives out of a user's table, every row checked as the command {@code life} does.
 *
 * @param kept the rows that are sound, with all refusals
 * @param data a life for each of them, with the covariates asked for
 */
public record LifeTable(Records kept, LifeData data) {
  /**
   * Makes lives of a table.
   *
   * @param table with the columns of {@code docs/life.md}
   * @param covariates columns that every row needs a value in
   * @throws siltwright.model.InputException if a column is missing or no row is sound
   */
  public static LifeTable of(Records table, List<String> covariates) {
    LifeRecords records = LifeRecords.of(table, covariates);
    return new LifeTable(records.kept(), records.data());
  }
}
