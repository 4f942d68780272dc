package siltwright.card;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.card.CardRecords.Filled;

/** Filled cards out of a table, a row each. */
public final class FilledCards {
  private FilledCards() {}

  /** Returns the columns of such a table. */
  public static List<RecordColumn> columns() {
    List<RecordColumn> columns = new ArrayList<>();
    columns.add(RecordColumn.word("card", true, "id of the card, as printed and in its code"));
    columns.add(RecordColumn.word("date", true, "day of the change, such as 2026-03-31"));
    columns.add(RecordColumn.word("doneBy", true, "who did it"));
    columns.add(RecordColumn.word("checkedBy", true, "who checked it"));
    for (RecordField f : RecordField.values()) {
      columns.add(
          f.kind() == RecordField.Kind.NUMBER
              ? RecordColumn.number(f.column(), f.low(), f.high(), f.required(), f.meaning())
              : RecordColumn.word(f.column(), f.required(), f.meaning()));
    }
    return columns;
  }

  /** Returns the cards of a table. */
  public static List<Filled> of(Records records) {
    return IntStream.range(0, records.rows()).mapToObj(row -> filled(records, row)).toList();
  }

  private static Filled filled(Records records, int row) {
    Map<RecordField, String> fields = new EnumMap<>(RecordField.class);
    for (RecordField f : RecordField.values()) {
      String text = text(records, f.column(), row);
      if (!text.isEmpty()) {
        fields.put(f, text);
      }
    }
    return new Filled(
        records.line(row),
        text(records, "card", row),
        text(records, "date", row),
        text(records, "doneBy", row),
        text(records, "checkedBy", row),
        fields);
  }

  private static String text(Records records, String column, int row) {
    return records
        .find(column)
        .filter(c -> !c.missing(row))
        .map(c -> c instanceof Records.Numbers n ? ExactNumber.text(n.values()[row]) : c.text(row))
        .orElse("");
  }
}
