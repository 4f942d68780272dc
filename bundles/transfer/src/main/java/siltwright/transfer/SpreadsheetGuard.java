package siltwright.transfer;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.Collections;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Looks at a spreadsheet before its reader does: a zip that unpacks to far more than it is, XML
 * that declares entities, and cells that its reader would take room for without end, are refused.
 * The bounds are our own choice.
 */
final class SpreadsheetGuard {
  /** Most that all parts unpack to. */
  static final long MOST = 1L << 30;

  /** Most that the shared texts unpack to, which a reader holds in memory. */
  static final long MOST_TEXTS = 64L << 20;

  /** How many times its packed size a part may have beyond the first {@value #FREE} bytes. */
  static final int RATIO = 100;

  private static final long FREE = 16L << 20;
  private static final int PARTS = 2000;

  private SpreadsheetGuard() {}

  static void check(Path file) throws IOException {
    long left = MOST;
    long texts = 0;
    long highestText = -1;
    try (ZipFile zip = new ZipFile(file.toFile())) {
      if (zip.size() > PARTS) {
        throw problem(file, zip.size() + " parts", "at most " + PARTS);
      }
      if (zip.getEntry("xl/workbook.xml") == null) {
        throw problem(file, "a zip of another kind", "a spreadsheet (XLSX)");
      }
      for (ZipEntry entry : Collections.list(zip.entries())) {
        try (Part part = new Part(file, entry, zip.getInputStream(entry), left)) {
          PartScan scan = new PartScan(part);
          boolean picture = entry.getName().endsWith(".svg"); // it may name its document type
          if (!scan.fault().isEmpty() && !picture) {
            throw problem(
                file,
                entry.getName() + " with " + scan.fault(),
                "plain XML without entities, its cells within a sheet");
          }
          part.end(scan.root().equals("sst"));
          left -= part.size;
          texts = Math.max(texts, scan.texts());
          highestText = Math.max(highestText, scan.highestText());
        }
      }
    } catch (ZipException | EOFException e) {
      throw problem(file, "a damaged zip", "a sound spreadsheet (XLSX)");
    } catch (IllegalArgumentException e) {
      throw problem(file, "a zip with names in another encoding", "a sound spreadsheet (XLSX)");
    }
    if (highestText >= texts) {
      throw problem(
          file, "text " + highestText + " of " + texts, "a spreadsheet whose texts are in it");
    }
  }

  /** The bytes of a part, no more of them than a part of a usual size has. */
  private static final class Part extends InputStream {
    private final Path file;
    private final ZipEntry entry;
    private final InputStream in;
    private final long left;
    private final byte[] buffer = new byte[1 << 16];
    private int at;
    private int filled;
    private long size;

    Part(Path file, ZipEntry entry, InputStream in, long left) {
      this.file = file;
      this.entry = entry;
      this.in = in;
      this.left = left;
    }

    @Override
    public int read() throws IOException {
      if (at == filled) {
        filled = Math.max(0, in.read(buffer));
        at = 0;
        size += filled;
        check(left);
        if (filled == 0) {
          return -1;
        }
      }
      return buffer[at++] & 0xFF;
    }

    /** Reads what is left of it. */
    void end(boolean texts) throws IOException {
      do {
        at = filled;
      } while (read() >= 0);
      if (texts || entry.getName().endsWith("sharedStrings.xml")) {
        check(Math.min(left, MOST_TEXTS));
      }
    }

    private void check(long most) {
      if (size > most || size > FREE && size > RATIO * Math.max(1, entry.getCompressedSize())) {
        throw problem(
            file,
            entry.getName() + " of more than " + (size >> 20) + " MiB",
            "parts of a usual size: texts up to "
                + (MOST_TEXTS >> 20)
                + " MiB, all together 1 GiB, each up to "
                + RATIO
                + " times what it is packed");
      }
    }

    @Override
    public void close() throws IOException {
      in.close();
    }
  }

  private static InputException problem(Path file, String found, String expected) {
    return new InputException(new Problem(file.toString(), "", found, expected));
  }
}
