package siltwright.parquet;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.apache.parquet.format.ColumnChunk;
import org.apache.parquet.format.ColumnMetaData;
import org.apache.parquet.format.FieldRepetitionType;
import org.apache.parquet.format.FileMetaData;
import org.apache.parquet.format.RowGroup;
import org.apache.parquet.format.SchemaElement;
import org.apache.parquet.format.Util;

/**
 * What stands at the end of a file: its columns and where their values are. What it claims is
 * checked against the file here, so that nothing later takes room or time for what is not there.
 * The bounds are our own choice.
 *
 * <p>Source of the layout: the Apache Parquet format, "File format" and {@code parquet.thrift}.
 *
 * @param columns the columns
 * @param groups the parts that the rows are in
 * @param rows how many rows there are
 * @param madeBy the program that wrote the file; may be null
 */
record Footer(List<SchemaElement> columns, List<RowGroup> groups, long rows, String madeBy) {
  /** Most bytes of a footer. */
  static final int LONGEST = 16 << 20;

  /** Most columns. */
  static final int WIDEST = 2000;

  /** Rows that any file may have, however few bytes it is, and how many each byte adds. */
  static final long FREE_ROWS = 1_000_000;

  static final int ROWS_PER_BYTE = 100;

  private static final int MAGIC = 4;
  private static final int TAIL = 8;

  /**
   * Reads it.
   *
   * @throws Damage if the file is none, or claims what it cannot hold
   */
  static Footer read(FileChannel file) throws IOException {
    long size = file.size();
    if (size < MAGIC + TAIL) {
      throw new Damage(size + " bytes", "a Parquet file");
    }
    ByteBuffer ends = ByteBuffer.allocate(MAGIC + TAIL).order(ByteOrder.LITTLE_ENDIAN);
    file.read(ends.limit(MAGIC), 0);
    file.read(ends.limit(MAGIC + TAIL), size - TAIL);
    String head = new String(ends.array(), 0, MAGIC, StandardCharsets.ISO_8859_1);
    String tail = new String(ends.array(), TAIL, MAGIC, StandardCharsets.ISO_8859_1);
    if (head.equals("PARE") || tail.equals("PARE")) {
      throw new Damage("an encrypted file", "one that is not encrypted");
    }
    if (!head.equals("PAR1")) {
      throw new Damage("a file of another kind", "a Parquet file");
    }
    if (!tail.equals("PAR1")) {
      throw Damage.damaged("its end is missing");
    }
    int length = ends.getInt(MAGIC);
    if (length <= 0 || length > size - MAGIC - TAIL || length > LONGEST) {
      throw Damage.damaged("a footer of " + Integer.toUnsignedString(length) + " bytes");
    }
    ByteBuffer bytes = ByteBuffer.allocate(length);
    file.read(bytes, size - TAIL - length);
    FileMetaData data = Util.readFileMetaData(new ByteArrayInputStream(bytes.array()), length);
    return of(data, size - TAIL - length);
  }

  private static Footer of(FileMetaData data, long end) {
    if (data.isSetEncryption_algorithm()) {
      throw new Damage("an encrypted file", "one that is not encrypted");
    }
    List<SchemaElement> columns = columns(data.getSchema());
    long rows = 0;
    long most = FREE_ROWS + ROWS_PER_BYTE * end;
    for (RowGroup group : data.getRow_groups()) {
      long n = group.getNum_rows();
      if (n < 0 || n > most - rows) {
        throw new Damage(
            "more than " + most + " rows in a file of this size", "a file that holds its rows");
      }
      rows += n;
      check(group, columns, end);
    }
    return new Footer(columns, data.getRow_groups(), rows, data.getCreated_by());
  }

  private static List<SchemaElement> columns(List<SchemaElement> schema) {
    if (schema.isEmpty()) {
      throw Damage.damaged("no columns");
    }
    if (schema.size() - 1 > WIDEST) {
      throw new Damage(schema.size() - 1 + " columns", "at most " + WIDEST);
    }
    List<SchemaElement> columns = new ArrayList<>(schema.subList(1, schema.size()));
    for (SchemaElement c : columns) {
      if (c.getNum_children() > 0 || !c.isSetType()) {
        throw new Damage(
            "the column " + c.getName() + ", which has columns in it", "columns of single values");
      }
      if (c.getRepetition_type() == FieldRepetitionType.REPEATED) {
        throw new Damage(
            "the column " + c.getName() + ", which has lists in it", "columns of single values");
      }
    }
    if (schema.get(0).getNum_children() != columns.size()) {
      throw Damage.damaged("columns that do not add up");
    }
    if (columns.stream().map(SchemaElement::getName).distinct().count() < columns.size()) {
      throw new Damage("two columns of one name", "a name for each column");
    }
    return columns;
  }

  private static void check(RowGroup group, List<SchemaElement> columns, long end) {
    if (group.getColumnsSize() != columns.size()) {
      throw Damage.damaged("a part with " + group.getColumnsSize() + " columns");
    }
    for (int i = 0; i < columns.size(); i++) {
      ColumnChunk chunk = group.getColumns().get(i);
      String name = columns.get(i).getName();
      if (chunk.isSetCrypto_metadata() || !chunk.isSetMeta_data()) {
        throw new Damage("the encrypted column " + name, "a file that is not encrypted");
      }
      if (chunk.isSetFile_path()) {
        throw new Damage("the column " + name + " in another file", "one file with all columns");
      }
      ColumnMetaData meta = chunk.getMeta_data();
      long from = start(meta);
      long length = meta.getTotal_compressed_size();
      if (from < MAGIC || length < 0 || length > end - from) {
        throw Damage.damaged("the column " + name + " beyond the file's end");
      }
      if (meta.getNum_values() != group.getNum_rows()
          || meta.getType() != columns.get(i).getType()
          || !meta.getPath_in_schema().equals(List.of(name))) {
        throw Damage.damaged("the column " + name + " not as declared");
      }
    }
  }

  /** Returns where the pages of a column in a part begin. */
  static long start(ColumnMetaData meta) {
    long data = meta.getData_page_offset();
    long words = meta.isSetDictionary_page_offset() ? meta.getDictionary_page_offset() : 0;
    return words > 0 ? Math.min(words, data) : data;
  }
}
