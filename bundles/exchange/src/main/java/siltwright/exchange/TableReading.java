package siltwright.exchange;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.RecordColumn.Kind;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * A table while it is read. A column that may hold numbers or words is read as numbers; a word in a
 * sound row has the table read once more, with that column as words.
 */
final class TableReading {
  private final byte[] bytes;
  private final int start;
  private final String source;
  private final char delimiter;
  private final List<RecordColumn> wanted;
  private final Set<String> words = new HashSet<>();

  // of one pass
  private List<String> names = List.of();
  private ColumnReading[] columnAt = {};
  private Refusals refusals;
  private int[] lines = {};
  private int rows;
  private ColumnReading faulty;
  private String fault;
  private String found;
  private boolean blank;
  private boolean onlyBlanksBeyond;

  TableReading(byte[] bytes, int start, char delimiter, String source, List<RecordColumn> wanted) {
    this.bytes = bytes;
    this.start = start;
    this.source = source;
    this.delimiter = delimiter;
    this.wanted = wanted;
  }

  List<String> columnNames() {
    head(new Cells(bytes, start, delimiter, source));
    return names.stream().filter(n -> !n.isEmpty()).toList();
  }

  Records read() {
    while (!pass()) {
      continue; // a column is of words
    }
    List<ColumnReading> present =
        wanted.stream()
            .filter(w -> names.contains(w.name()))
            .map(w -> columnAt[names.indexOf(w.name())])
            .toList();
    List<String> notes = new ArrayList<>();
    String ignored =
        names.stream()
            .filter(n -> !n.isEmpty() && wanted.stream().noneMatch(w -> w.name().equals(n)))
            .map(ColumnReading::shown)
            .collect(Collectors.joining(", "));
    if (!ignored.isEmpty()) {
      notes.add("Columns that were not asked for and are not used: " + ignored + ".");
    }
    for (ColumnReading c : present) {
      if (!c.ambiguous.isEmpty()) {
        notes.add(
            "Column "
                + c.column.name()
                + ", row "
                + c.ambiguousLine
                + ": "
                + c.ambiguous
                + " was read as "
                + c.ambiguous.replace(',', '.')
                + ", with a decimal comma. If thousands are meant, write them without a comma.");
      }
    }
    List<Records.Column> done = present.stream().map(ColumnReading::done).toList();
    return new Records(source, Arrays.copyOf(lines, rows), done, refusals, notes);
  }

  /** Reads all rows; returns false, in the midst, where a column turns out to be of words. */
  private boolean pass() {
    Cells cells = new Cells(bytes, start, delimiter, source);
    head(cells);
    refusals = new Refusals(source);
    lines = new int[1024];
    rows = 0;
    while (cells.more()) {
      int line = cells.line();
      int fields = row(cells, line);
      if (!blank && fields != names.size() && !(fields > names.size() && onlyBlanksBeyond)) {
        refuseLength(line, fields);
      } else if (!blank && fault != null && faulty.mayBeWords()) {
        words.add(faulty.column.name());
        return false;
      } else if (!blank && fault != null) {
        refusals.refuse(line, faulty.column.name(), ColumnReading.shown(found), fault);
      } else if (!blank) {
        if (rows == lines.length) {
          lines = Arrays.copyOf(lines, 2 * rows);
        }
        lines[rows++] = line;
        continue;
      }
      for (ColumnReading c : columnAt) {
        if (c != null) {
          c.cut(rows);
        }
      }
    }
    return true;
  }

  /** Takes the cells of a row; returns how many there are, and leaves what is wrong with them. */
  private int row(Cells cells, int line) {
    fault = null;
    blank = true;
    onlyBlanksBeyond = true;
    int field = 0;
    do {
      ColumnReading c = field < columnAt.length ? columnAt[field] : null;
      if (c != null && c.numbers) {
        number(cells, c, line);
      } else {
        cells.next();
        boolean empty = cells.isBlank();
        blank &= empty;
        onlyBlanksBeyond &= empty || field < names.size();
        if (c != null) {
          c.takeWord(cells);
        }
      }
      field++;
    } while (!cells.last());
    return field;
  }

  private void number(Cells cells, ColumnReading c, int line) {
    double v = cells.nextNumber();
    if (v == v) {
      blank = false;
      if (!c.take(v)) {
        fault(c, cells.text(), c.expected());
      }
      return;
    }
    cells.next();
    String text = cells.text();
    blank &= text.isEmpty();
    String expected = c.takeNumber(text, line);
    if (expected != null) {
      fault(c, text, expected);
    }
  }

  /** Keeps a row's first fault; that a number is out of range or none before that it is a word. */
  private void fault(ColumnReading c, String text, String expected) {
    if (fault == null || faulty.mayBeWords() && !c.mayBeWords()) {
      faulty = c;
      found = text;
      fault = expected;
    }
  }

  private void refuseLength(int line, int fields) {
    boolean commas = delimiter == ',' && fields > names.size();
    refusals.refuse(
        line,
        "",
        fields + " cells",
        names.size()
            + " as in the first row"
            + (commas ? "; with decimal commas, part the columns by semicolons" : ""));
  }

  private void head(Cells cells) {
    List<String> read = new ArrayList<>();
    while (cells.more() && read.stream().allMatch(String::isEmpty)) {
      read.clear();
      do {
        cells.next();
        read.add(cells.text());
      } while (!cells.last());
    }
    if (read.stream().allMatch(String::isEmpty)) {
      throw refusal("nothing", "the names of the columns");
    }
    names = List.copyOf(read);
    checkNames();
    columnAt = new ColumnReading[names.size()];
    for (RecordColumn w : wanted) {
      int at = names.indexOf(w.name());
      if (at >= 0) {
        boolean numbers = w.kind() != Kind.WORD && !words.contains(w.name());
        columnAt[at] = new ColumnReading(w, numbers, delimiter != ',');
      }
    }
  }

  private void checkNames() {
    Set<String> before = new HashSet<>();
    for (String name : names) {
      if (!name.isEmpty() && !before.add(name)) {
        throw refusal("column " + ColumnReading.shown(name) + " twice", "each name once");
      }
    }
    List<Problem> missing = new ArrayList<>();
    for (RecordColumn w : wanted) {
      if (w.required() && !names.contains(w.name())) {
        String near =
            names.stream()
                .filter(n -> n.equalsIgnoreCase(w.name()))
                .map(n -> "; " + n + " is written otherwise")
                .findFirst()
                .orElse("");
        missing.add(
            new Problem(
                source,
                "row 1",
                "columns " + ColumnReading.shown(String.join(", ", names)),
                "a column " + w.name() + ": " + w.meaning() + near));
      }
    }
    if (!missing.isEmpty()) {
      throw new InputException(missing);
    }
  }

  private InputException refusal(String found, String expected) {
    return new InputException(new Problem(source, "row 1", found, expected));
  }
}
