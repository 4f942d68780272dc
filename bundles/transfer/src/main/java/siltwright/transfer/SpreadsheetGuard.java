package siltwright.transfer;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Collections;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Looks at a spreadsheet before its reader does: a zip that unpacks to far more than it is, or XML
 * that declares entities, is refused. The bounds are our own choice.
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
  private static final int HEAD = 4096;

  private SpreadsheetGuard() {}

  static void check(Path file) throws IOException {
    long left = MOST;
    try (ZipFile zip = new ZipFile(file.toFile())) {
      if (zip.size() > PARTS) {
        throw problem(file, zip.size() + " parts", "at most " + PARTS);
      }
      if (zip.getEntry("xl/workbook.xml") == null) {
        throw problem(file, "a zip of another kind", "a spreadsheet (XLSX)");
      }
      for (ZipEntry entry : Collections.list(zip.entries())) {
        left -= check(file, zip, entry, left);
      }
    } catch (ZipException e) {
      throw problem(file, "a damaged zip", "a sound spreadsheet (XLSX)");
    }
  }

  private static long check(Path file, ZipFile zip, ZipEntry entry, long left) throws IOException {
    boolean texts = entry.getName().endsWith("sharedStrings.xml");
    long most = texts ? Math.min(left, MOST_TEXTS) : left;
    long size = 0;
    byte[] buffer = new byte[1 << 16];
    try (InputStream in = zip.getInputStream(entry)) {
      byte[] head = in.readNBytes(HEAD);
      size = head.length;
      if (new String(head, StandardCharsets.ISO_8859_1).replace("\0", "").contains("<!")) {
        throw problem(file, entry.getName() + " with declarations", "plain XML without entities");
      }
      for (int n; (n = in.read(buffer)) > 0; ) {
        size += n;
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
    }
    return size;
  }

  private static InputException problem(Path file, String found, String expected) {
    return new InputException(new Problem(file.toString(), "", found, expected));
  }
}
