package siltwright.parquet;

import java.io.BufferedOutputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.zip.CRC32;
import org.apache.parquet.format.ColumnChunk;
import org.apache.parquet.format.ColumnMetaData;
import org.apache.parquet.format.CompressionCodec;
import org.apache.parquet.format.DataPageHeader;
import org.apache.parquet.format.Encoding;
import org.apache.parquet.format.FieldRepetitionType;
import org.apache.parquet.format.FileMetaData;
import org.apache.parquet.format.LogicalType;
import org.apache.parquet.format.MilliSeconds;
import org.apache.parquet.format.PageHeader;
import org.apache.parquet.format.PageType;
import org.apache.parquet.format.RowGroup;
import org.apache.parquet.format.SchemaElement;
import org.apache.parquet.format.StringType;
import org.apache.parquet.format.TimeUnit;
import org.apache.parquet.format.TimestampType;
import org.apache.parquet.format.Type;
import org.apache.parquet.format.Util;

/**
 * Writes a Parquet file, row by row, with one part of its rows in memory, packed. Every value may
 * be missing. Values are encoded plainly and packed by gzip, which every reader knows.
 *
 * <p>Source of the layout: the Apache Parquet format, "File format", "Data pages", "Encodings":
 * plain (PLAIN = 0), and the bit-packed runs of RLE = 3 for which values are there.
 */
public final class ParquetWriter implements AutoCloseable {
  private static final byte[] MAGIC = "PAR1".getBytes(StandardCharsets.US_ASCII);
  private static final String MADE_BY = "siltwright version 0.1.0";
  private static final int ROWS_IN_PAGE = 20_000;
  private static final int BYTES_IN_PAGE = 1 << 20;
  private static final int ROWS_IN_PART = 200_000;
  private static final int VALUE = 8;

  private final OutputStream file;
  private final List<Page> columns = new ArrayList<>();
  private final List<RowGroup> parts = new ArrayList<>();
  private long position;
  private long rows;
  private int inPart;

  /** What the values of a column are. */
  public enum Kind {
    /** {@link String}. */
    TEXT(Type.BYTE_ARRAY),
    /** {@link Double}. */
    NUMBER(Type.DOUBLE),
    /** {@link Instant}, to the millisecond. */
    INSTANT(Type.INT64);

    private final Type type;

    Kind(Type type) {
      this.type = type;
    }
  }

  /**
   * A column.
   *
   * @param name its name, with the unit of its numbers
   * @param kind what its values are
   */
  public record Column(String name, Kind kind) {}

  private ParquetWriter(OutputStream file, List<Column> columns) {
    this.file = file;
    columns.forEach(c -> this.columns.add(new Page(c)));
  }

  /** Begins a file. */
  public static ParquetWriter create(Path path, List<Column> columns) throws IOException {
    ParquetWriter writer =
        new ParquetWriter(new BufferedOutputStream(Files.newOutputStream(path)), columns);
    writer.put(MAGIC);
    return writer;
  }

  private void put(byte[] bytes) throws IOException {
    file.write(bytes);
    position += bytes.length;
  }

  /**
   * Writes a row.
   *
   * @param values a value of its kind for each column, or null
   */
  public void row(Object[] values) throws IOException {
    for (int i = 0; i < values.length; i++) {
      columns.get(i).add(values[i]);
    }
    rows++;
    if (++inPart == ROWS_IN_PART) {
      endPart();
    }
  }

  private void endPart() throws IOException {
    if (inPart > 0) {
      List<ColumnChunk> chunks = new ArrayList<>();
      long size = 0;
      for (Page column : columns) {
        ColumnMetaData meta = column.endPart();
        size += meta.getTotal_uncompressed_size();
        chunks.add(new ColumnChunk(0).setMeta_data(meta));
      }
      parts.add(new RowGroup(chunks, size, inPart));
      inPart = 0;
    }
  }

  /** The page of a column that is being filled, and those of its part before it. */
  private final class Page {
    private final Column column;
    private final BitSet there = new BitSet();
    private final ByteArrayOutputStream values = new ByteArrayOutputStream();
    private final ByteArrayOutputStream full = new ByteArrayOutputStream();
    private int count;
    private long unpacked;

    Page(Column column) {
      this.column = column;
    }

    void add(Object value) throws IOException {
      if (value != null) {
        there.set(count);
        switch (column.kind()) {
          case TEXT -> {
            byte[] text = ((String) value).getBytes(StandardCharsets.UTF_8);
            values.write(littleEndian(Integer.BYTES).putInt(text.length).array());
            values.write(text);
          }
          case NUMBER -> values.write(littleEndian(VALUE).putDouble((double) value).array());
          case INSTANT ->
              values.write(littleEndian(VALUE).putLong(((Instant) value).toEpochMilli()).array());
        }
      }
      if (++count == ROWS_IN_PAGE || values.size() >= BYTES_IN_PAGE) {
        end();
      }
    }

    /** Packs the page, and begins another one. */
    private void end() throws IOException {
      byte[] levels = levels();
      byte[] length = littleEndian(Integer.BYTES).putInt(levels.length).array();
      byte[] packed = Packing.gzip(length, levels, values.toByteArray());
      int size = length.length + levels.length + values.size();
      CRC32 sum = new CRC32();
      sum.update(packed);
      int before = full.size();
      Util.writePageHeader(
          new PageHeader(PageType.DATA_PAGE, size, packed.length)
              .setCrc((int) sum.getValue())
              .setData_page_header(
                  new DataPageHeader(count, Encoding.PLAIN, Encoding.RLE, Encoding.RLE)),
          full);
      unpacked += full.size() - before + size;
      full.write(packed);
      values.reset();
      there.clear();
      count = 0;
    }

    /** Which values are there: one run of bits, in groups of eight. */
    private byte[] levels() {
      int groups = (count + Byte.SIZE - 1) / Byte.SIZE;
      ByteArrayOutputStream run = new ByteArrayOutputStream();
      int head = groups << 1 | 1;
      for (; head > 0x7F; head >>>= 7) {
        run.write(head & 0x7F | 0x80);
      }
      run.write(head);
      run.writeBytes(Arrays.copyOf(there.toByteArray(), groups));
      return run.toByteArray();
    }

    /** Puts the pages of a part into the file; what is to be known of them. */
    private ColumnMetaData endPart() throws IOException {
      if (count > 0) {
        end();
      }
      ColumnMetaData meta =
          new ColumnMetaData(
              column.kind().type,
              List.of(Encoding.PLAIN, Encoding.RLE),
              List.of(column.name()),
              CompressionCodec.GZIP,
              inPart,
              unpacked,
              full.size(),
              position);
      put(full.toByteArray());
      full.reset();
      unpacked = 0;
      return meta;
    }

    private SchemaElement element() {
      SchemaElement e =
          new SchemaElement(column.name())
              .setType(column.kind().type)
              .setRepetition_type(FieldRepetitionType.OPTIONAL);
      return switch (column.kind()) {
        case TEXT -> e.setLogicalType(LogicalType.STRING(new StringType()));
        case NUMBER -> e;
        case INSTANT ->
            e.setLogicalType(
                LogicalType.TIMESTAMP(
                    new TimestampType(true, TimeUnit.MILLIS(new MilliSeconds()))));
      };
    }
  }

  private static ByteBuffer littleEndian(int size) {
    return ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
  }

  /** Writes the end of the file: without it there is none. */
  public void finish() throws IOException {
    endPart();
    List<SchemaElement> schema = new ArrayList<>();
    schema.add(new SchemaElement("rows").setNum_children(columns.size()));
    columns.forEach(c -> schema.add(c.element()));
    ByteArrayOutputStream footer = new ByteArrayOutputStream();
    Util.writeFileMetaData(new FileMetaData(1, schema, rows, parts).setCreated_by(MADE_BY), footer);
    put(footer.toByteArray());
    put(littleEndian(Integer.BYTES).putInt(footer.size()).array());
    put(MAGIC);
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
