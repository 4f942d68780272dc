package siltwright.parquet;

import org.apache.parquet.format.Encoding;

/**
 * Checks what encoded values claim of their number before a decoder takes room for them.
 *
 * <p>Source: the Apache Parquet format, "Encodings": RLE/bit-packing hybrid (RLE = 3), delta
 * encoding (DELTA_BINARY_PACKED = 5), delta-length byte array (6).
 */
final class Claims {
  /** Values that a packed run may hold beyond the last: writers fill up blocks. */
  private static final int SLACK = 512;

  private static final int LARGEST_BLOCK = 65_536;
  private static final int WIDEST_INT = 32;

  private final byte[] bytes;
  private final int end;
  private int at;

  private Claims(byte[] bytes, int from, int end) {
    this.bytes = bytes;
    this.at = from;
    this.end = end;
  }

  /**
   * Checks the values of a page.
   *
   * @param from where they begin in its bytes
   * @param count how many values there are at most
   * @throws Damage if there are more, or the encoding is none that is read here
   */
  static void values(byte[] page, int from, Encoding encoding, boolean flags, int count) {
    Claims claims = new Claims(page, from, page.length);
    switch (encoding) {
      case PLAIN, BYTE_STREAM_SPLIT -> {
        // as many bytes as there are, and no more room than these
      }
      case PLAIN_DICTIONARY, RLE_DICTIONARY -> {
        if (from < page.length) {
          claims.runs(claims.next(), count);
        }
      }
      case RLE -> {
        if (!flags) {
          throw other(encoding);
        }
        claims.at += Integer.BYTES;
        claims.runs(1, count);
      }
      case DELTA_BINARY_PACKED, DELTA_LENGTH_BYTE_ARRAY -> {
        if (from < page.length) {
          claims.deltas(count);
        }
      }
      default -> throw other(encoding);
    }
  }

  private static Damage other(Encoding encoding) {
    return new Damage(
        "values encoded as " + encoding,
        "ones encoded as PLAIN, by a dictionary, as DELTA_BINARY_PACKED, DELTA_LENGTH_BYTE_ARRAY or"
            + " BYTE_STREAM_SPLIT");
  }

  /** Checks the levels that tell which of {@code count} values are there. */
  static void levels(byte[] page, int from, int length, int count) {
    if (length < 0 || length > page.length - from) {
      throw Damage.damaged("levels beyond their page");
    }
    new Claims(page, from, from + length).runs(1, count);
  }

  private int next() {
    if (at >= end) {
      throw Damage.damaged("values that end early");
    }
    return bytes[at++] & 0xFF;
  }

  private long varint() {
    long value = 0;
    for (int shift = 0; shift < Long.SIZE; shift += 7) {
      int b = next();
      value |= (long) (b & 0x7F) << shift;
      if (b < 0x80) {
        return value;
      }
    }
    throw Damage.damaged("a number too long");
  }

  private void runs(int bits, int count) {
    if (bits > WIDEST_INT) {
      throw Damage.damaged("values of " + bits + " bits");
    }
    long read = 0;
    while (at < end && read < count) {
      long head = varint();
      boolean packed = (head & 1) == 1;
      long values = packed ? (head >>> 1) * Byte.SIZE : head >>> 1;
      if (values < 0 || values > count - read + SLACK) {
        throw Damage.damaged("more values than rows");
      }
      read += values;
      // the last block of some writers is cut short
      at += (int) Math.min(end - at, packed ? values * bits / Byte.SIZE : (bits + 7) / Byte.SIZE);
    }
  }

  private void deltas(int count) {
    long block = varint();
    long parts = varint();
    long values = varint();
    if (block <= 0
        || block > LARGEST_BLOCK
        || parts <= 0
        || block % parts != 0
        || block / parts % WIDEST_INT != 0
        || values < 0
        || values > count) {
      throw Damage.damaged("more values than rows");
    }
  }
}
