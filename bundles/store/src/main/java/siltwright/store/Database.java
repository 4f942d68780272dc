package siltwright.store;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** What differs between the databases that a store can be in. */
abstract sealed class Database permits SqliteFile, PostgresServer {
  /** How a store on a server is named. */
  static final String SERVER = "jdbc:postgresql:";

  /**
   * Returns the database that a user's text names.
   *
   * @throws InputException if it is neither a file's name nor the address of a server
   */
  static Database of(String where) {
    return where.startsWith("jdbc:") ? PostgresServer.of(where) : SqliteFile.of(where);
  }

  /** Returns what people are told it is called: no password is in it. */
  abstract String name();

  /** Returns whether it is there at all; of a server that is not known before it is asked. */
  abstract boolean exists();

  /** Returns the one whole number that a query gives. */
  static int number(Connection c, String query) throws SQLException {
    try (Statement s = c.createStatement();
        ResultSet r = s.executeQuery(query)) {
      r.next();
      return r.getInt(1);
    }
  }

  /** Connects to write. */
  abstract Connection writer() throws SQLException;

  /** Begins a transaction. */
  abstract void begin(Connection c) throws SQLException;

  /** Saves what was done since the transaction began. */
  abstract void commit(Connection c) throws SQLException;

  /** Takes back what was done since the transaction began. */
  abstract void rollBack(Connection c) throws SQLException;

  /** Connects to read what is there at one moment. */
  abstract Connection reader() throws SQLException;

  /** Returns the type of a column that numbers rows from 1. */
  abstract String identity();

  /** Returns how many tables are where the store is or would be. */
  abstract int tables(Connection c) throws SQLException;

  /** Returns whether there is a table. */
  abstract boolean hasTable(Connection c, String table) throws SQLException;

  /** Keeps others from preparing the store until the transaction ends. */
  abstract void lockToPrepare(Connection c) throws SQLException;

  /**
   * Copies the store as it is before it is migrated.
   *
   * @return what people are told the copy is called
   */
  abstract String backUp(int version) throws SQLException;

  /**
   * Drops the index of the records of a table that has no row, where it is quicker to make it once
   * the rows are there, and nobody is kept waiting by it who is not anyway.
   *
   * @return the statement that makes it again; null if it is left as it is
   */
  abstract String dropIndexIfEmpty(Connection c, String table) throws SQLException;

  /** Makes numbers of new rows go on from the highest, after rows came with theirs. */
  abstract void goOnNumbering(Connection c, String table) throws SQLException;

  /**
   * Fails if what is about to be committed would be lost.
   *
   * @throws InputException with what happened
   */
  abstract void checkBeforeCommit();

  /** Returns what people are told of a failure, or nothing if it is the program's fault. */
  abstract Problem explained(SQLException e);

  /** Returns the exception for a failure. */
  final RuntimeException failure(SQLException e) {
    Problem problem = explained(e);
    return problem == null
        ? new IllegalStateException(name() + ": " + e.getMessage(), e)
        : new InputException(problem);
  }

  final Problem problem(String found, String expected) {
    return new Problem(name(), "", found, expected);
  }
}
