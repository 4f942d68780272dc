package siltwright.exchange;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Reads tables of records: CSV (RFC 4180) in UTF-8 with or without byte-order mark, the names of
 * the columns in the first row, commas, semicolons or tabs between the columns, quotes where a cell
 * needs them. Where no comma parts the columns, numbers may have a decimal comma.
 *
 * <p>A row at fault is refused and named, the others are read; rows without any content are passed
 * over. What makes the table as a whole unreadable is refused.
 */
public final class RecordsReader {
  private static final char[] DELIMITERS = {'\t', ';', ','};

  private RecordsReader() {}

  /**
   * Reads a file.
   *
   * @param file the file
   * @param wanted columns to read; others are passed over and named in the notes
   * @throws InputException if the file cannot be read, is not UTF-8 or no CSV, or lacks a column
   *     that is required
   */
  public static Records read(Path file, List<RecordColumn> wanted) {
    return read(TextFile.read(file), file.toString(), wanted);
  }

  /**
   * Reads the text of a file.
   *
   * @param text the text, without byte-order mark
   * @param source name of the file in messages
   * @param wanted as above
   * @throws InputException as above
   */
  public static Records read(String text, String source, List<RecordColumn> wanted) {
    char delimiter = delimiter(text);
    try {
      // Rows of another length than the first, and empty ones, are told by their place below.
      Iterator<CsvRecord> rows =
          CsvReader.builder()
              .fieldSeparator(delimiter)
              .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
              .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
              .skipEmptyLines(true)
              .allowUnclosedQuote(false)
              .ofCsvRecord(text)
              .iterator();
      if (!rows.hasNext()) {
        throw refusal(source, "row 1", "nothing", "the names of the columns");
      }
      List<String> names = rows.next().getFields().stream().map(String::strip).toList();
      return new Reading(source, names, delimiter, wanted).read(rows);
    } catch (CsvParseException e) {
      throw refusal(
          source,
          "",
          "a quoted cell that does not end, or that goes on behind its closing quote ("
              + e.getMessage()
              + ")",
          "quotes only round whole cells, a quote within them doubled");
    }
  }

  /** Returns what parts the columns in the first line: what stands there most often. */
  private static char delimiter(String text) {
    int[] found = new int[DELIMITERS.length];
    boolean quoted = false;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '"') {
        quoted = !quoted;
      } else if (!quoted && (c == '\n' || c == '\r')) {
        if (Arrays.stream(found).sum() > 0 || !text.substring(0, i).isBlank()) {
          break;
        }
      } else if (!quoted) {
        for (int d = 0; d < DELIMITERS.length; d++) {
          found[d] += c == DELIMITERS[d] ? 1 : 0;
        }
      }
    }
    int best = DELIMITERS.length - 1;
    for (int d = best - 1; d >= 0; d--) {
      best = found[d] > found[best] ? d : best;
    }
    return DELIMITERS[best];
  }

  private static InputException refusal(
      String source, String place, String found, String expected) {
    return new InputException(new Problem(source, place, found, expected));
  }

  private static final class Reading {
    private final String source;
    private final List<String> names;
    private final boolean commas;
    private final List<ColumnReading> columns = new ArrayList<>();
    private final int[] at;
    private final Refusals refusals;
    private final List<String> notes = new ArrayList<>();
    private int[] lines = new int[1024];

    Reading(String source, List<String> names, char delimiter, List<RecordColumn> wanted) {
      this.source = source;
      this.names = names;
      this.commas = delimiter == ',';
      this.refusals = new Refusals(source);
      checkNames(wanted);
      List<RecordColumn> present = wanted.stream().filter(w -> names.contains(w.name())).toList();
      present.forEach(w -> columns.add(new ColumnReading(w, !commas)));
      at = present.stream().mapToInt(w -> names.indexOf(w.name())).toArray();
      String ignored =
          names.stream()
              .filter(n -> !n.isEmpty() && wanted.stream().noneMatch(w -> w.name().equals(n)))
              .map(ColumnReading::shown)
              .collect(Collectors.joining(", "));
      if (!ignored.isEmpty()) {
        notes.add("Columns that were not asked for and are not used: " + ignored + ".");
      }
    }

    private void checkNames(List<RecordColumn> wanted) {
      Set<String> before = new HashSet<>();
      for (String name : names) {
        if (!name.isEmpty() && !before.add(name)) {
          throw refusal(
              source, "row 1", "column " + ColumnReading.shown(name) + " twice", "each name once");
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

    Records read(Iterator<CsvRecord> rows) {
      int n = 0;
      while (rows.hasNext()) {
        CsvRecord row = rows.next();
        int line = (int) row.getStartingLineNumber();
        int fields = row.getFieldCount();
        if (isBlank(row, fields)) {
          continue;
        }
        if (n == lines.length) {
          lines = Arrays.copyOf(lines, 2 * n);
        }
        if (fields != names.size() && !onlyBlanksBeyond(row, fields)) {
          refusals.refuse(
              line,
              "",
              fields + " cells",
              names.size()
                  + " as in the first row"
                  + (commas && fields > names.size()
                      ? "; with decimal commas, part the columns by semicolons"
                      : ""));
        } else if (take(row, fields, line)) {
          lines[n++] = line;
        } else {
          for (ColumnReading c : columns) {
            c.cut(n);
          }
        }
      }
      List<Records.Column> done = columns.stream().map(ColumnReading::done).toList();
      columns.stream().filter(c -> !c.ambiguous.isEmpty()).forEach(this::note);
      return new Records(source, Arrays.copyOf(lines, n), done, refusals, notes);
    }

    /** Takes the cells of a row; returns whether all could be. */
    private boolean take(CsvRecord row, int fields, int line) {
      for (int c = 0; c < at.length; c++) {
        String cell = at[c] < fields ? row.getField(at[c]).strip() : "";
        String expected = columns.get(c).take(cell, line);
        if (expected != null) {
          refusals.refuse(line, columns.get(c).column.name(), ColumnReading.shown(cell), expected);
          return false;
        }
      }
      return true;
    }

    private void note(ColumnReading c) {
      notes.add(
          "Column "
              + c.column.name()
              + (c.ambiguousLine > 0 ? ", row " + c.ambiguousLine : "")
              + ": "
              + c.ambiguous
              + " was read as "
              + c.ambiguous.replace(',', '.')
              + ", with a decimal comma. If thousands are meant, write them without a comma.");
    }

    private static boolean isBlank(CsvRecord row, int fields) {
      for (int i = 0; i < fields; i++) {
        if (!row.getField(i).isBlank()) {
          return false;
        }
      }
      return true;
    }

    /** Spreadsheets leave empty cells behind the last column, or leave the last ones out. */
    private boolean onlyBlanksBeyond(CsvRecord row, int fields) {
      for (int i = names.size(); i < fields; i++) {
        if (!row.getField(i).isBlank()) {
          return false;
        }
      }
      return fields > names.size();
    }
  }
}
