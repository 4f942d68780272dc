package siltwright.parquet;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.util.Arrays;
import java.util.zip.CRC32;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.column.Encoding;
import org.apache.parquet.column.page.DataPage;
import org.apache.parquet.column.page.DataPageV1;
import org.apache.parquet.column.page.DataPageV2;
import org.apache.parquet.column.page.DictionaryPage;
import org.apache.parquet.column.page.PageReader;
import org.apache.parquet.format.ColumnMetaData;
import org.apache.parquet.format.DataPageHeader;
import org.apache.parquet.format.DataPageHeaderV2;
import org.apache.parquet.format.DictionaryPageHeader;
import org.apache.parquet.format.PageHeader;
import org.apache.parquet.format.PageType;
import org.apache.parquet.format.Type;
import org.apache.parquet.format.Util;

/** The pages of one column in one part of a file. One is in memory at a time. */
final class Pages implements PageReader {
  /** Most bytes of a page once it is unpacked. */
  static final int LARGEST = 16 << 20;

  /** Most values of a page. */
  static final int MOST_VALUES = 1 << 22;

  /** Most words of a dictionary. */
  static final int MOST_WORDS = 1 << 20;

  private final FileSlice bytes;
  private final Packing.Unpacking packing;
  private final ColumnMetaData meta;
  private final boolean optional;
  private final Room room;
  private long values;
  private long held;
  private PageHeader pending;

  /** What the pages of all columns may take together. */
  static final class Room {
    private static final long MOST = 128L << 20;
    private long taken;

    private void change(long by) {
      taken += by;
      if (taken > MOST) {
        throw new Damage(
            "pages of more than " + (MOST >> 20) + " MiB at once",
            "smaller pages, or fewer columns");
      }
    }
  }

  Pages(FileChannel file, ColumnMetaData meta, boolean optional, Room room) {
    this.bytes = new FileSlice(file, Footer.start(meta), meta.getTotal_compressed_size());
    this.packing = Packing.of(meta.getCodec());
    this.meta = meta;
    this.optional = optional;
    this.room = room;
  }

  @Override
  public long getTotalValueCount() {
    return meta.getNum_values();
  }

  private PageHeader header() throws IOException {
    if (pending == null) {
      pending = Util.readPageHeader(bytes);
      int packed = pending.getCompressed_page_size();
      int size = pending.getUncompressed_page_size();
      if (packed < 0 || packed > bytes.left() || size < 0 || size > LARGEST || packed > LARGEST) {
        throw new Damage(
            "a page of " + Math.max(packed, size) + " bytes",
            "pages of at most " + (LARGEST >> 20) + " MiB that are there");
      }
    }
    return pending;
  }

  /** Returns the bytes of the page whose header was read, as they stand in the file. */
  private byte[] take() throws IOException {
    byte[] all = bytes.readNBytes(pending.getCompressed_page_size());
    if (pending.isSetCrc()) {
      CRC32 sum = new CRC32();
      sum.update(all);
      if ((int) sum.getValue() != pending.getCrc()) {
        throw Damage.damaged("a page whose check sum is another");
      }
    }
    pending = null;
    return all;
  }

  @Override
  public DictionaryPage readDictionaryPage() {
    try {
      if (getTotalValueCount() == 0 || header().getType() != PageType.DICTIONARY_PAGE) {
        return null;
      }
      DictionaryPageHeader head = pending.getDictionary_page_header();
      int size = pending.getUncompressed_page_size();
      int words = head.getNum_values();
      if (words < 0 || words > MOST_WORDS || words > size && meta.getType() != Type.BOOLEAN) {
        throw new Damage("a dictionary of " + words + " words", "at most " + MOST_WORDS);
      }
      // a word in memory is an object beside its bytes
      room.change(size + 64L * words);
      return new DictionaryPage(
          BytesInput.from(packing.unpack(take(), size)), words, Encoding.PLAIN);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public DataPage readPage() {
    try {
      while (values < getTotalValueCount()) {
        PageHeader head = header();
        int size = head.getUncompressed_page_size();
        room.change(size - held);
        held = size;
        if (head.getType() == PageType.DATA_PAGE) {
          return first(head.getData_page_header(), size);
        }
        if (head.getType() == PageType.DATA_PAGE_V2) {
          return second(head.getData_page_header_v2(), size);
        }
        take();
      }
      return null;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private int count(int count) {
    if (count < 0 || count > MOST_VALUES || count > getTotalValueCount() - values) {
      throw new Damage(
          "a page of " + count + " values", "at most " + MOST_VALUES + ", and no more than rows");
    }
    values += count;
    return count;
  }

  private DataPage first(DataPageHeader head, int size) throws IOException {
    int count = count(head.getNum_values());
    byte[] page = packing.unpack(take(), size);
    int from = 0;
    if (optional) {
      if (head.getDefinition_level_encoding() != org.apache.parquet.format.Encoding.RLE) {
        throw new Damage("levels that are not run lengths", "levels encoded as RLE");
      }
      if (page.length < Integer.BYTES) {
        throw Damage.damaged("a page without levels");
      }
      int levels = ByteBuffer.wrap(page).order(ByteOrder.LITTLE_ENDIAN).getInt();
      Claims.levels(page, Integer.BYTES, levels, count);
      from = Integer.BYTES + levels;
    }
    check(page, from, head.getEncoding(), count);
    return new DataPageV1(
        BytesInput.from(page),
        count,
        size,
        null,
        Encoding.RLE,
        Encoding.RLE,
        Encoding.valueOf(head.getEncoding().name()));
  }

  private DataPage second(DataPageHeaderV2 head, int size) throws IOException {
    int count = count(head.getNum_values());
    byte[] all = take();
    int levels = head.getDefinition_levels_byte_length();
    if (head.getRepetition_levels_byte_length() != 0 || !optional && levels != 0) {
      throw Damage.damaged("levels of a column that has none");
    }
    Claims.levels(all, 0, levels, count);
    if (levels > size) {
      throw Damage.damaged("levels beyond their page");
    }
    byte[] packed = Arrays.copyOfRange(all, levels, all.length);
    // where all values are missing, some writers pack nothing and say nothing of it
    byte[] data =
        head.isIs_compressed() && packed.length > 0
            ? packing.unpack(packed, size - levels)
            : packed;
    check(data, 0, head.getEncoding(), count);
    return DataPageV2.uncompressed(
        head.getNum_rows(),
        head.getNum_nulls(),
        count,
        BytesInput.empty(),
        BytesInput.from(all, 0, levels),
        Encoding.valueOf(head.getEncoding().name()),
        BytesInput.from(data),
        null);
  }

  private void check(
      byte[] page, int from, org.apache.parquet.format.Encoding encoding, int count) {
    Claims.values(page, from, encoding, meta.getType() == Type.BOOLEAN, count);
  }
}
