package siltwright.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/** What was done to a store, by whom, when, and what was there before. */
public final class Journal {
  private static final String ACTIONS =
      "SELECT a.id, a.at_ms, a.who, a.verb, a.detail, a.made, a.ended, a.undoes, u.id"
          + " FROM action a LEFT JOIN action u ON u.undoes = a.id";

  private final Database database;
  private final Connection c;

  Journal(Database database, Connection c) {
    this.database = database;
    this.c = c;
  }

  /**
   * A row that an action made or ended.
   *
   * @param table table
   * @param number number of the row
   * @param made whether it was made; otherwise it was ended: it is what was before
   * @param values what is in it by column, as texts; empty cells are left out; a machine's or
   *     site's number is replaced by its id
   */
  public record Row(String table, long number, boolean made, Map<String, String> values) {}

  /** Returns the last actions, the latest first. */
  public List<Action> last(int most) {
    return actions(ACTIONS + " ORDER BY a.id DESC LIMIT " + most);
  }

  /** Returns an action. */
  public Optional<Action> find(long number) {
    return actions(ACTIONS + " WHERE a.id = " + number).stream().findFirst();
  }

  /**
   * Returns rows of an action, a table after the other, what was before in front of what came.
   *
   * @param most most rows of a table
   */
  public List<Row> rows(long number, int most) {
    List<Row> rows = new ArrayList<>();
    try {
      for (Versioned table : Versioned.all()) {
        rows(table, number, most, rows);
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
    return rows;
  }

  private void rows(Versioned table, long number, int most, List<Row> rows) throws SQLException {
    String order =
        table.columns().contains("at_ms")
            ? "t.machine_id, t.at_ms, made_here, t.id"
            : "t." + table.columns().get(0) + ", made_here, t.id";
    StringBuilder columns = new StringBuilder();
    StringBuilder joins = new StringBuilder();
    for (String column : table.columns()) {
      if (column.equals("machine_id") || column.equals("site_id")) {
        String of = column.substring(0, column.indexOf('_'));
        columns.append(", ").append(of).append(".code");
        joins.append(" LEFT JOIN ").append(of).append(" ON ").append(of).append(".id = t.");
        joins.append(column);
      } else {
        columns.append(", t.").append(column);
      }
    }
    try (PreparedStatement s =
        c.prepareStatement(
            "SELECT t.id, CASE WHEN t.made_by = ? THEN 1 ELSE 0 END AS made_here"
                + columns
                + " FROM "
                + table.table()
                + " t"
                + joins
                + " WHERE t.made_by = ? OR t.ended_by = ? ORDER BY "
                + order
                + " LIMIT ?")) {
      s.setLong(1, number);
      s.setLong(2, number);
      s.setLong(3, number);
      s.setInt(4, most);
      try (ResultSet r = s.executeQuery()) {
        while (r.next()) {
          Map<String, String> values = new LinkedHashMap<>();
          for (int i = 0; i < table.columns().size(); i++) {
            String column = table.columns().get(i);
            String value = r.getString(3 + i);
            if (column.equals("at_ms")) {
              values.put("at", Instant.ofEpochMilli(r.getLong(3 + i)).toString());
            } else if (value != null && !value.isEmpty()) {
              values.put(column.replaceFirst("_id$", ""), value);
            }
          }
          rows.add(new Row(table.table(), r.getLong(1), r.getInt(2) == 1, values));
        }
      }
    }
  }

  private List<Action> actions(String query) {
    List<Action> actions = new ArrayList<>();
    try (PreparedStatement s = c.prepareStatement(query);
        ResultSet r = s.executeQuery()) {
      while (r.next()) {
        actions.add(
            new Action(
                r.getLong(1),
                Instant.ofEpochMilli(r.getLong(2)),
                r.getString(3),
                r.getString(4),
                r.getString(5),
                r.getLong(6),
                r.getLong(7),
                optional(r, 8),
                optional(r, 9)));
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
    return actions;
  }

  private static OptionalLong optional(ResultSet r, int column) throws SQLException {
    long value = r.getLong(column);
    return r.wasNull() ? OptionalLong.empty() : OptionalLong.of(value);
  }
}
