package siltwright.parquet;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.ColumnReader;
import org.apache.parquet.column.impl.ColumnReadStoreImpl;
import org.apache.parquet.column.page.PageReadStore;
import org.apache.parquet.column.page.PageReader;
import org.apache.parquet.format.FieldRepetitionType;
import org.apache.parquet.format.RowGroup;
import org.apache.parquet.format.SchemaElement;
import org.apache.parquet.io.api.Converter;
import org.apache.parquet.io.api.GroupConverter;
import org.apache.parquet.io.api.PrimitiveConverter;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.Types;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * The rows of a Parquet file, one after the other, with a page of each column in memory. Columns
 * hold single values; packed by SNAPPY, GZIP, ZSTD or LZ4_RAW, or not at all.
 *
 * <p>A file that is damaged, or claims more than it can hold, is refused before room is taken for
 * it.
 */
public final class ParquetRows implements AutoCloseable {
  private final Path path;
  private final FileChannel file;
  private final List<String> wanted;
  private Footer footer;
  private MessageType schema;
  private ColumnValues[] columns;
  private boolean[] optional;
  private int[] places;
  private ColumnReader[] readers;
  private int group;
  private long left;
  private long row;

  private ParquetRows(Path path, FileChannel file, List<String> wanted) {
    this.path = path;
    this.file = file;
    this.wanted = wanted;
  }

  /**
   * Opens a file.
   *
   * @throws InputException if it is no Parquet file that can be read
   */
  public static ParquetRows open(Path path) throws IOException {
    return open(path, null);
  }

  /**
   * Opens a file for some of its columns.
   *
   * @param wanted their names, in the order in which rows are to have them; a column that is not
   *     there has no values; null for all columns
   * @throws InputException if it is no Parquet file that can be read
   */
  public static ParquetRows open(Path path, List<String> wanted) throws IOException {
    ParquetRows rows = new ParquetRows(path, FileChannel.open(path), wanted);
    boolean sound = false;
    try {
      rows.begin();
      sound = true;
      return rows;
    } finally {
      if (!sound) {
        rows.close();
      }
    }
  }

  private void begin() {
    guarded(
        () -> {
          footer = Footer.read(file);
          List<SchemaElement> all = footer.columns();
          columns = new ColumnValues[all.size()];
          optional = new boolean[all.size()];
          Types.MessageTypeBuilder made = Types.buildMessage();
          for (int i = 0; i < columns.length; i++) {
            columns[i] = ColumnValues.of(all.get(i));
            optional[i] = all.get(i).getRepetition_type() == FieldRepetitionType.OPTIONAL;
            made.addField(type(columns[i], optional[i]));
          }
          schema = made.named("rows");
          places =
              wanted == null
                  ? IntStream.range(0, columns.length).toArray()
                  : wanted.stream().mapToInt(columns()::indexOf).toArray();
          return null;
        });
  }

  private static org.apache.parquet.schema.Type type(ColumnValues c, boolean optional) {
    Types.PrimitiveBuilder<org.apache.parquet.schema.PrimitiveType> builder =
        optional ? Types.optional(c.type()) : Types.required(c.type());
    return (c.length() > 0 ? builder.length(c.length()) : builder).named(c.name());
  }

  /** Returns the names of the columns. */
  public List<String> columns() {
    List<String> names = new ArrayList<>();
    for (ColumnValues c : columns) {
      names.add(c.name());
    }
    return names;
  }

  /** Returns how many rows the file has. */
  public long count() {
    return footer.rows();
  }

  /** Leaves out rows; whole parts of the file without reading them. */
  public void skip(long rows) {
    guarded(
        () -> {
          for (long skip = rows; skip > 0; ) {
            boolean more = left == 0 && group < footer.groups().size();
            long inGroup = more ? footer.groups().get(group).getNum_rows() : 0;
            if (more && inGroup <= skip) {
              group++;
              skip -= inGroup;
              row += inGroup;
            } else if (next() == null) {
              return null;
            } else {
              skip--;
            }
          }
          return null;
        });
  }

  /**
   * Returns the next row, a value for each column, or null at the end: {@link String}, {@link
   * Double}, {@link Boolean}, {@link java.time.LocalDate}, {@link java.time.LocalTime}, {@link
   * java.time.LocalDateTime} where a time names no zone, {@link java.time.Instant} where it is one
   * of UTC; null where there is none.
   *
   * @throws InputException if what follows cannot be read
   */
  public Object[] next() {
    return guarded(
        () -> {
          while (left == 0) {
            if (group == footer.groups().size()) {
              return null;
            }
            enter(footer.groups().get(group++));
          }
          left--;
          row++;
          Object[] values = new Object[places.length];
          for (int i = 0; i < values.length; i++) {
            int c = places[i];
            if (c < 0) {
              continue;
            }
            ColumnReader reader = readers[c];
            if (!optional[c] || reader.getCurrentDefinitionLevel() > 0) {
              values[i] = columns[c].value(reader);
            }
            reader.consume();
          }
          return values;
        });
  }

  private void enter(RowGroup part) {
    left = part.getNum_rows();
    if (left == 0) {
      return;
    }
    Pages.Room room = new Pages.Room();
    Map<ColumnDescriptor, PageReader> pages = new HashMap<>();
    List<ColumnDescriptor> all = schema.getColumns();
    for (int i = 0; i < columns.length; i++) {
      pages.put(
          all.get(i), new Pages(file, part.getColumns().get(i).getMeta_data(), optional[i], room));
    }
    ColumnReadStoreImpl store =
        new ColumnReadStoreImpl(
            new PageReadStore() {
              @Override
              public PageReader getPageReader(ColumnDescriptor column) {
                return pages.get(column);
              }

              @Override
              public long getRowCount() {
                return part.getNum_rows();
              }
            },
            new NoConverter(),
            schema,
            footer.madeBy());
    readers = new ColumnReader[columns.length];
    for (int i : IntStream.of(places).filter(c -> c >= 0).toArray()) {
      readers[i] = store.getColumnReader(all.get(i));
    }
  }

  /** Values are asked for, not handed on. */
  private static final class NoConverter extends GroupConverter {
    @Override
    public Converter getConverter(int column) {
      return new PrimitiveConverter() {};
    }

    @Override
    public void start() {
      // nothing to begin
    }

    @Override
    public void end() {
      // nothing to end
    }
  }

  /** A piece of reading. */
  private interface Reading<T> {
    T read() throws IOException;
  }

  /** Whatever a decoder throws at bytes that no writer wrote, the file is damaged. */
  private <T> T guarded(Reading<T> reading) {
    String place = row == 0 ? "" : "row " + row;
    try {
      return reading.read();
    } catch (Damage e) {
      throw new InputException(new Problem(path.toString(), place, e.found(), e.expected()));
    } catch (IOException | RuntimeException | StackOverflowError e) {
      throw damaged(place);
    }
  }

  private InputException damaged(String place) {
    return new InputException(
        new Problem(path.toString(), place, "a damaged file", "a sound Parquet file"));
  }

  @Override
  public void close() {
    try {
      file.close();
    } catch (IOException e) {
      // it was only read
    }
  }
}
