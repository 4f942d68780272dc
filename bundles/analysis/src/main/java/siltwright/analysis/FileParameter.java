package siltwright.analysis;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;

/**
 * A small text file that the analysis takes as a whole, such as a template. Its value is what
 * stands in the file, so that a run reads nothing but its arguments.
 *
 * @param name name
 * @param kind what the file holds, such as {@code a card template (JSON)}
 * @param meaning meaning; says what holds when it is left out
 */
public record FileParameter(String name, String kind, String meaning)
    implements Parameter<FileParameter.TextFile> {
  private static final int LONGEST_BYTES = 4 << 20;

  /**
   * A file and its text.
   *
   * @param name name of the file as the user gave it
   * @param text its text, without byte-order mark
   */
  public record TextFile(String name, String text) {
    @Override
    public String toString() {
      return name;
    }
  }

  @Override
  public String form() {
    return "the name of a file with " + kind + ", in UTF-8, at most 4 MiB";
  }

  @Override
  public TextFile read(String text) {
    try (InputStream in = Files.newInputStream(Path.of(text))) {
      byte[] bytes = in.readNBytes(LONGEST_BYTES + 1);
      if (bytes.length > LONGEST_BYTES) {
        throw new IllegalArgumentException(form());
      }
      String content =
          StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      return new TextFile(text, content.startsWith("\uFEFF") ? content.substring(1) : content);
    } catch (CharacterCodingException e) {
      throw new IllegalArgumentException(form() + "; this one is not UTF-8", e);
    } catch (IOException | InvalidPathException e) {
      throw new IllegalArgumentException(form() + "; this one cannot be read", e);
    }
  }
}
