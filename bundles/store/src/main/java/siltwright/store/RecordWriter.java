package siltwright.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.function.LongConsumer;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;

/**
 * Writes many records of one kind within an action.
 *
 * <p>A record that the store has already, field by field, is counted and not written again; one of
 * the same machine, instant and key that says something else is refused.
 */
public final class RecordWriter implements AutoCloseable {
  private static final int BATCH = 512;

  /** Rows of one statement of a load: fewer statements for the database to begin and end. */
  private static final int GROUP = 16;

  private final RecordKind kind;
  private final List<RecordField> given;
  private final Refusal refusal;
  private final LongConsumer told;
  private final Connection c;
  private final int key;
  private final String columns;
  private final long action;
  private FirstLoad load;
  private PreparedStatement insert;
  private PreparedStatement insertGroup;
  private PreparedStatement select;
  private final Row[] rows = new Row[BATCH];
  private int waiting;
  private long added;
  private long known;

  /** Told of a row that cannot be taken. */
  @FunctionalInterface
  public interface Refusal {
    /**
     * Takes note.
     *
     * @param row the row, as {@link RecordWriter#add} was told
     * @param column field at fault; empty for the row as a whole
     * @param found what is there
     * @param expected what was expected
     */
    void refuse(Object row, String column, String found, String expected);
  }

  private record Row(
      Object from, long machine, long atMs, boolean wholeDay, double meterH, Object[] values) {}

  RecordWriter(
      Database database,
      Connection c,
      RecordKind kind,
      List<RecordField> given,
      long action,
      Refusal refusal,
      LongConsumer told)
      throws SQLException {
    this.c = c;
    this.kind = kind;
    this.given = List.copyOf(given);
    this.action = action;
    this.refusal = refusal;
    this.told = told;
    int at = -1;
    StringBuilder names = new StringBuilder();
    for (int i = 0; i < given.size(); i++) {
      names.append(", ").append(given.get(i).column());
      if (given.get(i).isKey()) {
        at = i;
      }
    }
    key = at;
    columns = names.toString();
    load = FirstLoad.begin(database, c, kind.table());
    prepare();
  }

  /** The statements: with an index, the database knows a key; without, the load does. */
  private void prepare() throws SQLException {
    boolean index = load == null;
    String head =
        "INSERT INTO "
            + kind.table()
            + " (machine_id, at_ms, whole_day, meter_h"
            + columns
            + (index ? "" : ", id")
            + ", made_by) VALUES ";
    String row =
        "(?, ?, ?, ?" + ", ?".repeat(given.size()) + (index ? "" : ", ?") + ", " + action + ")";
    insert = c.prepareStatement(head + row + (index ? " ON CONFLICT DO NOTHING" : ""));
    insertGroup = index ? null : c.prepareStatement(head + row + (", " + row).repeat(GROUP - 1));
    String keyed = kind.key().map(k -> " AND " + k.column() + " = ?").orElse("");
    select =
        c.prepareStatement(
            "SELECT id, meter_h"
                + columns
                + " FROM "
                + kind.table()
                + " WHERE machine_id = ? AND at_ms = ? AND ended_by IS NULL"
                + keyed
                + (index ? "" : " AND id = ?"));
  }

  RecordKind kind() {
    return kind;
  }

  /** Gives the table its index, if it is without. */
  void endLoad() throws SQLException {
    if (load != null) {
      load.end();
      load = null;
      boolean open = !insert.isClosed();
      close();
      if (open) {
        prepare();
      }
    }
  }

  /**
   * Adds a record.
   *
   * @param from where it is from, for {@link Refusal}
   * @param machine number of the machine
   * @param atMs instant, ms since 1970 in UTC
   * @param wholeDay whether only the day is known
   * @param meterH what the meter showed, h; not a number if it was not read
   * @param values values of the given fields: a {@link Double}, a {@link String} or null; not
   *     copied
   */
  public void add(
      Object from, long machine, long atMs, boolean wholeDay, double meterH, Object[] values)
      throws SQLException {
    if (key >= 0 && values[key] == null) {
      values[key] = "";
    }
    rows[waiting++] = new Row(from, machine, atMs, wholeDay, meterH, values);
    if (waiting == BATCH) {
      flush();
    }
  }

  /** Returns how many records were new. */
  public long added() {
    return added;
  }

  /** Returns how many the store had already. */
  public long known() {
    return known;
  }

  /** Writes what waits. */
  public void flush() throws SQLException {
    if (waiting == 0) {
      return;
    }
    if (load != null && load.isFull()) {
      endLoad();
    }
    long before = added;
    if (load == null) {
      write();
    } else {
      writeFirst();
    }
    told.accept(added - before);
    Arrays.fill(rows, 0, waiting, null);
    waiting = 0;
  }

  private void bind(PreparedStatement s, int before, Row row) throws SQLException {
    s.setLong(before + 1, row.machine());
    s.setLong(before + 2, row.atMs());
    s.setInt(before + 3, row.wholeDay() ? 1 : 0);
    set(s, before + 4, RecordKind.METER_H, number(row.meterH()));
    for (int f = 0; f < row.values().length; f++) {
      set(s, before + 5 + f, given.get(f), row.values()[f]);
    }
  }

  private void write() throws SQLException {
    for (int i = 0; i < waiting; i++) {
      bind(insert, 0, rows[i]);
      insert.addBatch();
    }
    int[] counts = insert.executeBatch();
    for (int i = 0; i < waiting; i++) {
      if (counts[i] > 0) {
        added++;
      } else if (!compare(rows[i], -1)) {
        throw new SQLException("a record that was there is gone", "40001");
      }
    }
  }

  /** Writes into a table without an index. */
  private void writeFirst() throws SQLException {
    int written = load.size();
    int fresh = 0;
    for (int i = 0; i < waiting; i++) {
      Row row = rows[i];
      long hash = FirstLoad.hash(row.machine(), row.atMs(), keyOf(row));
      boolean there = false;
      int at = load.find(hash, FirstLoad.start(hash));
      for (; at >= 0 && !there; at = load.find(hash, at + 1)) {
        if (load.number(at) > written) {
          writeFresh(fresh);
          fresh = 0;
          written = load.size();
        }
        there = compare(row, load.number(at));
      }
      if (!there) {
        load.add(hash);
        rows[fresh++] = row;
        added++;
      }
    }
    writeFresh(fresh);
  }

  /** Writes the first of the rows, numbered so that the last one has the load's last number. */
  private void writeFresh(int fresh) throws SQLException {
    int number = load.size() - fresh;
    int width = 5 + given.size();
    int i = 0;
    for (; i + GROUP <= fresh; i += GROUP) {
      for (int g = 0; g < GROUP; g++) {
        bind(insertGroup, g * width, rows[i + g]);
        insertGroup.setLong((g + 1) * width, ++number);
      }
      insertGroup.addBatch();
    }
    insertGroup.executeBatch();
    for (; i < fresh; i++) {
      bind(insert, 0, rows[i]);
      insert.setLong(width, ++number);
      insert.addBatch();
    }
    insert.executeBatch();
  }

  private String keyOf(Row row) {
    return key < 0 ? "" : (String) row.values()[key];
  }

  private static void set(PreparedStatement s, int place, RecordField field, Object value)
      throws SQLException {
    if (value instanceof Double d) {
      s.setDouble(place, d);
    } else if (value instanceof String text) {
      s.setString(place, text);
    } else {
      boolean number = field.type() == RecordField.Type.NUMBER;
      s.setNull(place, number ? Types.DOUBLE : Types.VARCHAR);
    }
  }

  private static Double number(double value) {
    return Double.isNaN(value) ? null : (Double) value;
  }

  /**
   * Compares a row with the record of its key: it is the same, or refused.
   *
   * @param among number of the only record to look at; none if it is negative
   * @return whether there is a record of this key
   */
  private boolean compare(Row row, int among) throws SQLException {
    select.setLong(1, row.machine());
    select.setLong(2, row.atMs());
    int place = 3;
    if (kind.key().isPresent()) {
      select.setString(place++, keyOf(row));
    }
    if (among >= 0) {
      select.setLong(place, among);
    }
    try (ResultSet r = select.executeQuery()) {
      if (!r.next()) {
        return false;
      }
      long number = r.getLong(1);
      if (differs(row, number, RecordKind.METER_H, number(row.meterH()), get(r, 2, true))) {
        return true;
      }
      for (int f = 0; f < given.size(); f++) {
        RecordField field = given.get(f);
        Object there = get(r, 3 + f, field.type() == RecordField.Type.NUMBER);
        if (differs(row, number, field, row.values()[f], there)) {
          return true;
        }
      }
    }
    known++;
    return true;
  }

  private boolean differs(Row row, long number, RecordField field, Object value, Object there) {
    if (Objects.equals(value, there)) {
      return false;
    }
    refusal.refuse(
        row.from(),
        field.name(),
        value == null ? "nothing" : value.toString(),
        (there == null ? "nothing" : there)
            + ", as in "
            + kind.word()
            + " record "
            + number
            + " of the same machine and time");
    return true;
  }

  private static Object get(ResultSet r, int column, boolean number) throws SQLException {
    if (!number) {
      return r.getString(column);
    }
    double value = r.getDouble(column);
    return r.wasNull() ? null : (Double) value;
  }

  @Override
  public void close() throws SQLException {
    insert.close();
    if (insertGroup != null) {
      insertGroup.close();
    }
    select.close();
  }
}
