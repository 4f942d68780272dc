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
  private static final int BATCH = 500;

  private final RecordKind kind;
  private final List<RecordField> given;
  private final Refusal refusal;
  private final LongConsumer told;
  private final int key;
  private final PreparedStatement insert;
  private final PreparedStatement select;
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
      Connection c,
      RecordKind kind,
      List<RecordField> given,
      long action,
      Refusal refusal,
      LongConsumer told)
      throws SQLException {
    this.kind = kind;
    this.given = List.copyOf(given);
    this.refusal = refusal;
    this.told = told;
    int at = -1;
    StringBuilder columns = new StringBuilder();
    for (int i = 0; i < given.size(); i++) {
      columns.append(", ").append(given.get(i).column());
      if (given.get(i).isKey()) {
        at = i;
      }
    }
    this.key = at;
    insert =
        c.prepareStatement(
            "INSERT INTO "
                + kind.table()
                + " (machine_id, at_ms, whole_day, meter_h"
                + columns
                + ", made_by) VALUES (?, ?, ?, ?"
                + ", ?".repeat(given.size())
                + ", "
                + action
                + ") ON CONFLICT DO NOTHING");
    select =
        c.prepareStatement(
            "SELECT id, meter_h"
                + columns
                + " FROM "
                + kind.table()
                + " WHERE machine_id = ? AND at_ms = ? AND ended_by IS NULL"
                + kind.key().map(k -> " AND " + k.column() + " = ?").orElse(""));
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
    for (int i = 0; i < waiting; i++) {
      Row row = rows[i];
      insert.setLong(1, row.machine());
      insert.setLong(2, row.atMs());
      insert.setInt(3, row.wholeDay() ? 1 : 0);
      set(insert, 4, number(row.meterH()));
      for (int f = 0; f < row.values().length; f++) {
        set(insert, 5 + f, row.values()[f]);
      }
      insert.addBatch();
    }
    int[] counts = insert.executeBatch();
    long before = added;
    for (int i = 0; i < waiting; i++) {
      if (counts[i] > 0) {
        added++;
      } else {
        compare(rows[i]);
      }
    }
    told.accept(added - before);
    Arrays.fill(rows, 0, waiting, null);
    waiting = 0;
  }

  private void set(PreparedStatement s, int place, Object value) throws SQLException {
    if (value instanceof Double d) {
      s.setDouble(place, d);
    } else if (value instanceof String text) {
      s.setString(place, text);
    } else {
      boolean number = place == 4 || given.get(place - 5).type() == RecordField.Type.NUMBER;
      s.setNull(place, number ? Types.DOUBLE : Types.VARCHAR);
    }
  }

  private static Double number(double value) {
    return Double.isNaN(value) ? null : (Double) value;
  }

  /** The store has a record of this key: the same, or another one. */
  private void compare(Row row) throws SQLException {
    select.setLong(1, row.machine());
    select.setLong(2, row.atMs());
    if (kind.key().isPresent()) {
      select.setString(3, key < 0 ? "" : (String) row.values()[key]);
    }
    try (ResultSet r = select.executeQuery()) {
      if (!r.next()) {
        throw new SQLException("a record that was there is gone", "40001");
      }
      long number = r.getLong(1);
      if (differs(row, number, RecordKind.METER_H, number(row.meterH()), get(r, 2, true))) {
        return;
      }
      for (int f = 0; f < given.size(); f++) {
        RecordField field = given.get(f);
        Object there = get(r, 3 + f, field.type() == RecordField.Type.NUMBER);
        if (differs(row, number, field, row.values()[f], there)) {
          return;
        }
      }
    }
    known++;
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
    select.close();
  }
}
