package siltwright.transfer;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.KnownMachine;
import siltwright.model.history.Moment;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;
import siltwright.parquet.ParquetWriter;

/**
 * Writes records so that other programs can read them, and import can read them back.
 *
 * <p>Times are local ones of the machine's site with their distance from UTC; of a record of which
 * only the day is known it is the day. Beside what the meter showed stand the hours of the machine
 * with the meter's mends.
 */
public final class Exporter {
  private static final List<String> COMMON = List.of("machine", "date", "meter_h", "hours_h");

  private final FleetHistory history;
  private final List<RecordKind> kinds;
  private final List<KnownMachine> machines;
  private final Progress progress;
  private final Map<RecordKind, Long> written = new EnumMap<>(RecordKind.class);

  /**
   * Makes an exporter.
   *
   * @param machine id of the only machine; empty for all
   * @throws InputException if there is no such machine
   */
  public Exporter(FleetHistory history, List<RecordKind> kinds, String machine, Progress progress) {
    this.history = history;
    this.kinds = List.copyOf(kinds);
    this.machines =
        history.machines().stream()
            .filter(m -> machine.isEmpty() || m.id().equals(machine))
            .toList();
    this.progress = progress;
    if (machines.isEmpty() && !machine.isEmpty()) {
      throw new InputException(
          new Problem("option", "--machine", machine, "a machine that the store knows"));
    }
  }

  /** Where the cells of a record go. */
  interface Sink {
    /**
     * Takes a record.
     *
     * @param machine its machine
     * @param moment when it is of
     * @param values values of its fields
     */
    void take(KnownMachine machine, Moment moment, Object[] values) throws IOException;
  }

  /** Returns how many records of each kind were written. */
  public Map<RecordKind, Long> written() {
    return written;
  }

  static List<String> headings(RecordKind kind) {
    List<String> headings = new ArrayList<>(COMMON);
    kind.fields().stream().map(RecordField::name).forEach(headings::add);
    return headings;
  }

  static String date(Moment moment, ZoneId zone) {
    return moment.wholeDay()
        ? moment.at().atZone(zone).toLocalDate().toString()
        : DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
            moment.at().truncatedTo(ChronoUnit.SECONDS).atZone(zone));
  }

  void each(RecordKind kind, Sink sink) {
    long[] count = new long[1];
    for (int i = 0; i < machines.size(); i++) {
      KnownMachine m = machines.get(i);
      int at = i;
      history.records(
          kind,
          m.id(),
          (moment, values) -> {
            if (count[0]++ % 1000 == 0) {
              progress.check((double) at / machines.size(), "export of " + kind.word());
            }
            try {
              sink.take(m, moment, values);
            } catch (IOException e) {
              throw new UncheckedIOException(e);
            }
          });
    }
    written.put(kind, count[0]);
  }

  /** Writes one kind as CSV. */
  public void csv(RecordKind kind, Path to) throws IOException {
    try (BufferedWriter text = Files.newBufferedWriter(to);
        CsvWriter csv = CsvText.writer(text)) {
      csv.writeRecord(headings(kind));
      each(
          kind,
          (m, moment, values) -> {
            String[] cells = new String[COMMON.size() + values.length];
            cells[0] = CsvText.harmless(m.id());
            cells[1] = date(moment, m.zone());
            cells[2] = number(moment.meterH());
            cells[3] = number(moment.hoursH());
            for (int i = 0; i < values.length; i++) {
              cells[COMMON.size() + i] =
                  values[i] instanceof Double d ? number(d) : CsvText.harmless((String) values[i]);
            }
            csv.writeRecord(cells);
          });
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  private static String number(double value) {
    return Double.isNaN(value) ? "" : Importer.plain(value);
  }

  /** Writes all kinds as one JSON document. */
  public void json(Path to) throws IOException {
    try (BufferedWriter text = Files.newBufferedWriter(to);
        JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.useDefaultPrettyPrinter();
      json.writeStartObject();
      json.writeStringField("schema", "siltwright-records/1");
      json.writeArrayFieldStart("machines");
      for (KnownMachine m : machines) {
        json.writeStartObject();
        json.writeStringField("machine", m.id());
        json.writeStringField("serial", m.serial());
        json.writeStringField("name", m.name());
        json.writeStringField("class", m.machineClass());
        json.writeStringField("site", m.site());
        json.writeStringField("zone", m.zone().getId());
        json.writeEndObject();
      }
      json.writeEndArray();
      for (RecordKind kind : kinds) {
        json.writeArrayFieldStart(kind.word());
        List<RecordField> fields = kind.fields();
        each(
            kind,
            (m, moment, values) -> {
              json.writeStartObject();
              json.writeStringField("machine", m.id());
              json.writeStringField("date", date(moment, m.zone()));
              number(json, "meter_h", moment.meterH());
              number(json, "hours_h", moment.hoursH());
              for (int i = 0; i < values.length; i++) {
                if (values[i] instanceof Double d) {
                  number(json, fields.get(i).name(), d);
                } else if (values[i] != null) {
                  json.writeStringField(fields.get(i).name(), (String) values[i]);
                }
              }
              json.writeEndObject();
            });
        json.writeEndArray();
      }
      json.writeEndObject();
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  /**
   * Writes one kind as Parquet: numbers as such. The date is the text that it is in CSV, which
   * tells days from times; the instant stands beside it as such.
   */
  public void parquet(RecordKind kind, Path to) throws IOException {
    List<ParquetWriter.Column> columns = new ArrayList<>();
    columns.add(new ParquetWriter.Column("machine", ParquetWriter.Kind.TEXT));
    columns.add(new ParquetWriter.Column("date", ParquetWriter.Kind.TEXT));
    columns.add(new ParquetWriter.Column("meter_h", ParquetWriter.Kind.NUMBER));
    columns.add(new ParquetWriter.Column("hours_h", ParquetWriter.Kind.NUMBER));
    for (RecordField f : kind.fields()) {
      boolean number = f.type() == RecordField.Type.NUMBER;
      columns.add(
          new ParquetWriter.Column(
              f.name(), number ? ParquetWriter.Kind.NUMBER : ParquetWriter.Kind.TEXT));
    }
    columns.add(new ParquetWriter.Column("at_utc", ParquetWriter.Kind.INSTANT));
    try (ParquetWriter file = ParquetWriter.create(to, columns)) {
      each(
          kind,
          (m, moment, values) -> {
            Object[] row = new Object[columns.size()];
            row[0] = m.id();
            row[1] = date(moment, m.zone());
            row[2] = Double.isNaN(moment.meterH()) ? null : moment.meterH();
            row[3] = Double.isNaN(moment.hoursH()) ? null : moment.hoursH();
            System.arraycopy(values, 0, row, COMMON.size(), values.length);
            row[row.length - 1] = moment.at();
            file.row(row);
          });
      file.finish();
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  /** Writes a sheet for each kind: numbers as numbers, dates as dates, units in the headings. */
  public void xlsx(Path to) throws IOException {
    try (OutputStream out = Files.newOutputStream(to);
        Workbook book = new Workbook(out, "Siltwright", "1.0")) {
      for (RecordKind kind : kinds) {
        new Sheets(book, kind).write();
      }
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  /** The sheets of one kind: more than one where it has more records than a sheet has rows. */
  private final class Sheets {
    private static final int MOST = 1_048_576;
    private static final int FLUSH = 1000;

    private final Workbook book;
    private final RecordKind kind;
    private Worksheet sheet;
    private int number;
    private int row;

    Sheets(Workbook book, RecordKind kind) {
      this.book = book;
      this.kind = kind;
    }

    void write() throws IOException {
      next();
      each(kind, this::take);
      sheet.finish();
    }

    private void next() throws IOException {
      if (sheet != null) {
        sheet.finish();
      }
      sheet = book.newWorksheet(kind.word() + (++number == 1 ? "" : " " + number));
      List<String> headings = headings(kind);
      for (int c = 0; c < headings.size(); c++) {
        sheet.value(0, c, headings.get(c));
        sheet.style(0, c).bold().set();
        sheet.width(c, Math.max(10, Math.min(22, headings.get(c).length() + 2)));
      }
      sheet.freezePane(1, 1);
      row = 1;
    }

    private void take(KnownMachine m, Moment moment, Object[] values) throws IOException {
      if (row == MOST) {
        next();
      }
      sheet.inlineString(row, 0, m.id());
      if (moment.wholeDay()) {
        sheet.value(row, 1, moment.at().atZone(m.zone()).toLocalDate());
        sheet.style(row, 1).format("yyyy-mm-dd").set();
      } else {
        time(moment, m.zone());
      }
      number(2, moment.meterH());
      number(3, moment.hoursH());
      for (int i = 0; i < values.length; i++) {
        if (values[i] instanceof Double d) {
          number(COMMON.size() + i, d);
        } else if (values[i] != null) {
          sheet.inlineString(row, COMMON.size() + i, (String) values[i]);
        }
      }
      if (++row % FLUSH == 0) {
        sheet.flush();
      }
    }

    /** A time that would be read as a day, or as another of an hour that comes twice, is a text. */
    private void time(Moment moment, ZoneId zone) {
      Instant at = moment.at().truncatedTo(ChronoUnit.SECONDS);
      LocalDateTime local = at.atZone(zone).toLocalDateTime();
      boolean midnight = local.toLocalTime().toSecondOfDay() == 0;
      if (midnight || !local.atZone(zone).toInstant().equals(at)) {
        sheet.inlineString(row, 1, date(moment, zone));
      } else {
        sheet.value(row, 1, local);
        sheet.style(row, 1).format("yyyy-mm-dd hh:mm:ss").set();
      }
    }

    private void number(int column, double value) {
      if (!Double.isNaN(value)) {
        sheet.value(row, column, value);
      }
    }
  }

  private static void number(JsonGenerator json, String name, double value) throws IOException {
    if (Double.isNaN(value)) {
      return;
    }
    if (value == Math.rint(value) && Math.abs(value) < 1e15) {
      json.writeNumberField(name, (long) value);
    } else {
      json.writeNumberField(name, value);
    }
  }
}
