package siltwright.parquet;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.apache.parquet.format.ColumnChunk;
import org.apache.parquet.format.ColumnMetaData;
import org.apache.parquet.format.CompressionCodec;
import org.apache.parquet.format.DataPageHeader;
import org.apache.parquet.format.DictionaryPageHeader;
import org.apache.parquet.format.Encoding;
import org.apache.parquet.format.FieldRepetitionType;
import org.apache.parquet.format.FileMetaData;
import org.apache.parquet.format.PageHeader;
import org.apache.parquet.format.PageType;
import org.apache.parquet.format.RowGroup;
import org.apache.parquet.format.SchemaElement;
import org.apache.parquet.format.Type;
import org.apache.parquet.format.Util;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.InputException;

/** Files that hurt are refused, soon and with little memory. */
class HostileParquetTest {
  private static final Path SOUND = Path.of("src/test/resources/snappy.parquet");
  private static final long MOST_BYTES = 256L << 20;

  @TempDir Path folder;

  /** Reads a file to its end; what it took of memory and time is bounded, whatever comes of it. */
  private static String read(Path file) {
    return assertTimeoutPreemptively(
        Duration.ofSeconds(20),
        () -> {
          ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
          long before = threads.getCurrentThreadAllocatedBytes();
          String told = "";
          try (ParquetRows rows = ParquetRows.open(file)) {
            while (rows.next() != null) {
              // to the end
            }
          } catch (InputException e) {
            told = e.getMessage();
          }
          long took = threads.getCurrentThreadAllocatedBytes() - before;
          assertTrue(took < MOST_BYTES, took + " bytes for " + told);
          assertFalse(told.contains("Exception"), told);
          return told;
        });
  }

  private Path write(byte[] bytes) throws IOException {
    return Files.write(folder.resolve("x.parquet"), bytes);
  }

  private static void refused(String because, Path file) {
    String told = read(file);
    assertTrue(told.contains(because), told);
  }

  @Test
  void truncatedAnywhere() throws IOException {
    byte[] all = Files.readAllBytes(SOUND);
    for (int n = 0; n < all.length; n += 37) {
      assertFalse(read(write(Arrays.copyOf(all, n))).isEmpty(), "cut at " + n);
    }
  }

  @Test
  void anyByteChanged() throws IOException {
    byte[] all = Files.readAllBytes(SOUND);
    Random random = new Random(11);
    for (int i = 0; i < 4000; i++) {
      byte[] bad = all.clone();
      for (int k = 0; k <= random.nextInt(3); k++) {
        bad[random.nextInt(bad.length)] = (byte) random.nextInt(256);
      }
      read(write(bad));
    }
  }

  @Test
  void otherFilesAndEncryptedOnes() throws IOException {
    byte[] all = Files.readAllBytes(SOUND);
    byte[] magic = all.clone();
    magic[0] = 'Q';
    refused("a file of another kind", write(magic));
    byte[] encrypted = all.clone();
    encrypted[3] = 'E';
    refused("an encrypted file", write(encrypted));
    byte[] long1 = all.clone();
    ByteBuffer.wrap(long1).order(ByteOrder.LITTLE_ENDIAN).putInt(all.length - 8, 0x7FFFFFF0);
    refused("a footer of 2147483632 bytes", write(long1));
  }

  /** A file with one column, one part and what a test makes of it. */
  private static final class Made {
    private final List<SchemaElement> schema = new ArrayList<>();
    private final ByteArrayOutputStream pages = new ByteArrayOutputStream();
    private Type type = Type.INT32;
    private CompressionCodec codec = CompressionCodec.UNCOMPRESSED;
    private long rows = 10;

    Made() {
      schema.add(new SchemaElement("rows").setNum_children(1));
      schema.add(
          new SchemaElement("a")
              .setType(Type.INT32)
              .setRepetition_type(FieldRepetitionType.REQUIRED));
    }

    Made of(Type of) {
      type = of;
      schema.get(1).setType(of);
      return this;
    }

    Made page(int count, Encoding encoding, int size, int... bytes) throws IOException {
      Util.writePageHeader(
          new PageHeader(PageType.DATA_PAGE, size, bytes.length)
              .setData_page_header(new DataPageHeader(count, encoding, Encoding.RLE, Encoding.RLE)),
          pages);
      for (int b : bytes) {
        pages.write(b);
      }
      return this;
    }

    Made words(int count, int size, int... bytes) throws IOException {
      Util.writePageHeader(
          new PageHeader(PageType.DICTIONARY_PAGE, size, bytes.length)
              .setDictionary_page_header(new DictionaryPageHeader(count, Encoding.PLAIN)),
          pages);
      for (int b : bytes) {
        pages.write(b);
      }
      return this;
    }

    byte[] bytes() throws IOException {
      ColumnMetaData meta =
          new ColumnMetaData(
              type, List.of(Encoding.PLAIN), List.of("a"), codec, rows, 0, pages.size(), 4);
      FileMetaData data =
          new FileMetaData(
              1,
              schema,
              rows,
              List.of(new RowGroup(List.of(new ColumnChunk(0).setMeta_data(meta)), 0, rows)));
      ByteArrayOutputStream footer = new ByteArrayOutputStream();
      Util.writeFileMetaData(data, footer);
      ByteArrayOutputStream all = new ByteArrayOutputStream();
      all.writeBytes("PAR1".getBytes(StandardCharsets.US_ASCII));
      all.writeBytes(pages.toByteArray());
      all.writeBytes(footer.toByteArray());
      ByteBuffer length = ByteBuffer.allocate(4).order(ByteOrder.LITTLE_ENDIAN);
      all.writeBytes(length.putInt(footer.size()).array());
      all.writeBytes("PAR1".getBytes(StandardCharsets.US_ASCII));
      return all.toByteArray();
    }
  }

  @Test
  void hugeCounts() throws IOException {
    Made rows = new Made();
    rows.rows = Long.MAX_VALUE;
    refused("rows in a file of this size", write(rows.bytes()));

    refused(
        "a page of 2147483647 values",
        write(new Made().page(Integer.MAX_VALUE, Encoding.PLAIN, 4, 1, 0, 0, 0).bytes()));
    refused(
        "a page of 2147483647 bytes",
        write(new Made().page(10, Encoding.PLAIN, Integer.MAX_VALUE, 1, 0, 0, 0).bytes()));
    Made packed = new Made().page(10, Encoding.PLAIN, 16 << 20, 0x28, 0xB5, 0x2F, 0xFD);
    packed.codec = CompressionCodec.ZSTD;
    refused("damaged", write(packed.bytes()));
    refused(
        "a dictionary of 2147483647 words",
        write(new Made().of(Type.BYTE_ARRAY).words(Integer.MAX_VALUE, 4, 0, 0, 0, 0).bytes()));
    // a text that says it has 2 GiB
    refused(
        "damaged",
        write(
            new Made()
                .of(Type.BYTE_ARRAY)
                .page(10, Encoding.PLAIN, 5, 0xFF, 0xFF, 0xFF, 0x7F, 'x')
                .bytes()));
  }

  /** Heads of runs and blocks that promise more values than there are rows. */
  @Test
  void runsWithoutEnd() throws IOException {
    refused(
        "more values than rows",
        write(
            new Made()
                .words(1, 4, 1, 0, 0, 0)
                .page(10, Encoding.RLE_DICTIONARY, 7, 1, 0xFF, 0xFF, 0xFF, 0xFF, 0x0F, 0)
                .bytes()));
    refused(
        "more values than rows",
        write(
            new Made()
                .page(10, Encoding.DELTA_BINARY_PACKED, 9, 0x80, 1, 4, 0xFF, 0xFF, 0xFF, 0xFF, 7, 0)
                .bytes()));
    refused(
        "encoded as BIT_PACKED",
        write(new Made().page(10, Encoding.BIT_PACKED, 4, 1, 0, 0, 0).bytes()));
  }

  @Test
  void absurdColumns() throws IOException {
    Made many = new Made();
    many.schema.get(0).setNum_children(300_000);
    for (int i = 0; i < 300_000; i++) {
      many.schema.add(many.schema.get(1));
    }
    refused("columns; expected at most 2000", write(many.bytes()));
    Made deep = new Made();
    deep.schema.clear();
    for (int i = 0; i < 100_000; i++) {
      deep.schema.add(new SchemaElement("a").setNum_children(1));
    }
    refused("columns; expected at most 2000", write(deep.bytes()));
    Made twice = new Made();
    twice.schema.get(0).setNum_children(2);
    twice.schema.add(twice.schema.get(1));
    refused("two columns of one name", write(twice.bytes()));
    refused("bytes without a meaning", write(new Made().of(Type.FIXED_LEN_BYTE_ARRAY).bytes()));
    Made places = new Made();
    places.schema.get(1).setConverted_type(org.apache.parquet.format.ConvertedType.DECIMAL);
    places.schema.get(1).setScale(Integer.MAX_VALUE);
    refused("2147483647 decimal places", write(places.bytes()));
  }

  /** Lists in a footer that say they are long, and parts in parts without end. */
  @Test
  void footersThatLie() throws IOException {
    // field 2, a list; its size as a number of five bytes; of structures
    footer(0x29, 0xFC, 0xFF, 0xFF, 0xFF, 0xFF, 0x07);
    int[] deep = new int[4 << 20];
    Arrays.fill(deep, 0x7C); // a structure in a field that nobody knows, in one, in one
    footer(deep);
  }

  private void footer(int... bytes) throws IOException {
    ByteBuffer all = ByteBuffer.allocate(bytes.length + 12).order(ByteOrder.LITTLE_ENDIAN);
    all.put("PAR1".getBytes(StandardCharsets.US_ASCII));
    for (int b : bytes) {
      all.put((byte) b);
    }
    all.putInt(bytes.length).put("PAR1".getBytes(StandardCharsets.US_ASCII));
    refused("damaged", write(all.array()));
  }
}
