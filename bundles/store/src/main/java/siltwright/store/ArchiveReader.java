package siltwright.store;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import java.io.CharConversionException;
import java.io.EOFException;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.CharsetEncoder;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipInputStream;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.history.RecordKind;

/**
 * Reads an archive from its beginning to its end, a part after the other. What a store could not
 * give back, or its readers could not use, is refused: a zone that is none, a number that is not
 * finite, a text with half a character.
 */
final class ArchiveReader implements AutoCloseable {
  private static final int BATCH = 500;

  /** Most bytes of the rows that wait to be written, however few they are. */
  private static final long BATCH_BYTES = 4L << 20;

  /**
   * How many times its packed size it may have beyond the first {@value #FREE} bytes. Rows of one
   * machine with the same long note each have about 30 times theirs.
   */
  private static final int RATIO = 300;

  private static final long FREE = 64L << 20;
  private static final long MOST_ID = 1L << 53;
  private static final long FIRST_MS = Instant.parse("0001-01-01T00:00:00Z").toEpochMilli();
  private static final long LAST_MS = Instant.parse("9999-12-31T23:59:59.999Z").toEpochMilli();

  private static final JsonFactory JSON =
      JsonFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(4)
                  .maxStringLength(1_000_000)
                  .maxNumberLength(40)
                  .build())
          .disable(StreamReadFeature.AUTO_CLOSE_SOURCE)
          .build();

  private final String source;
  private final int version;
  private final ZipInputStream zip;
  private final CharsetEncoder encoder = StandardCharsets.UTF_8.newEncoder();
  private long packed;
  private long unpacked;
  private String place = "";

  /**
   * Makes a reader.
   *
   * @param from bytes of an archive
   * @param source its name in messages
   * @param version version of the tables that it must hold
   */
  ArchiveReader(InputStream from, String source, int version) {
    this.source = source;
    this.version = version;
    this.zip = new ZipInputStream(counted(from));
  }

  private InputStream counted(InputStream from) {
    return new FilterInputStream(from) {
      @Override
      public int read(byte[] bytes, int at, int length) throws IOException {
        int n = super.read(bytes, at, length);
        packed += Math.max(0, n);
        return n;
      }
    };
  }

  /** Returns what a user is told of the place that was read last. */
  InputException fault(String found, String expected) {
    return new InputException(new Problem(source, place, found, expected));
  }

  /** Reads a part; tells what is no archive as that. */
  private interface Reading<T> {
    T of(JsonParser json) throws IOException, SQLException;
  }

  private <T> T part(String name, Reading<T> reading) throws IOException, SQLException {
    String found = next();
    if (!name.equals(found)) {
      throw fault(found == null ? "its end" : "part " + found, "part " + name);
    }
    place = name;
    try (JsonParser json = JSON.createParser(unpacked())) {
      return reading.of(json);
    } catch (JsonProcessingException e) {
      throw fault(e.getOriginalMessage(), "an archive as it was written");
    } catch (CharConversionException e) {
      throw fault("bytes that are no text", "an archive as it was written");
    } catch (ZipException | EOFException e) {
      throw damaged();
    }
  }

  /** Returns the name of the next part; null if there is none. */
  private String next() throws IOException {
    place = "";
    try {
      ZipEntry entry = zip.getNextEntry();
      return entry == null ? null : entry.getName();
    } catch (ZipException | EOFException | IllegalArgumentException e) {
      throw damaged(); // the last of them: a name in another encoding
    }
  }

  private InputException damaged() {
    return fault("a damaged zip", "an archive as it was written");
  }

  /** The bytes of the part; a file that unpacks to far more than it is, is none of this program. */
  private InputStream unpacked() {
    return new FilterInputStream(zip) {
      @Override
      public int read(byte[] bytes, int at, int length) throws IOException {
        int n = super.read(bytes, at, length);
        unpacked += Math.max(0, n);
        if (unpacked > FREE && unpacked > RATIO * packed) {
          throw fault(
              "more than " + RATIO + " times what it is packed", "rows as they were written");
        }
        return n;
      }
    };
  }

  /** Reads what it says of itself. */
  void head() throws IOException {
    try {
      int found = part("archive.json", this::version);
      if (found != version) {
        throw fault("version " + found + " of a store", "version " + version);
      }
    } catch (SQLException e) {
      throw new IllegalStateException(e); // no database has been asked
    }
  }

  private int version(JsonParser json) throws IOException {
    if (json.nextToken() != JsonToken.START_ARRAY || !Archive.HEAD.equals(json.nextTextValue())) {
      throw fault("a file of another kind", Archive.HEAD);
    }
    int found = json.nextIntValue(0);
    if (json.nextToken() != JsonToken.END_ARRAY || json.nextToken() != null) {
      throw fault("more than name and version", Archive.HEAD);
    }
    return found;
  }

  /** Reads the rows of the next table into a database. */
  long rows(String table, Connection c) throws IOException, SQLException {
    Map<String, Integer> types = types(table, c);
    return part(table + ".json", json -> rows(table, types, json, c));
  }

  private long rows(String table, Map<String, Integer> types, JsonParser json, Connection c)
      throws IOException, SQLException {
    List<String> columns = columns(json, types.keySet());
    String sql =
        "INSERT INTO "
            + table
            + " ("
            + String.join(", ", columns)
            + ") VALUES (?"
            + ", ?".repeat(columns.size() - 1)
            + ")";
    try (PreparedStatement s = c.prepareStatement(sql)) {
      long rows = 0;
      long written = 0;
      long from = unpacked;
      for (JsonToken token; (token = json.nextToken()) != null; ) {
        place = table + ".json row " + (rows + 1);
        if (token != JsonToken.START_ARRAY) {
          throw fault(json.getText(), "cells in brackets");
        }
        for (int i = 0; i < columns.size(); i++) {
          set(s, i + 1, columns.get(i), types.get(columns.get(i)), json);
        }
        if (json.nextToken() != JsonToken.END_ARRAY) {
          throw fault("more cells", columns.size() + " cells");
        }
        s.addBatch();
        rows++;
        if (rows - written == BATCH || unpacked - from > BATCH_BYTES) {
          place = table + ".json rows " + (written + 1) + " to " + rows;
          s.executeBatch();
          written = rows;
          from = unpacked;
        }
      }
      place = table + ".json rows " + (written + 1) + " to " + rows;
      s.executeBatch();
      return rows;
    }
  }

  private List<String> columns(JsonParser json, Set<String> expected) throws IOException {
    List<String> columns = new ArrayList<>();
    boolean sound = json.nextToken() == JsonToken.START_ARRAY;
    while (sound && json.nextToken() == JsonToken.VALUE_STRING) {
      sound = expected.contains(json.getText()) && !columns.contains(json.getText());
      columns.add(json.getText());
    }
    if (!sound || json.currentToken() != JsonToken.END_ARRAY || columns.size() < expected.size()) {
      throw fault(columns.toString(), "the columns " + expected);
    }
    return columns;
  }

  private void set(PreparedStatement s, int at, String column, int type, JsonParser json)
      throws IOException, SQLException {
    JsonToken token = json.nextToken();
    if (token == JsonToken.VALUE_NULL) {
      s.setNull(at, type);
    } else if (token == JsonToken.VALUE_STRING && type == Types.VARCHAR) {
      s.setString(at, text(column, json.getText()));
    } else if (token == JsonToken.VALUE_NUMBER_INT && type == Types.BIGINT) {
      s.setLong(at, whole(column, json.getLongValue()));
    } else if (token != null && token.isNumeric() && type == Types.DOUBLE) {
      double number = json.getDoubleValue();
      if (Double.isInfinite(number)) {
        throw fault(column + " " + json.getText(), "a number within the range of a double");
      }
      s.setDouble(at, number);
    } else {
      String expected =
          type == Types.VARCHAR ? "a text" : type == Types.BIGINT ? "a whole number" : "a number";
      throw fault(column + " " + (token == null ? "cut off" : json.getText()), expected);
    }
  }

  private String text(String column, String text) {
    if (text.indexOf(0) >= 0 || !encoder.canEncode(text)) {
      throw fault(column + " " + text, "a text without NUL and half characters");
    }
    if (column.equals("zone")) {
      try {
        ZoneId.of(text);
      } catch (DateTimeException e) {
        throw fault(column + " " + text, "a time zone such as Europe/Lisbon");
      }
    }
    return text;
  }

  private long whole(String column, long number) {
    if (column.equals("at_ms")) {
      check(column, number, FIRST_MS, LAST_MS, "an instant of the years 1 to 9999, in ms");
    } else if (column.equals("whole_day")) {
      check(column, number, 0, 1, "0 or 1");
    } else {
      boolean count = column.startsWith("rows_") || column.equals("made") || column.equals("ended");
      check(column, number, count ? 0 : 1, MOST_ID, "a number from " + (count ? 0 : 1));
    }
    return number;
  }

  private void check(String column, long number, long low, long high, String expected) {
    if (number < low || number > high) {
      throw fault(column + " " + number, expected);
    }
  }

  private static Map<String, Integer> types(String table, Connection c) throws SQLException {
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

  /** Makes sure that nothing follows. */
  void end() throws IOException {
    String found = next();
    if (found != null) {
      throw fault("part " + found, "its end");
    }
  }

  /** Fails if there are records of machines of which nothing is known. */
  void checkNone(RecordKind kind, long orphans) {
    if (orphans > 0) {
      place = kind.table() + ".json";
      throw fault(orphans + " records of no machine", "records of those in machine_state.json");
    }
  }

  @Override
  public void close() throws IOException {
    zip.close();
  }
}
