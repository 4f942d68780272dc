package siltwright.transfer;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.KnownMachine;
import siltwright.model.history.Moment;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;

/**
 * Writes records so that other programs can read them, and import can read them back.
 *
 * <p>Times are local ones of the machine's site with their distance from UTC; of a record of which
 * only the day is known it is the day. Beside what the meter showed stand the hours of the machine
 * with the meter's mends.
 */
public final class Exporter {
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ssXXX");
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
        : TIME.format(moment.at().atZone(zone));
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
