package siltwright.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import siltwright.model.InputException;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;

/** The edits of one action, within its transaction. */
public final class Edits {
  private final Database database;
  private final Connection c;
  private final long action;
  private long made;
  private long ended;
  private boolean machinesEnded;
  private final List<RecordWriter> loading = new ArrayList<>();

  private Edits(Database database, Connection c, long action) {
    this.database = database;
    this.c = c;
    this.action = action;
  }

  static Edits begin(
      Database database, Connection c, Instant at, String who, String verb, String detail)
      throws SQLException {
    try (PreparedStatement s =
        c.prepareStatement(
            "INSERT INTO action (at_ms, who, verb, detail) VALUES (?, ?, ?, ?) RETURNING id")) {
      s.setLong(1, at.toEpochMilli());
      s.setString(2, who);
      s.setString(3, verb);
      s.setString(4, detail);
      try (ResultSet r = s.executeQuery()) {
        r.next();
        return new Edits(database, c, r.getLong(1));
      }
    }
  }

  void end() throws SQLException {
    endLoading(RecordKind.values());
    if (machinesEnded) {
      checkNoRecordIsOrphaned();
    }
    update("UPDATE action SET made = ?, ended = ? WHERE id = ?", made, ended, action);
  }

  /** Returns the number of this action. */
  public long number() {
    return action;
  }

  /** A machine in the store. Texts that are not known are null. */
  private record MachineState(String serial, String name, String machineClass, Long site) {}

  /**
   * Returns the machines there are: their numbers by id.
   *
   * @return numbers by id; by serial number with {@code serials}
   */
  public Map<String, Long> machines(boolean serials) throws SQLException {
    Map<String, Long> numbers = new HashMap<>();
    try (Statement s = c.createStatement();
        ResultSet r =
            s.executeQuery(
                "SELECT m.id, m.code, t.serial FROM machine m JOIN machine_state t"
                    + " ON t.machine_id = m.id AND t.ended_by IS NULL")) {
      while (r.next()) {
        String key = r.getString(serials ? 3 : 2);
        if (key != null) {
          numbers.put(key, r.getLong(1));
        }
      }
    }
    return numbers;
  }

  /**
   * Sets what is known of a machine; makes it if it is new. A null leaves what is known.
   *
   * @param code its id
   * @param site id of its site
   * @return its number, and whether anything changed
   */
  public Set set(String code, String serial, String name, String machineClass, String site)
      throws SQLException {
    long number = identity("machine", code);
    Long siteNumber = site == null ? null : identity("site", site);
    Optional<MachineState> old = machine(number);
    MachineState now =
        new MachineState(
            or(serial, old.map(MachineState::serial)),
            or(name, old.map(MachineState::name)),
            or(machineClass, old.map(MachineState::machineClass)),
            or(siteNumber, old.map(MachineState::site)));
    if (old.isPresent() && old.get().equals(now)) {
      return new Set(number, false);
    }
    checkSerialIsFree(number, now.serial());
    if (old.isPresent()) {
      end(Versioned.MACHINE, "machine_id", number);
    }
    make(Versioned.MACHINE, number, now.serial(), now.name(), now.machineClass(), now.site());
    return new Set(number, true);
  }

  /**
   * What became of a row.
   *
   * @param number its number
   * @param changed whether anything is new
   */
  public record Set(long number, boolean changed) {}

  private void checkSerialIsFree(long number, String serial) throws SQLException {
    if (serial == null) {
      return;
    }
    try (PreparedStatement s =
        c.prepareStatement(
            "SELECT m.code FROM machine_state t JOIN machine m ON m.id = t.machine_id"
                + " WHERE t.serial = ? AND t.ended_by IS NULL AND t.machine_id <> ?")) {
      s.setString(1, serial);
      s.setLong(2, number);
      try (ResultSet r = s.executeQuery()) {
        if (r.next()) {
          throw new InputException(
              database.problem(
                  "serial number " + serial + " a second time",
                  "it once; machine " + r.getString(1) + " has it"));
        }
      }
    }
  }

  /** Sets the name and zone of a site; makes it if it is new. A null leaves what is known. */
  public Set site(String code, String name, String zone) throws SQLException {
    long number = identity("site", code);
    try (PreparedStatement s =
        c.prepareStatement(
            "SELECT name, zone FROM site_state WHERE site_id = ? AND ended_by IS NULL")) {
      s.setLong(1, number);
      Optional<List<String>> old = Optional.empty();
      try (ResultSet r = s.executeQuery()) {
        if (r.next()) {
          old = Optional.of(Arrays.asList(r.getString(1), r.getString(2)));
        }
      }
      String newName = or(name, old.map(o -> o.get(0)));
      String newZone = or(zone, old.map(o -> o.get(1)));
      if (old.isPresent()
          && Objects.equals(old.get().get(0), newName)
          && Objects.equals(old.get().get(1), newZone)) {
        return new Set(number, false);
      }
      if (old.isPresent()) {
        end(Versioned.SITE, "site_id", number);
      }
      make(Versioned.SITE, number, newName, newZone);
      return new Set(number, true);
    }
  }

  private static <T> T or(T given, Optional<T> old) {
    return given != null ? given : old.orElse(null);
  }

  private Optional<MachineState> machine(long number) throws SQLException {
    try (PreparedStatement s =
        c.prepareStatement(
            "SELECT serial, name, machine_class, site_id FROM machine_state"
                + " WHERE machine_id = ? AND ended_by IS NULL")) {
      s.setLong(1, number);
      try (ResultSet r = s.executeQuery()) {
        if (!r.next()) {
          return Optional.empty();
        }
        long site = r.getLong(4);
        return Optional.of(
            new MachineState(
                r.getString(1), r.getString(2), r.getString(3), r.wasNull() ? null : site));
      }
    }
  }

  /** Machines and sites have a number that stays, whatever becomes of what is known of them. */
  private long identity(String table, String code) throws SQLException {
    try (PreparedStatement s =
        c.prepareStatement("INSERT INTO " + table + " (code) VALUES (?) ON CONFLICT DO NOTHING")) {
      s.setString(1, code);
      s.executeUpdate();
    }
    try (PreparedStatement s = c.prepareStatement("SELECT id FROM " + table + " WHERE code = ?")) {
      s.setString(1, code);
      try (ResultSet r = s.executeQuery()) {
        r.next();
        return r.getLong(1);
      }
    }
  }

  /** Keeps a mapping under a name; one that is there ends. */
  public void keepMapping(String name, String body) throws SQLException {
    try (PreparedStatement s =
        c.prepareStatement(
            "UPDATE mapping SET ended_by = ? WHERE name = ? AND body <> ? AND ended_by IS NULL")) {
      s.setLong(1, action);
      s.setString(2, name);
      s.setString(3, body);
      ended += s.executeUpdate();
    }
    made +=
        insert(
            "INSERT INTO mapping (name, body, made_by) VALUES (?, ?, ?) ON CONFLICT DO NOTHING",
            name,
            body,
            action);
  }

  /** Notes which file came in with this action, and how its rows fared. */
  public void noteBatch(
      String file, String sha256, String mapping, long read, long added, long known, long refused)
      throws SQLException {
    insert(
        "INSERT INTO import_batch (action_id, file, sha256, mapping, rows_read, rows_added,"
            + " rows_known, rows_refused) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        action,
        file,
        sha256,
        mapping,
        read,
        added,
        known,
        refused);
  }

  /**
   * Begins to write records of a kind.
   *
   * @param given fields that the rows have; the others stay empty
   * @param refusal told of rows that cannot be taken
   */
  public RecordWriter writer(RecordKind kind, List<RecordField> given, RecordWriter.Refusal refusal)
      throws SQLException {
    endLoading(kind);
    RecordWriter writer =
        new RecordWriter(database, c, kind, given, action, refusal, n -> made += n);
    loading.add(writer);
    return writer;
  }

  /** Makes the indices that writers do without; what else is done may need them. */
  private void endLoading(RecordKind... kinds) throws SQLException {
    for (RecordWriter writer : loading) {
      if (List.of(kinds).contains(writer.kind())) {
        writer.endLoad();
      }
    }
  }

  /**
   * Changes fields of a record.
   *
   * @param number number of the record, as it was seen
   * @param changes new values by field: a {@link Double}, a {@link String} or null
   * @return number of the record from now on
   * @throws InputException if someone changed or removed it since it was seen
   */
  public long amend(RecordKind kind, long number, Map<RecordField, Object> changes)
      throws SQLException {
    endSeen(kind, number);
    Versioned table = Versioned.of(kind);
    List<String> from = new ArrayList<>();
    List<Object> values = new ArrayList<>();
    for (String column : table.columns()) {
      Optional<RecordField> field =
          changes.keySet().stream().filter(f -> f.column().equals(column)).findFirst();
      if (field.isPresent()) {
        from.add(
            field.get().type() == RecordField.Type.NUMBER
                ? "CAST(? AS DOUBLE PRECISION)"
                : "CAST(? AS TEXT)");
        values.add(changes.get(field.get()));
      } else {
        from.add(column);
      }
    }
    try (PreparedStatement s =
        c.prepareStatement(
            "INSERT INTO "
                + table.table()
                + " ("
                + table.list()
                + ", made_by) SELECT "
                + String.join(", ", from)
                + ", "
                + action
                + " FROM "
                + table.table()
                + " WHERE id = "
                + number
                + " RETURNING id")) {
      for (int i = 0; i < values.size(); i++) {
        s.setObject(i + 1, values.get(i));
      }
      try (ResultSet r = s.executeQuery()) {
        r.next();
        made++;
        return r.getLong(1);
      }
    }
  }

  /**
   * Removes a record.
   *
   * @throws InputException if someone changed or removed it since it was seen
   */
  public void remove(RecordKind kind, long number) throws SQLException {
    endSeen(kind, number);
  }

  private void endSeen(RecordKind kind, long number) throws SQLException {
    endLoading(kind);
    String table = kind.table();
    if (update(
            "UPDATE " + table + " SET ended_by = ? WHERE id = ? AND ended_by IS NULL",
            action,
            number)
        == 1) {
      ended++;
      return;
    }
    try (PreparedStatement s =
        c.prepareStatement(
            "SELECT a.id, a.who, a.at_ms, a.verb FROM "
                + table
                + " t JOIN action a ON a.id = t.ended_by WHERE t.id = ?")) {
      s.setLong(1, number);
      try (ResultSet r = s.executeQuery()) {
        String record = kind.word() + " record " + number;
        throw new InputException(
            r.next()
                ? database.problem(
                    record + " changed meanwhile",
                    "it as you saw it; "
                        + r.getString(2)
                        + " was first ("
                        + r.getString(4)
                        + ", action "
                        + r.getLong(1)
                        + ", "
                        + Instant.ofEpochMilli(r.getLong(3)).toString().substring(0, 16)
                        + " UTC): nothing was saved, look again")
                : database.problem(record, "a record that is there"));
      }
    }
  }

  void undo(Action undone) throws SQLException {
    endLoading(RecordKind.values());
    if (undone.undoneBy().isPresent()) {
      throw new InputException(
          database.problem(
              "action " + undone.number() + " taken back by " + undone.undoneBy().getAsLong(),
              "one that stands; to do it again take back that one"));
    }
    if (undone.made() + undone.ended() == 0) {
      throw new InputException(
          database.problem("action " + undone.number(), "one that changed anything"));
    }
    for (Versioned table : Versioned.all()) {
      checkNothingBuildsOn(undone, table);
      int gone =
          update(
              "UPDATE "
                  + table.table()
                  + " SET ended_by = ? WHERE made_by = ? AND ended_by IS NULL",
              action,
              undone.number());
      ended += gone;
      machinesEnded |= table == Versioned.MACHINE && gone > 0;
      made += comeAgain(table, undone);
    }
    update("UPDATE action SET undoes = ? WHERE id = ?", undone.number(), action);
  }

  private int comeAgain(Versioned table, Action undone) throws SQLException {
    String from = " FROM " + table.table() + " WHERE ended_by = " + undone.number();
    try (Statement s = c.createStatement()) {
      int all;
      try (ResultSet r = s.executeQuery("SELECT count(*)" + from)) {
        r.next();
        all = r.getInt(1);
      }
      if (all == 0) {
        return 0;
      }
      int again =
          s.executeUpdate(
              "INSERT INTO "
                  + table.table()
                  + " ("
                  + table.list()
                  + ", made_by) SELECT "
                  + table.list()
                  + ", "
                  + action
                  + from
                  + " ON CONFLICT DO NOTHING");
      if (again < all) {
        throw new InputException(
            database.problem(
                (all - again) + " rows that came in since in place of those it ended",
                "none; take back what brought them first"));
      }
      return again;
    }
  }

  private void checkNothingBuildsOn(Action undone, Versioned table) throws SQLException {
    try (PreparedStatement s =
        c.prepareStatement(
            "SELECT count(*), max(ended_by) FROM "
                + table.table()
                + " WHERE made_by = ? AND ended_by IS NOT NULL")) {
      s.setLong(1, undone.number());
      try (ResultSet r = s.executeQuery()) {
        r.next();
        if (r.getLong(1) > 0) {
          throw new InputException(
              database.problem(
                  r.getLong(1) + " of its rows changed since, last by action " + r.getLong(2),
                  "none; take back that one first"));
        }
      }
    }
  }

  private void checkNoRecordIsOrphaned() throws SQLException {
    for (RecordKind kind : RecordKind.values()) {
      long orphans = orphans(kind, c);
      if (orphans > 0) {
        throw new InputException(
            database.problem(
                orphans + " " + kind.word() + " records of machines that would be gone",
                "none; take back what brought them first"));
      }
    }
  }

  /** Returns how many records of a kind there are of machines that are not. */
  static long orphans(RecordKind kind, Connection c) throws SQLException {
    try (Statement s = c.createStatement();
        ResultSet r =
            s.executeQuery(
                "SELECT count(*) FROM "
                    + kind.table()
                    + " t WHERE t.ended_by IS NULL AND NOT EXISTS (SELECT 1 FROM machine_state m"
                    + " WHERE m.machine_id = t.machine_id AND m.ended_by IS NULL)")) {
      r.next();
      return r.getLong(1);
    }
  }

  private void end(Versioned table, String column, long number) throws SQLException {
    ended +=
        update(
            "UPDATE "
                + table.table()
                + " SET ended_by = ? WHERE "
                + column
                + " = ? AND ended_by IS NULL",
            action,
            number);
  }

  private void make(Versioned table, Object... values) throws SQLException {
    String places = "?, ".repeat(values.length);
    Object[] all = Arrays.copyOf(values, values.length + 1);
    all[values.length] = action;
    made +=
        insert(
            "INSERT INTO "
                + table.table()
                + " ("
                + table.list()
                + ", made_by) VALUES ("
                + places
                + "?)",
            all);
  }

  private int insert(String sql, Object... values) throws SQLException {
    try (PreparedStatement s = c.prepareStatement(sql)) {
      for (int i = 0; i < values.length; i++) {
        s.setObject(i + 1, values[i]);
      }
      return s.executeUpdate();
    }
  }

  private int update(String sql, long... values) throws SQLException {
    try (PreparedStatement s = c.prepareStatement(sql)) {
      for (int i = 0; i < values.length; i++) {
        s.setLong(i + 1, values[i]);
      }
      return s.executeUpdate();
    }
  }
}
