package siltwright.transfer;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;

/** Finds out how a text file is written: its encoding, and what parts its cells. */
final class TextProbe {
  private static final int LOOK = 4 << 20;
  private static final int HEAD = 256 << 10;
  private static final int LINES = 60;
  private static final char[] DELIMITERS = {',', ';', '\t', '|'};

  private TextProbe() {}

  /**
   * Returns the encoding of a file: by its byte-order mark, or UTF-8 if its first {@value #LOOK}
   * bytes are that, or else the one-byte encoding of western desktops.
   */
  static Charset encoding(Path file) throws IOException {
    byte[] bytes;
    try (InputStream in = Files.newInputStream(file)) {
      bytes = in.readNBytes(LOOK);
    }
    if (starts(bytes, 0xEF, 0xBB, 0xBF)) {
      return StandardCharsets.UTF_8;
    }
    if (starts(bytes, 0xFF, 0xFE)) {
      return StandardCharsets.UTF_16LE;
    }
    if (starts(bytes, 0xFE, 0xFF)) {
      return StandardCharsets.UTF_16BE;
    }
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    CharBuffer out = CharBuffer.allocate(8192);
    ByteBuffer in = ByteBuffer.wrap(bytes);
    while (true) {
      // a character that the end of the look cuts is no fault
      var result = decoder.decode(in, out, bytes.length < LOOK);
      out.clear();
      if (result.isError()) {
        return Charset.forName("windows-1252");
      }
      if (result.isUnderflow()) {
        return StandardCharsets.UTF_8;
      }
    }
  }

  private static boolean starts(byte[] bytes, int... with) {
    if (bytes.length < with.length) {
      return false;
    }
    for (int i = 0; i < with.length; i++) {
      if ((bytes[i] & 0xFF) != with[i]) {
        return false;
      }
    }
    return true;
  }

  /** Returns what parts the cells: what gives most of the first lines the same number of them. */
  static char delimiter(Path file, Charset encoding) throws IOException {
    String head;
    try (InputStream in = Files.newInputStream(file)) {
      head = new String(in.readNBytes(HEAD), encoding);
    }
    int cut = head.lastIndexOf('\n');
    if (cut > 0) {
      head = head.substring(0, cut);
    }
    char best = ',';
    double score = 0;
    for (char d : DELIMITERS) {
      double s = score(head, d);
      if (s > score) {
        score = s;
        best = d;
      }
    }
    return best;
  }

  private static double score(String head, char delimiter) {
    Map<Integer, Integer> counts = new HashMap<>();
    int lines = 0;
    try (CsvReader<CsvRecord> reader = CsvTable.builder(delimiter).ofCsvRecord(head)) {
      for (CsvRecord r : reader) {
        counts.merge(r.getFieldCount(), 1, Integer::sum);
        if (++lines == LINES) {
          break;
        }
      }
    } catch (CsvParseException | IOException e) {
      return 0;
    }
    double best = 0;
    for (Map.Entry<Integer, Integer> e : counts.entrySet()) {
      if (e.getKey() > 1) {
        double share = e.getValue() / (double) lines;
        best = Math.max(best, share * share * Math.sqrt(e.getKey()));
      }
    }
    return best;
  }
}
