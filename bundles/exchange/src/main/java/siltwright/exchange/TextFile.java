package siltwright.exchange;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Locale;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** The bytes of a file of text, which must be UTF-8 with or without byte-order mark. */
final class TextFile {
  private static final int LONGEST_MIB = 1024;

  private TextFile() {}

  static byte[] read(Path file) {
    String source = file.toString();
    String expected = "a table of records (CSV)";
    try {
      if (Files.isDirectory(file)) {
        throw refusal(source, "", "a directory", expected);
      }
      if (Files.size(file) > (long) LONGEST_MIB << 20) {
        throw refusal(source, "", "a longer file", "at most " + LONGEST_MIB + " MiB");
      }
      return checked(Files.readAllBytes(file), source);
    } catch (NoSuchFileException e) {
      throw refusal(source, "", "no such file", expected);
    } catch (AccessDeniedException e) {
      throw refusal(source, "", "a file that may not be read", expected + " with read access");
    } catch (IOException e) {
      throw refusal(source, "", "a file that cannot be read", expected);
    }
  }

  /** Returns the bytes if they are UTF-8. */
  private static byte[] checked(byte[] bytes, String source) {
    if (bytes.length >= 2
        && (bytes[0] == (byte) 0xFF && bytes[1] == (byte) 0xFE
            || bytes[0] == (byte) 0xFE && bytes[1] == (byte) 0xFF)) {
      throw refusal(source, "", "text in UTF-16", "text in UTF-8: save it as \"CSV UTF-8\"");
    }
    if (isPlain(bytes)) {
      return bytes;
    }
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharBuffer out = CharBuffer.allocate(bytes.length);
    CoderResult result =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .decode(in, out, true);
    if (result.isError()) {
      int line = 1;
      for (int i = 0; i < in.position(); i++) {
        line += bytes[i] == '\n' ? 1 : 0;
      }
      throw refusal(
          source,
          "row " + line + ", byte " + (in.position() + 1) + " of the file",
          String.format(Locale.ROOT, "0x%02X", in.get()),
          "text in UTF-8; this looks like an older one-byte encoding: save it as \"CSV UTF-8\"");
    }
    return bytes;
  }

  private static boolean isPlain(byte[] bytes) {
    int any = 0;
    for (byte b : bytes) {
      any |= b;
    }
    return any >= 0;
  }

  private static InputException refusal(
      String source, String place, String found, String expected) {
    return new InputException(new Problem(source, place, found, expected));
  }
}
