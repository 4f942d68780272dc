package siltwright.store;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.io.SerializedString;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import siltwright.model.InputException;
import siltwright.model.history.RecordKind;

/**
 * The whole of a store in one file: a zip with a file for each table, a JSON array a row, the names
 * of the columns in the first. It holds everything, the journal too, and is the same for every
 * database, so that it also moves a store from one to another.
 */
public final class Archive {
  static final String HEAD = "siltwright-archive/1";

  private static final int FETCH = 1000;

  private static final JsonFactory JSON =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private final Database database;
  private final Connection c;
  private final int version;

  Archive(Database database, Connection c, int version) {
    this.database = database;
    this.c = c;
    this.version = version;
  }

  /** Tables in an order in which each comes after those it refers to. */
  private static List<String> tables() {
    List<String> tables = new ArrayList<>(List.of("action", "site", "machine", "import_batch"));
    Versioned.all().forEach(t -> tables.add(t.table()));
    return tables;
  }

  /**
   * Writes the store.
   *
   * @return rows by table
   * @throws IOException if they cannot be written
   */
  public Map<String, Long> write(OutputStream to) throws IOException {
    Map<String, Long> rows = new LinkedHashMap<>();
    try (Connection reader = database.reader();
        ZipOutputStream zip = new ZipOutputStream(to)) {
      zip.putNextEntry(entry("archive.json"));
      try (JsonGenerator json = JSON.createGenerator(zip)) {
        json.writeStartArray();
        json.writeString(HEAD);
        json.writeNumber(version);
        json.writeEndArray();
      }
      for (String table : tables()) {
        zip.putNextEntry(entry(table + ".json"));
        rows.put(table, write(reader, table, zip));
      }
    } catch (SQLException e) {
      throw database.failure(e);
    }
    return rows;
  }

  /** The same store gives the same bytes. */
  private static ZipEntry entry(String name) {
    ZipEntry entry = new ZipEntry(name);
    entry.setTime(0);
    return entry;
  }

  private static long write(Connection reader, String table, OutputStream to)
      throws SQLException, IOException {
    long rows = 0;
    try (Statement s = reader.createStatement();
        JsonGenerator json = JSON.createGenerator(to)) {
      json.setRootValueSeparator(new SerializedString("\n"));
      s.setFetchSize(FETCH);
      try (ResultSet r = s.executeQuery("SELECT * FROM " + table + " ORDER BY id")) {
        ResultSetMetaData meta = r.getMetaData();
        json.writeStartArray();
        for (int i = 1; i <= meta.getColumnCount(); i++) {
          json.writeString(meta.getColumnName(i));
        }
        json.writeEndArray();
        while (r.next()) {
          json.writeStartArray();
          for (int i = 1; i <= meta.getColumnCount(); i++) {
            Object value = r.getObject(i);
            if (value instanceof Double d) {
              json.writeNumber(d);
            } else if (value instanceof Number n) {
              json.writeNumber(n.longValue());
            } else if (value == null) {
              json.writeNull();
            } else {
              json.writeString(value.toString());
            }
          }
          json.writeEndArray();
          rows++;
        }
      }
    }
    return rows;
  }

  /**
   * Looks at the beginning of an archive, so that no store is made for what is none.
   *
   * @throws InputException if it is none of this version
   * @throws IOException if the bytes cannot be read
   */
  public static void check(InputStream from, String source) throws IOException {
    try (ArchiveReader reader = new ArchiveReader(from, source, Schema.own().latest())) {
      reader.head();
    }
  }

  /**
   * Fills this store, which must be empty.
   *
   * @param from bytes of an archive
   * @param source its name in messages
   * @return rows by table
   * @throws InputException if the store is not empty, or that is no sound archive of this version:
   *     then nothing is saved
   * @throws IOException if the bytes cannot be read
   */
  public Map<String, Long> restore(InputStream from, String source) throws IOException {
    try (ArchiveReader reader = new ArchiveReader(from, source, version)) {
      return restore(reader);
    }
  }

  private Map<String, Long> restore(ArchiveReader reader) throws IOException {
    Map<String, Long> rows = new LinkedHashMap<>();
    try {
      database.begin(c);
      boolean done = false;
      try {
        checkEmpty();
        reader.head();
        for (String table : tables()) {
          rows.put(table, reader.rows(table, c));
          database.goOnNumbering(c, table);
        }
        reader.end();
        for (RecordKind kind : RecordKind.values()) {
          reader.checkNone(kind, Edits.orphans(kind, c));
        }
        database.checkBeforeCommit();
        database.commit(c);
        done = true;
      } finally {
        if (!done) {
          database.rollBack(c);
        }
      }
    } catch (SQLException e) {
      if (e.getMessage() != null && e.getMessage().contains("constraint")) {
        throw reader.fault("what contradicts itself or lacks something", "rows that fit together");
      }
      throw database.failure(e);
    }
    return rows;
  }

  private void checkEmpty() throws SQLException {
    try (Statement s = c.createStatement();
        ResultSet r = s.executeQuery("SELECT count(*) FROM action")) {
      r.next();
      if (r.getLong(1) > 0) {
        throw new InputException(
            database.problem("a store that holds " + r.getLong(1) + " actions", "an empty one"));
      }
    }
  }
}
