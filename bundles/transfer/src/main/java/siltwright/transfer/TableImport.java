package siltwright.transfer;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.security.MessageDigest;
import java.sql.SQLException;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CancellationException;
import java.util.function.Function;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.model.history.KnownMachine;
import siltwright.store.Edits;
import siltwright.store.RecordWriter;

/**
 * Brings the records of a table in. One thread reads and a second one writes, since parsing and the
 * database take about as long.
 */
final class TableImport extends FileImport {
  /** What a row's machine must be. */
  static final String KNOWN = "a machine that the store knows; --add-machines adds others";

  private static final int BATCH = 500;
  private static final int WAITING = 16;
  private static final List<Object> END = List.of();

  private final TableFile file;
  private final Detection detection;
  private final ImportOptions options;
  private final List<KnownMachine> fleet;
  private final RefusedRows refused;
  private final MessageDigest digest;
  private final Progress progress;

  private long limits;

  TableImport(
      TableFile file,
      Detection detection,
      ImportOptions options,
      List<KnownMachine> fleet,
      RefusedRows refused,
      MessageDigest digest,
      Progress progress) {
    this.file = file;
    this.detection = detection;
    this.options = options;
    this.fleet = fleet;
    this.refused = refused;
    this.digest = digest;
    this.progress = progress;
  }

  /** A row that cannot be made a record. */
  private record Bad(Row row, RowReading.Fault fault) {}

  /** What ended the reading early. */
  private static final List<String> FIELDS =
      List.of("machine", "serial", "name", "class", "site", "zone");

  private record Failure(Throwable cause) {}

  long limits() {
    return limits;
  }

  @Override
  void run(Edits edits) throws SQLException {
    if (detection.mapping().kind().equals(Mapping.MACHINES)) {
      machines(edits);
    } else {
      records(edits);
    }
  }

  static MachineFinder finder(Mapping mapping, Map<String, Long> ids, Map<String, Long> serials) {
    return new MachineFinder(mapping.match(), mapping.rule(), ids, serials);
  }

  /** Returns what finds the place of a machine among those that are known. */
  static MachineFinder finder(Mapping mapping, List<KnownMachine> known) {
    Map<String, Long> ids = new HashMap<>();
    Map<String, Long> serials = new HashMap<>();
    for (int i = 0; i < known.size(); i++) {
      ids.put(known.get(i).id(), (long) i);
      if (!known.get(i).serial().isEmpty()) {
        serials.put(known.get(i).serial(), (long) i);
      }
    }
    return finder(mapping, ids, serials);
  }

  /** Returns the zone of what stands for a machine; UTC where no site says it. */
  static Function<String, ZoneId> zones(MachineFinder finder, List<KnownMachine> known) {
    Map<String, ZoneId> zones = new HashMap<>();
    return text ->
        zones.computeIfAbsent(
            text,
            t -> {
              Long number = finder.find(t);
              return number == null ? ZoneOffset.UTC : known.get(number.intValue()).zone();
            });
  }

  private void records(Edits edits) throws SQLException {
    RowReading reading =
        new RowReading(
            detection,
            options.wishes().machine(),
            zones(finder(detection.mapping(), fleet), fleet));
    MachineFinder finder = finder(detection.mapping(), edits.machines(false), edits.machines(true));
    Touched to = new Touched();
    BlockingQueue<List<Object>> queue = new ArrayBlockingQueue<>(WAITING);
    Thread reader = new Thread(() -> read(reading, queue), "siltwright-import");
    reader.setDaemon(true);
    reader.start();
    try (RecordWriter writer =
        edits.writer(
            reading.kind(),
            reading.fields(),
            (row, column, found, expected) -> refused.refuse((Row) row, column, found, expected))) {
      for (List<Object> batch = queue.take(); batch != END; batch = queue.take()) {
        for (Object item : batch) {
          take(item, finder, edits, writer, to);
        }
      }
      writer.flush();
      added = writer.added();
      known = writer.known();
      limits = reading.limits();
      touched = to.ids(edits);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("import");
    } finally {
      reader.interrupt();
    }
  }

  private void read(RowReading reading, BlockingQueue<List<Object>> queue) {
    try {
      Object failure = null;
      List<Object> batch = new ArrayList<>(BATCH);
      try (Table table = file.open(digest)) {
        Row row;
        while ((row = table.next()) != null) {
          if (row.line() <= detection.dataFrom()) {
            continue;
          }
          RowReading.Read read = reading.read(row);
          batch.add(read != null ? read : new Bad(row, reading.fault()));
          if (batch.size() == BATCH) {
            queue.put(batch);
            batch = new ArrayList<>(BATCH);
            progress.check(0.95 * table.share(), "import of " + file.path().getFileName());
          }
        }
      } catch (IOException | RuntimeException | Error e) {
        failure = new Failure(e);
      }
      if (failure != null) {
        batch.add(failure);
      }
      if (!batch.isEmpty()) {
        queue.put(batch);
      }
      queue.put(END);
    } catch (InterruptedException e) {
      // whoever writes gave up
    }
  }

  private void take(Object item, MachineFinder finder, Edits edits, RecordWriter writer, Touched to)
      throws SQLException {
    if (item instanceof Failure f) {
      if (f.cause() instanceof RuntimeException e) {
        throw e;
      }
      if (f.cause() instanceof Error e) {
        throw e;
      }
      throw new UncheckedIOException((IOException) f.cause());
    }
    rows++;
    if (item instanceof Bad bad) {
      RowReading.Fault fault = bad.fault();
      refused.refuse(bad.row(), fault.column(), fault.found(), fault.expected());
      return;
    }
    RowReading.Read read = (RowReading.Read) item;
    Long machine = finder.find(read.machine());
    if (machine == null) {
      if (!options.addMachines()) {
        refused.refuse(read.row(), "machine", read.machine(), KNOWN);
        return;
      }
      String id = finder.ruled(read.machine()).strip();
      RowReading.Fault fault = RowReading.fault("machine", id);
      if (id.isEmpty() || fault != null) {
        refused.refuse(
            read.row(),
            "machine",
            fault == null ? read.machine() + " of which the rule leaves nothing" : fault.found(),
            fault == null ? "the id of a machine" : fault.expected());
        return;
      }
      machine = edits.set(id, null, null, null, null).number();
      finder.added(read.machine(), machine);
      machines++;
    }
    to.add(machine);
    writer.add(read.row(), machine, read.atMs(), read.wholeDay(), read.meterH(), read.values());
  }

  private void machines(Edits edits) throws SQLException {
    int[] places = new int[6];
    for (int i = 0; i < places.length; i++) {
      places[i] = -1;
      for (int c = 0; c < detection.places().length; c++) {
        if (detection.mapping().columns().get(c).field().equals(FIELDS.get(i))) {
          places[i] = detection.places()[c];
        }
      }
    }
    try (Table table = file.open(digest)) {
      Row row;
      while ((row = table.next()) != null) {
        if (row.line() <= detection.dataFrom()) {
          continue;
        }
        rows++;
        machine(edits, row, places);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void machine(Edits edits, Row row, int[] places) throws SQLException {
    String[] values = new String[places.length];
    for (int i = 0; i < places.length; i++) {
      String text = places[i] < 0 ? "" : row.text(places[i]).strip();
      values[i] = text.isEmpty() ? null : text;
      RowReading.Fault fault = RowReading.fault(FIELDS.get(i), text);
      if (fault != null) {
        refused.refuse(row, fault.column(), fault.found(), fault.expected());
        return;
      }
    }
    if (values[0] == null) {
      refused.refuse(row, "machine", "nothing", "the id of a machine");
      return;
    }
    if (values[5] != null && !ZoneId.getAvailableZoneIds().contains(values[5])) {
      refused.refuse(row, "zone", values[5], "a time zone such as Europe/Lisbon");
      return;
    }
    try {
      Edits.Set set = edits.set(values[0], values[1], values[2], values[3], values[4]);
      boolean changed = set.changed();
      if (values[4] != null) {
        changed |= edits.site(values[4], null, values[5]).changed();
      }
      if (changed) {
        machines++;
        added++;
      } else {
        known++;
      }
    } catch (InputException e) {
      refused.refuse(row, "serial", e.problems().get(0).value(), e.problems().get(0).expected());
    }
  }
}
