package siltwright.parquet;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;

/** A part of a file, read from its beginning to its end. */
final class FileSlice extends InputStream {
  private static final int BUFFER = 8192;

  private final FileChannel file;
  private final long end;
  private final ByteBuffer buffer;
  private long next;

  FileSlice(FileChannel file, long from, long length) {
    this.file = file;
    this.next = from;
    this.end = from + length;
    this.buffer = ByteBuffer.allocate((int) Math.min(BUFFER, length)).limit(0);
  }

  private boolean fill() throws IOException {
    if (next >= end) {
      return false;
    }
    buffer.clear().limit((int) Math.min(buffer.capacity(), end - next));
    int n = file.read(buffer, next);
    buffer.flip();
    next += Math.max(0, n);
    return n > 0;
  }

  @Override
  public int read() throws IOException {
    return buffer.hasRemaining() || fill() ? buffer.get() & 0xFF : -1;
  }

  @Override
  public int read(byte[] to, int from, int length) throws IOException {
    if (length == 0) {
      return 0;
    }
    if (!buffer.hasRemaining() && !fill()) {
      return -1;
    }
    int n = Math.min(length, buffer.remaining());
    buffer.get(to, from, n);
    return n;
  }

  /** Returns how many bytes are still to come. */
  long left() {
    return end - next + buffer.remaining();
  }
}
