package siltwright.store;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParseException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.io.SerializedString;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Types;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * The whole of a store in one file: a zip with a file for each table, a JSON array a row, the names
 * of the columns in the first. It holds everything, the journal too, and is the same for every
 * database, so that it also moves a store from one to another.
 */
public final class Archive {
  private static final String HEAD = "siltwright-archive/1";
  private static final int BATCH = 500;
  private static final int FETCH = 1000;

  private static final JsonFactory JSON =
      JsonFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(4)
                  .maxStringLength(1_000_000)
                  .maxNumberLength(40)
                  .build())
          .disable(StreamWriteFeature.AUTO_CLOSE_TARGET)
          .disable(StreamReadFeature.AUTO_CLOSE_SOURCE)
          .build();

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
    Map<String, Long> rows = new LinkedHashMap<>();
    try {
      database.begin(c);
      boolean done = false;
      try (ZipInputStream zip = new ZipInputStream(from)) {
        checkEmpty();
        if (zip.getNextEntry() == null || !isHead(zip)) {
          throw new InputException(
              new Problem(source, "", "a file of another kind", HEAD + " of version " + version));
        }
        for (String table : tables()) {
          ZipEntry entry = zip.getNextEntry();
          if (entry == null || !entry.getName().equals(table + ".json")) {
            throw new InputException(
                new Problem(
                    source, "", entry == null ? "its end" : entry.getName(), table + ".json"));
          }
          rows.put(table, restore(table, zip, source));
          database.goOnNumbering(c, table);
        }
        database.checkBeforeCommit();
        database.commit(c);
        done = true;
      } catch (JsonProcessingException e) {
        throw new InputException(
            new Problem(source, "", e.getOriginalMessage(), "an archive as it was written"));
      } finally {
        if (!done) {
          database.rollBack(c);
        }
      }
    } catch (SQLException e) {
      if (e.getMessage() != null && e.getMessage().contains("constraint")) {
        throw new InputException(
            new Problem(source, "", "rows that contradict each other", "a sound archive"));
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

  private boolean isHead(InputStream zip) throws IOException {
    try (JsonParser json = JSON.createParser(kept(zip))) {
      return json.nextToken() == JsonToken.START_ARRAY
          && HEAD.equals(json.nextTextValue())
          && json.nextIntValue(0) == version;
    } catch (JsonProcessingException e) {
      return false;
    }
  }

  /** A parser that is done must not close the zip. */
  private static InputStream kept(InputStream in) {
    return new FilterInputStream(in) {
      @Override
      public void close() {
        // the zip goes on
      }
    };
  }

  private long restore(String table, InputStream zip, String source)
      throws SQLException, IOException {
    try (JsonParser json = JSON.createParser(kept(zip))) {
      List<String> columns = new ArrayList<>();
      if (json.nextToken() == JsonToken.START_ARRAY) {
        for (String name; (name = json.nextTextValue()) != null; ) {
          columns.add(name);
        }
      }
      Map<String, Integer> types = types(table);
      if (!types.keySet().equals(Set.copyOf(columns))) {
        throw new InputException(
            new Problem(
                source, table + ".json", columns.toString(), "the columns " + types.keySet()));
      }
      String places = columns.stream().map(n -> "?").collect(Collectors.joining(", "));
      try (PreparedStatement s =
          c.prepareStatement(
              "INSERT INTO "
                  + table
                  + " ("
                  + String.join(", ", columns)
                  + ") VALUES ("
                  + places
                  + ")")) {
        long rows = 0;
        while (json.nextToken() == JsonToken.START_ARRAY) {
          for (int i = 0; i < columns.size(); i++) {
            set(s, i + 1, json, types.get(columns.get(i)));
          }
          if (json.nextToken() != JsonToken.END_ARRAY) {
            throw new InputException(
                new Problem(
                    source,
                    table + ".json row " + (rows + 1),
                    "more cells",
                    columns.size() + " cells"));
          }
          s.addBatch();
          if (++rows % BATCH == 0) {
            s.executeBatch();
          }
        }
        s.executeBatch();
        return rows;
      }
    }
  }

  private static void set(PreparedStatement s, int place, JsonParser json, int type)
      throws SQLException, IOException {
    JsonToken token = json.nextToken();
    if (token == JsonToken.VALUE_NULL) {
      s.setNull(place, type);
    } else if (token == JsonToken.VALUE_STRING && type == Types.VARCHAR) {
      s.setString(place, json.getText());
    } else if (token == JsonToken.VALUE_NUMBER_INT && type == Types.BIGINT) {
      s.setLong(place, json.getLongValue());
    } else if (token != null && token.isNumeric() && type == Types.DOUBLE) {
      s.setDouble(place, json.getDoubleValue());
    } else {
      throw new JsonParseException(json, "a cell of another type");
    }
  }

  private Map<String, Integer> types(String table) throws SQLException {
    Map<String, Integer> types = new LinkedHashMap<>();
    try (ResultSet r = c.getMetaData().getColumns(null, null, table, null)) {
      while (r.next()) {
        String type = r.getString("TYPE_NAME").toUpperCase(Locale.ROOT);
        types.put(
            r.getString("COLUMN_NAME"),
            type.contains("TEXT")
                ? Types.VARCHAR
                : type.contains("DOUBLE") || type.contains("FLOAT") ? Types.DOUBLE : Types.BIGINT);
      }
    }
    return types;
  }
}
