package siltwright.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.history.FleetHistory;

/**
 * One store, open to be written.
 *
 * <p>It is named by a file, or by {@code jdbc:postgresql://HOST/DATABASE?user=NAME} on a server;
 * the server's driver finds the password in the user's own password file. What {@link #act} does is
 * saved as a whole or not at all, whatever happens. One thread at a time.
 */
public final class Store implements AutoCloseable {
  private final Database database;
  private final Schema schema;
  private final Clock clock;
  private Optional<String> note = Optional.empty();
  private Connection connection;

  private Store(Database database, Schema schema, Clock clock) {
    this.database = database;
    this.schema = schema;
    this.clock = clock;
  }

  /** What an action does. */
  @FunctionalInterface
  public interface Work<T> {
    /** Makes the edits; whatever it throws takes all of them back. */
    T apply(Edits edits) throws SQLException;
  }

  /**
   * Opens a store, makes it if there is none, and brings an older one to this version.
   *
   * @param where file, or address on a server
   * @param clock time of the actions
   * @throws InputException if that cannot be done: not permitted, of a newer version, no store
   */
  public static Store open(String where, Clock clock) {
    return open(Database.of(where), Schema.own(), clock);
  }

  /**
   * Opens a store that is there.
   *
   * @throws InputException as {@link #open} does, or if there is no such file
   */
  public static Store openExisting(String where, Clock clock) {
    checkExists(Database.of(where));
    return open(where, clock);
  }

  static Store open(Database database, Schema schema, Clock clock) {
    Store store = new Store(database, schema, clock);
    store.connect();
    return store;
  }

  /** Returns whether a store is there; of a server that is not known before it is opened. */
  public static boolean exists(String where) {
    return Database.of(where).exists();
  }

  /** Returns whether a name is one of a server, or of a file that is a database. */
  public static boolean isStore(String where) {
    return where.startsWith("jdbc:") || SqliteFile.isDatabase(where);
  }

  /**
   * Opens the records of a store to read them.
   *
   * @throws InputException if there is no such store, or it is not of this version
   */
  public static FleetHistory read(String where) {
    Database database = Database.of(where);
    checkExists(database);
    return StoredHistory.open(database, Schema.own());
  }

  private static void checkExists(Database database) {
    if (!database.exists()) {
      throw new InputException(new Problem(database.name(), "", "", "a store that is there"));
    }
  }

  private void connect() {
    try {
      Connection c = database.writer();
      try {
        note = schema.prepare(database, c);
        connection = c;
      } finally {
        if (connection != c) {
          abandon(c);
        }
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
  }

  private static void abandon(Connection c) {
    try {
      c.close();
    } catch (SQLException e) {
      // The failure that led here is the one to tell.
    }
  }

  /** Returns what people are told it is called. */
  public String name() {
    return database.name();
  }

  /** Returns what people should know of its opening, such as a migration. */
  public Optional<String> note() {
    return note;
  }

  /**
   * Does an action: all of it is saved, or nothing.
   *
   * @param who person who does it
   * @param verb what, in a word, such as {@code import}
   * @param detail of what
   * @param work the edits
   * @return what the work returns
   * @throws InputException if the work throws it, or the database cannot save: full, gone, in use,
   *     changed by someone else
   */
  public <T> T act(String who, String verb, String detail, Work<T> work) {
    try {
      Connection c = live();
      database.begin(c);
      boolean done = false;
      try {
        Edits edits = Edits.begin(database, c, clock.instant(), who, verb, detail);
        T result = work.apply(edits);
        edits.end();
        database.checkBeforeCommit();
        database.commit(c);
        done = true;
        return result;
      } finally {
        if (!done) {
          takeBack(c);
        }
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
  }

  /** A server may have gone and come back since the last action. */
  private Connection live() throws SQLException {
    if (connection == null || !connection.isValid(5)) {
      if (connection != null) {
        abandon(connection);
        connection = null;
      }
      connect();
    }
    database.checkBeforeCommit();
    return connection;
  }

  private void takeBack(Connection c) {
    try {
      database.rollBack(c);
    } catch (SQLException e) {
      // What was not committed is taken back by the database when the connection ends.
      abandon(c);
      connection = null;
    }
  }

  /**
   * Takes an action back. The rows it made end and those it ended come again; nothing is erased, so
   * an undo can be undone.
   *
   * @param number number of the action
   * @param who person who takes it back
   * @return the action taken back
   * @throws InputException if there is no such action, it is taken back already, or later actions
   *     build on it
   */
  public Action undo(long number, String who) {
    Action action =
        journal()
            .find(number)
            .orElseThrow(() -> refused("action " + number, "the number of an action"));
    return act(
        who,
        "undo",
        action.verb() + " " + action.number(),
        edits -> {
          edits.undo(action);
          return action;
        });
  }

  private InputException refused(String found, String expected) {
    return new InputException(database.problem(found, expected));
  }

  /** Returns what was done to the store. */
  public Journal journal() {
    try {
      return new Journal(database, live());
    } catch (SQLException e) {
      throw database.failure(e);
    }
  }

  /** Returns the body of a named mapping, if the store has it. */
  public Optional<String> mapping(String name) {
    try {
      try (PreparedStatement s =
          live().prepareStatement("SELECT body FROM mapping WHERE name = ? AND ended_by IS NULL")) {
        s.setString(1, name);
        try (ResultSet r = s.executeQuery()) {
          return r.next() ? Optional.of(r.getString(1)) : Optional.empty();
        }
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
  }

  /** Returns the names of the mappings that it keeps, in order. */
  public List<String> mappings() {
    try (PreparedStatement s =
            live().prepareStatement("SELECT name FROM mapping WHERE ended_by IS NULL");
        ResultSet r = s.executeQuery()) {
      List<String> names = new ArrayList<>();
      while (r.next()) {
        names.add(r.getString(1));
      }
      Collections.sort(names);
      return names;
    } catch (SQLException e) {
      throw database.failure(e);
    }
  }

  /** Opens its records to read them. */
  public FleetHistory history() {
    return StoredHistory.open(database, schema);
  }

  /** Returns the whole of it as a stream of tables. */
  public Archive archive() {
    try {
      return new Archive(database, live(), schema.latest());
    } catch (SQLException e) {
      throw database.failure(e);
    }
  }

  @Override
  public void close() {
    if (connection != null) {
      abandon(connection);
      connection = null;
    }
  }
}
