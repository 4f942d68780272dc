package siltwright.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import siltwright.model.history.ComponentReplacement;
import siltwright.model.history.DropReading;
import siltwright.model.history.ElementChange;
import siltwright.model.history.FaultReport;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.KnownMachine;
import siltwright.model.history.MeterLine;
import siltwright.model.history.MeterMend;
import siltwright.model.history.MeterReading;
import siltwright.model.history.Moment;
import siltwright.model.history.OilSample;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;

/** The records of a store, read through a connection of their own. */
final class StoredHistory implements FleetHistory {
  /** Rows that a server sends at a time. */
  private static final int FETCH = 1000;

  private final Database database;
  private final Connection c;
  private final Map<String, MeterLine> lines = new HashMap<>();

  private StoredHistory(Database database, Connection c) {
    this.database = database;
    this.c = c;
  }

  static StoredHistory open(Database database, Schema schema) {
    try {
      Connection c = database.reader();
      boolean sound = false;
      try {
        schema.check(database, c);
        sound = true;
        return new StoredHistory(database, c);
      } finally {
        if (!sound) {
          c.close();
        }
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
  }

  @Override
  public List<KnownMachine> machines() {
    List<KnownMachine> machines = new ArrayList<>();
    try (Statement s = c.createStatement();
        ResultSet r =
            s.executeQuery(
                "SELECT m.code, t.serial, t.name, t.machine_class, i.code, z.zone FROM machine m"
                    + " JOIN machine_state t ON t.machine_id = m.id AND t.ended_by IS NULL"
                    + " LEFT JOIN site i ON i.id = t.site_id"
                    + " LEFT JOIN site_state z ON z.site_id = i.id AND z.ended_by IS NULL")) {
      while (r.next()) {
        String zone = r.getString(6);
        machines.add(
            new KnownMachine(
                r.getString(1),
                text(r, 2),
                text(r, 3),
                text(r, 4),
                text(r, 5),
                zone == null ? ZoneOffset.UTC : ZoneId.of(zone)));
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
    // sorted here, since databases differ in what they think of letters
    machines.sort((a, b) -> a.id().compareTo(b.id()));
    return machines;
  }

  private static String text(ResultSet r, int column) throws SQLException {
    String text = r.getString(column);
    return text == null ? "" : text;
  }

  @Override
  public long count(RecordKind kind, String machine) {
    String query = "SELECT count(*) FROM " + kind.table() + " t WHERE t.ended_by IS NULL";
    try (PreparedStatement s =
        c.prepareStatement(machine.isEmpty() ? query : query + " AND t.machine_id = " + NUMBER)) {
      if (!machine.isEmpty()) {
        s.setString(1, machine);
      }
      try (ResultSet r = s.executeQuery()) {
        r.next();
        return r.getLong(1);
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
  }

  private static final String NUMBER = "(SELECT id FROM machine WHERE code = ?)";

  @Override
  public List<MeterMend> mends(String machine) {
    return line(machine).mends();
  }

  @Override
  public List<MeterMend> mends() {
    Map<Long, Readings> all = new HashMap<>();
    try (Statement s = c.createStatement()) {
      s.setFetchSize(FETCH);
      for (RecordKind kind : RecordKind.values()) {
        try (ResultSet r =
            s.executeQuery(
                "SELECT machine_id, at_ms, meter_h FROM "
                    + kind.table()
                    // the plus keeps it from going through the index, and so to and fro
                    + " WHERE +ended_by IS NULL AND meter_h IS NOT NULL")) {
          while (r.next()) {
            all.computeIfAbsent(r.getLong(1), n -> new Readings())
                .add(r.getLong(2), r.getDouble(3));
          }
        }
      }
      try (ResultSet r = s.executeQuery("SELECT id, code FROM machine")) {
        while (r.next()) {
          Readings readings = all.get(r.getLong(1));
          if (readings != null) {
            lines.put(r.getString(2), readings.line(r.getString(2)));
          }
        }
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
    return machines().stream().flatMap(m -> mends(m.id()).stream()).toList();
  }

  private MeterLine line(String machine) {
    return lines.computeIfAbsent(machine, this::readLine);
  }

  private MeterLine readLine(String machine) {
    String union =
        Stream.of(RecordKind.values())
            .map(
                k ->
                    "SELECT at_ms, meter_h FROM "
                        + k.table()
                        + " WHERE machine_id = "
                        + NUMBER
                        + " AND ended_by IS NULL AND meter_h IS NOT NULL")
            .collect(Collectors.joining(" UNION ALL "));
    Readings readings = new Readings();
    try (PreparedStatement s = c.prepareStatement(union)) {
      for (int i = 1; i <= RecordKind.values().length; i++) {
        s.setString(i, machine);
      }
      s.setFetchSize(FETCH);
      try (ResultSet r = s.executeQuery()) {
        while (r.next()) {
          readings.add(r.getLong(1), r.getDouble(2));
        }
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
    return readings.line(machine);
  }

  /** Makes a record of the row that a result stands at. */
  private interface Reading<T> {
    T of(Moment moment, Cells cells) throws SQLException;
  }

  /** The kind's own fields of a row, by place from 0. */
  private record Cells(ResultSet row) {
    private static final int FIRST = 4;

    String text(int place) throws SQLException {
      String text = row.getString(FIRST + place);
      return text == null ? "" : text;
    }

    double number(int place) throws SQLException {
      double number = row.getDouble(FIRST + place);
      return row.wasNull() ? Double.NaN : number;
    }
  }

  private <T> void each(
      RecordKind kind, String machine, Reading<T> reading, Consumer<? super T> each) {
    MeterLine line = line(machine);
    String columns =
        kind.fields().stream().map(RecordField::column).collect(Collectors.joining(", "));
    try (PreparedStatement s =
        c.prepareStatement(
            "SELECT at_ms, whole_day, meter_h, "
                + columns
                + " FROM "
                + kind.table()
                + " WHERE machine_id = "
                + NUMBER
                + " AND ended_by IS NULL ORDER BY at_ms"
                + kind.key().map(k -> ", " + k.column()).orElse(""))) {
      s.setString(1, machine);
      s.setFetchSize(FETCH);
      try (ResultSet r = s.executeQuery()) {
        Cells cells = new Cells(r);
        while (r.next()) {
          long atMs = r.getLong(1);
          double meterH = r.getDouble(3);
          if (r.wasNull()) {
            meterH = Double.NaN;
          }
          Moment moment =
              new Moment(
                  machine,
                  Instant.ofEpochMilli(atMs),
                  r.getInt(2) != 0,
                  meterH,
                  line.hoursAt(atMs, meterH));
          each.accept(reading.of(moment, cells));
        }
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
  }

  @Override
  public void readings(String machine, Consumer<? super MeterReading> each) {
    each(RecordKind.METER, machine, (m, c) -> new MeterReading(m, c.text(0)), each);
  }

  @Override
  public void changes(String machine, Consumer<? super ElementChange> each) {
    each(
        RecordKind.CHANGE,
        machine,
        (m, c) ->
            new ElementChange(
                m, c.text(0), c.text(1), c.text(2), c.text(3), c.text(4), c.number(5), c.text(6)),
        each);
  }

  @Override
  public void samples(String machine, Consumer<? super OilSample> each) {
    each(
        RecordKind.SAMPLE,
        machine,
        (m, c) -> {
          double[] counts = new double[6];
          for (int i = 0; i < counts.length; i++) {
            counts[i] = c.number(3 + i);
          }
          return new OilSample(
              m,
              c.text(0),
              c.text(1),
              c.number(2),
              counts,
              c.text(9),
              c.number(10),
              c.number(11),
              c.number(12),
              c.number(13),
              c.text(14));
        },
        each);
  }

  @Override
  public void drops(String machine, Consumer<? super DropReading> each) {
    each(
        RecordKind.DROP,
        machine,
        (m, c) -> new DropReading(m, c.number(0), c.number(1), c.number(2), c.text(3)),
        each);
  }

  @Override
  public void replacements(String machine, Consumer<? super ComponentReplacement> each) {
    each(
        RecordKind.REPLACEMENT,
        machine,
        (m, c) -> new ComponentReplacement(m, c.text(0), c.text(1), c.text(2), c.text(3)),
        each);
  }

  @Override
  public void faults(String machine, Consumer<? super FaultReport> each) {
    each(
        RecordKind.FAULT,
        machine,
        (m, c) -> new FaultReport(m, c.text(0), c.text(1), c.text(2), c.text(3)),
        each);
  }

  @Override
  public void records(RecordKind kind, String machine, BiConsumer<? super Moment, Object[]> each) {
    List<RecordField> fields = kind.fields();
    each(
        kind,
        machine,
        (m, c) -> {
          Object[] values = new Object[fields.size()];
          for (int i = 0; i < values.length; i++) {
            if (fields.get(i).type() == RecordField.Type.TEXT) {
              String text = c.text(i);
              values[i] = text.isEmpty() ? null : text;
            } else {
              double number = c.number(i);
              values[i] = Double.isNaN(number) ? null : (Double) number;
            }
          }
          each.accept(m, values);
          return m;
        },
        m -> {});
  }

  @Override
  public void close() {
    try {
      c.close();
    } catch (SQLException e) {
      // Nothing was written.
    }
  }
}
