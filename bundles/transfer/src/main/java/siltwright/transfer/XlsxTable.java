package siltwright.transfer;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ExcelReaderException;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Sheet;
import org.dhatim.fastexcel.reader.SheetVisibility;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** A table in a sheet of a spreadsheet. */
final class XlsxTable implements Table {
  private final Path file;
  private final ReadableWorkbook book;
  private final Stream<org.dhatim.fastexcel.reader.Row> stream;
  private final Iterator<org.dhatim.fastexcel.reader.Row> rows;
  private long line;

  private XlsxTable(Path file, ReadableWorkbook book, Sheet sheet) throws IOException {
    this.file = file;
    this.book = book;
    this.stream = sheet.openStream();
    this.rows = stream.iterator();
  }

  /**
   * Opens a sheet.
   *
   * @param sheet its name; empty for the first that can be seen
   * @param digest told all bytes of the file; null if nobody wants to know
   */
  static XlsxTable open(Path file, String sheet, MessageDigest digest) throws IOException {
    SpreadsheetGuard.check(file);
    TableFile.digest(file, digest);
    return guarded(file, "", () -> opened(file, sheet));
  }

  private static XlsxTable opened(Path file, String sheet) throws IOException {
    ReadableWorkbook book = new ReadableWorkbook(file.toFile(), new ReadingOptions(true, true));
    boolean sound = false;
    try {
      List<Sheet> sheets = book.getSheets().toList();
      Optional<Sheet> found =
          sheets.stream()
              .filter(
                  s ->
                      sheet.isEmpty()
                          ? s.getVisibility() == SheetVisibility.VISIBLE
                          : s.getName().equals(sheet))
              .findFirst();
      if (found.isEmpty()) {
        String names = String.join(", ", sheets.stream().map(Sheet::getName).toList());
        throw sheet.isEmpty()
            ? new InputException(
                new Problem(file.toString(), "", "no sheet", "one that can be seen"))
            : new InputException(new Problem("option", "--sheet", sheet, "one of " + names));
      }
      XlsxTable table = new XlsxTable(file, book, found.get());
      sound = true;
      return table;
    } finally {
      if (!sound) {
        book.close();
      }
    }
  }

  /** A piece of reading. */
  private interface Piece<T> {
    T get() throws Exception;
  }

  /** Whatever the library throws at parts that no writer wrote, the file is damaged. */
  private static <T> T guarded(Path file, String place, Piece<T> piece) {
    try {
      return piece.get();
    } catch (InputException e) {
      throw e;
    } catch (Exception e) {
      throw new InputException(
          new Problem(file.toString(), place, "a damaged spreadsheet", "a sound one (XLSX)"));
    }
  }

  /** Returns the names of the sheets that can be seen. */
  static List<String> sheets(Path file) throws IOException {
    SpreadsheetGuard.check(file);
    return guarded(
        file,
        "",
        () -> {
          try (ReadableWorkbook book = new ReadableWorkbook(file.toFile())) {
            return book.getSheets()
                .filter(s -> s.getVisibility() == SheetVisibility.VISIBLE)
                .map(Sheet::getName)
                .toList();
          }
        });
  }

  @Override
  public Row next() {
    return guarded(file, "after row " + line, this::row);
  }

  private Row row() {
    while (rows.hasNext()) {
      org.dhatim.fastexcel.reader.Row from = rows.next();
      line = from.getRowNum();
      int width = from.getCellCount();
      if (width > CsvTable.WIDEST) {
        throw new InputException(
            new Problem(
                file.toString(), "row " + line, width + " cells", "at most " + CsvTable.WIDEST));
      }
      Object[] cells = new Object[width];
      for (int i = 0; i < width; i++) {
        cells[i] = value(from.getCell(i));
      }
      Row row = new Row(line, cells);
      if (!row.isEmpty()) {
        return row;
      }
    }
    return null;
  }

  private static Object value(Cell cell) {
    if (cell == null || cell.getType() == CellType.EMPTY) {
      return null;
    }
    Object value = cell.getValue();
    if (value instanceof BigDecimal number) {
      if (isDate(cell)) {
        try {
          LocalDateTime date = cell.asDate();
          return date.plusNanos(500_000_000).withNano(0);
        } catch (DateTimeException | ExcelReaderException e) {
          return number.doubleValue();
        }
      }
      return number.doubleValue();
    }
    if (value instanceof Boolean) {
      return value;
    }
    if (cell.getType() == CellType.ERROR) {
      return "#N/A".equals(cell.getRawValue()) ? null : String.valueOf(cell.getRawValue());
    }
    String text = cell.getRawValue() == null ? cell.getText() : String.valueOf(value);
    return text == null || text.equals("null") ? null : text;
  }

  /**
   * Returns whether a number is shown as a date: built-in formats 14 to 22, or a day in its own.
   */
  private static boolean isDate(Cell cell) {
    Integer id = cell.getDataFormatId();
    if (id != null && id >= 14 && id <= 22 && id != 18 && id != 19 && id != 20 && id != 21) {
      return true;
    }
    String format = cell.getDataFormatString();
    if (format == null) {
      return false;
    }
    String plain =
        format.replaceAll("\"[^\"]*\"|\\\\.|\\[[^\\]]*\\]", "").toLowerCase(java.util.Locale.ROOT);
    return plain.contains("d") && plain.contains("m") || plain.contains("yy");
  }

  @Override
  public double share() {
    return 0.5;
  }

  @Override
  public void close() {
    try {
      stream.close();
      book.close();
    } catch (IOException e) {
      // it was only read
    }
  }
}
