package siltwright.plan.files.internal;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Collections;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
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
    try {
      // The writer leaves sizes to the directory at the end, which only a file lets us read first.
      Path file = Files.createTempFile("siltwright", ".xlsx");
      try {
        Files.write(file, book);
        copy(file, day, bytes);
      } finally {
        Files.delete(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  private static void copy(Path file, LocalDate day, OutputStream to) throws IOException {
    try (ZipFile in = new ZipFile(file.toFile());
        ZipOutputStream out = new ZipOutputStream(to)) {
      for (ZipEntry entry : Collections.list(in.entries())) {
        byte[] content;
        try (InputStream bytes = in.getInputStream(entry)) {
          content = bytes.readAllBytes();
        }
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
    }
  }
}
