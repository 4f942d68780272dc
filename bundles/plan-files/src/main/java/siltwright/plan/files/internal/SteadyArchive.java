package siltwright.plan.files.internal;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;

/** A workbook that does not tell when it was written: the same plan gives the same bytes. */
final class SteadyArchive {
  private static final String PROPERTIES = "docProps/core.xml";
  private static final LocalDateTime WRITTEN = LocalDateTime.of(2000, 1, 1, 0, 0);

  private SteadyArchive() {}

  /**
   * Returns the workbook with a day in place of the time of writing.
   *
   * @param book bytes of the workbook; not modified
   * @param day the day
   */
  static byte[] of(byte[] book, LocalDate day) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(book));
        ZipOutputStream out = new ZipOutputStream(bytes)) {
      for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
        byte[] content = in.readAllBytes();
        if (entry.getName().equals(PROPERTIES)) {
          content =
              new String(content, StandardCharsets.UTF_8)
                  .replaceAll("(<dcterms:created[^>]*>)[^<]*", "$1" + day + "T00:00:00Z")
                  .getBytes(StandardCharsets.UTF_8);
        }
        ZipEntry steady = new ZipEntry(entry.getName());
        steady.setTimeLocal(WRITTEN);
        out.putNextEntry(steady);
        out.write(content);
        out.closeEntry();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }
}
