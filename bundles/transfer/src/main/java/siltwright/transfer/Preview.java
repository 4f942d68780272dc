package siltwright.transfer;

import java.util.List;
import siltwright.model.Problem;

/**
 * What would become of a table.
 *
 * @param mapping how it is written and what its columns are
 * @param headRow row of its headings; 0 where they stand apart from the rows
 * @param headings all headings, the columns that are not used included
 * @param columns fields of the records, in the order of the cells below
 * @param rows what would become of the first rows
 * @param notes what is taken for granted, a sentence each
 * @param questions what the table leaves open
 */
public record Preview(
    Mapping mapping,
    long headRow,
    List<String> headings,
    List<String> columns,
    List<Line> rows,
    List<String> notes,
    List<Problem> questions) {
  public Preview {
    headings = List.copyOf(headings);
    columns = List.copyOf(columns);
    rows = List.copyOf(rows);
    notes = List.copyOf(notes);
    questions = List.copyOf(questions);
  }

  /**
   * A row.
   *
   * @param row row in the file
   * @param cells machine, instant and fields as texts; empty if they cannot be read
   * @param refused why it would be refused; empty if it would not
   */
  public record Line(long row, List<String> cells, String refused) {
    public Line {
      cells = List.copyOf(cells);
    }
  }
}
