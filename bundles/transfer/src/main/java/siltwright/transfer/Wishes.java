package siltwright.transfer;

import java.util.List;

/**
 * What the user says of a table. A text is empty, and the list too, where it is left to the table.
 *
 * @param kind word of the kind of record
 * @param sheet name of the sheet of a spreadsheet
 * @param encoding character encoding
 * @param delimiter what parts the cells: one character, or the word tab
 * @param decimal {@code point} or {@code comma}
 * @param dates word of the order of dates
 * @param zone time zone of times that name none
 * @param machine id of the machine that the whole table is of
 * @param match auto, id or serial
 * @param rule {@code REGEX=>ID}
 * @param columns {@code HEADING=FIELD}, with a unit in brackets behind it where it is another
 */
public record Wishes(
    String kind,
    String sheet,
    String encoding,
    String delimiter,
    String decimal,
    String dates,
    String zone,
    String machine,
    String match,
    String rule,
    List<String> columns) {
  /** Everything is left to the table. */
  public static final Wishes NONE =
      new Wishes("", "", "", "", "", "", "", "", "auto", "", List.of());

  public Wishes {
    columns = List.copyOf(columns);
  }

  /** Returns what a kept mapping says, where nothing else is wished. */
  Wishes over(Mapping kept) {
    return new Wishes(
        or(kind, kept.kind()),
        or(sheet, kept.sheet()),
        or(encoding, kept.encoding()),
        or(delimiter, kept.delimiter()),
        or(decimal, kept.decimal().equals(",") ? "comma" : "point"),
        or(dates, kept.dates().word()),
        or(zone, kept.zone()),
        machine,
        match.equals("auto") ? kept.match() : match,
        or(rule, kept.rule()),
        columns);
  }

  private static String or(String wish, String kept) {
    return wish.isEmpty() ? kept : wish;
  }
}
