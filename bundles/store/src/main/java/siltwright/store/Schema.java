package siltwright.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import siltwright.model.InputException;

/**
 * The versions of the tables, a script each, and the steps from one to the next.
 *
 * <p>A script begins with {@code -- needs Siltwright VERSION}: the first version of the program
 * that can use the tables it leaves behind. That is kept in the store, so that an older program can
 * tell which one is needed.
 */
final class Schema {
  private static final String NEEDS = "-- needs ";
  private static final int VERSIONS = 1;

  private final List<String> scripts;

  /**
   * Makes a schema.
   *
   * @param scripts scripts of the versions from 1
   */
  Schema(List<String> scripts) {
    this.scripts = List.copyOf(scripts);
  }

  /** Returns this program's schema. */
  static Schema own() {
    List<String> scripts = new ArrayList<>();
    for (int v = 1; v <= VERSIONS; v++) {
      try (InputStream in = Schema.class.getResourceAsStream("schema/" + v + ".sql")) {
        scripts.add(new String(in.readAllBytes(), StandardCharsets.UTF_8));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return new Schema(scripts);
  }

  /** Returns the latest version. */
  int latest() {
    return scripts.size();
  }

  /**
   * Brings a store to the latest version; makes it if there is none.
   *
   * @return what people should know of it, if anything
   * @throws InputException if what is there is no store, or of a newer version
   */
  Optional<String> prepare(Database database, Connection c) throws SQLException {
    Optional<String> note = Optional.empty();
    int found = version(database, c);
    if (found == latest()) {
      return note;
    }
    if (found > 0) {
      note =
          Optional.of(
              database.name()
                  + ": brought from version "
                  + found
                  + " to "
                  + latest()
                  + "; as it was before it is kept in "
                  + database.backUp(found));
    }
    database.begin(c);
    database.lockToPrepare(c);
    // Someone else may have done it meanwhile.
    for (int v = version(database, c) + 1; v <= latest(); v++) {
      run(database, c, v);
    }
    database.checkBeforeCommit();
    database.commit(c);
    return note;
  }

  /**
   * Fails unless the store is of the latest version.
   *
   * @throws InputException with what is to be done
   */
  void check(Database database, Connection c) throws SQLException {
    int found = version(database, c);
    if (found < latest()) {
      throw new InputException(
          database.problem(
              found == 0 ? "no store" : "version " + found + " of a store",
              "version " + latest() + "; a command that writes to it makes that"));
    }
  }

  private int version(Database database, Connection c) throws SQLException {
    if (!database.hasTable(c, "store_version")) {
      if (database.tables(c) > 0) {
        throw new InputException(
            database.problem("tables of another program", "a store of this program, or none"));
      }
      return 0;
    }
    try (Statement s = c.createStatement();
        ResultSet r =
            s.executeQuery("SELECT version, needs FROM store_version ORDER BY version DESC")) {
      if (!r.next()) {
        return 0;
      }
      int version = r.getInt(1);
      if (version > latest()) {
        throw new InputException(
            database.problem(
                "version " + version + " of a store",
                "at most " + latest() + "; use " + r.getString(2) + " or later"));
      }
      return version;
    }
  }

  private void run(Database database, Connection c, int version) throws SQLException {
    String script = scripts.get(version - 1);
    try (Statement s = c.createStatement()) {
      if (version == 1) {
        s.execute(
            "CREATE TABLE store_version (version INTEGER PRIMARY KEY, needs TEXT NOT NULL,"
                + " at_ms BIGINT NOT NULL)");
      }
      for (String statement : script.replaceAll("(?m)^--.*$", "").split(";")) {
        if (!statement.isBlank()) {
          s.execute(statement.replace("${identity}", database.identity()));
        }
      }
    }
    String needs = script.lines().findFirst().orElseThrow().substring(NEEDS.length());
    try (PreparedStatement s = c.prepareStatement("INSERT INTO store_version VALUES (?, ?, ?)")) {
      s.setInt(1, version);
      s.setString(2, needs);
      s.setLong(3, Clock.systemUTC().millis());
      s.executeUpdate();
    }
  }
}
