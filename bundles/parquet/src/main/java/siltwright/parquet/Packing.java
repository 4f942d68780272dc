package siltwright.parquet;

import io.airlift.compress.Decompressor;
import io.airlift.compress.lz4.Lz4Decompressor;
import io.airlift.compress.snappy.SnappyDecompressor;
import io.airlift.compress.zstd.ZstdDecompressor;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.function.Supplier;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.apache.parquet.format.CompressionCodec;

/** Packs and unpacks pages, in Java alone. */
final class Packing {
  private Packing() {}

  /** Unpacks a page. */
  interface Unpacking {
    /** Returns what was packed, of exactly that size. */
    byte[] unpack(byte[] packed, int size) throws IOException;
  }

  /**
   * Returns how to unpack what was packed one way.
   *
   * @throws Damage if nothing here can
   */
  static Unpacking of(CompressionCodec codec) {
    return switch (codec) {
      case UNCOMPRESSED -> Packing::same;
      case GZIP -> Packing::gunzip;
      case SNAPPY -> by(SnappyDecompressor::new);
      case ZSTD -> by(ZstdDecompressor::new);
      case LZ4_RAW -> by(Lz4Decompressor::new);
      default ->
          throw new Damage(
              "columns packed by " + codec,
              "ones packed by SNAPPY, GZIP, ZSTD or LZ4_RAW, or not packed");
    };
  }

  private static byte[] same(byte[] packed, int size) {
    if (packed.length != size) {
      throw Damage.damaged("a page of another size than said");
    }
    return packed;
  }

  private static byte[] gunzip(byte[] packed, int size) throws IOException {
    try (InputStream in = new GZIPInputStream(new ByteArrayInputStream(packed))) {
      byte[] out = in.readNBytes(size);
      if (out.length != size || in.read() >= 0) {
        throw Damage.damaged("a page of another size than said");
      }
      return out;
    }
  }

  private static Unpacking by(Supplier<Decompressor> maker) {
    Decompressor unpacking = maker.get();
    return (packed, size) -> {
      byte[] out = new byte[size];
      if (size > 0 && unpacking.decompress(packed, 0, packed.length, out, 0, size) != size) {
        throw Damage.damaged("a page of another size than said");
      }
      return out;
    };
  }

  /** Packs by gzip, which every reader knows and the Java platform has. */
  static byte[] gzip(byte[]... parts) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
      for (byte[] part : parts) {
        gzip.write(part);
      }
    }
    return out.toByteArray();
  }
}
