package siltwright.model.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.core.io.JsonEOFException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
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
import java.util.Map;
import java.util.regex.Pattern;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Gets the JSON out of a file, within limits that no honest file of ours meets. */
public final class FleetDocument {
  static final int LONGEST_DOCUMENT = 64 << 20;
  private static final int DEEPEST = 32;
  private static final int LONGEST_TEXT = 100_000;
  private static final int LONGEST_KEY = 1000;
  private static final int LONGEST_NUMBER = 100;
  private static final int SHOWN = 30;
  private static final Pattern HALF = Pattern.compile("\\\\u[dD][89a-fA-F]");
  private static final String LIMITS =
      "at most "
          + DEEPEST
          + " levels of nesting, "
          + LONGEST_TEXT
          + " characters in a text, "
          + LONGEST_KEY
          + " in a key, "
          + LONGEST_NUMBER
          + " in a number and 64 MiB in all";

  private static final ObjectMapper MAPPER =
      JsonMapper.builder(
              JsonFactory.builder()
                  .streamReadConstraints(
                      StreamReadConstraints.builder()
                          .maxDocumentLength(LONGEST_DOCUMENT)
                          .maxNestingDepth(DEEPEST)
                          .maxStringLength(LONGEST_TEXT)
                          .maxNameLength(LONGEST_KEY)
                          .maxNumberLength(LONGEST_NUMBER)
                          .build())
                  .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                  .build())
          // Keeps numbers as they are written, so that messages can name them.
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .build();

  private FleetDocument() {}

  /**
   * Reads the bytes of a file.
   *
   * @throws InputException if it cannot be read or is too long
   */
  static byte[] bytes(Path file) {
    String source = file.toString();
    if (Files.isDirectory(file)) {
      throw refusal(source, "", "a directory", "a fleet file (JSON)");
    }
    try (InputStream in = Files.newInputStream(file)) {
      byte[] bytes = in.readNBytes(LONGEST_DOCUMENT + 1);
      if (bytes.length > LONGEST_DOCUMENT) {
        throw refusal(source, "", "a longer file", "at most 64 MiB");
      }
      return bytes;
    } catch (NoSuchFileException e) {
      throw refusal(source, "", "no such file", "a fleet file (JSON)");
    } catch (AccessDeniedException e) {
      throw refusal(
          source, "", "a file that may not be read", "a fleet file (JSON) with read access");
    } catch (IOException e) {
      throw refusal(source, "", "a file that cannot be read", "a fleet file (JSON)");
    }
  }

  /**
   * Reads the one JSON value of a document.
   *
   * @throws InputException if it is not UTF-8, not JSON, or beyond the limits
   */
  public static JsonNode parse(byte[] bytes, String source) {
    String text = decode(bytes, source);
    try (JsonParser parser = MAPPER.createParser(text)) {
      try {
        JsonNode document = MAPPER.readTree(parser);
        if (document == null) {
          throw refusal(source, "line 1, column 1", "nothing", "a JSON object");
        }
        if (parser.nextToken() != null) {
          throw refusal(
              source, place(parser.currentTokenLocation()), "more", "the end of the file");
        }
        if (HALF.matcher(text).find()) {
          refuseHalves(document, source, "");
        }
        return document;
      } catch (JsonEOFException e) {
        throw refusal(
            source, place(e.getLocation()), "the end of the file", "the rest of the JSON document");
      } catch (StreamConstraintsException e) {
        throw refusal(
            source, place(parser.currentLocation()), "something too long or too deep", LIMITS);
      } catch (JsonProcessingException e) {
        boolean twice = e.getOriginalMessage().startsWith("Duplicate");
        throw refusal(
            source,
            place(e.getLocation()),
            near(text, e.getLocation()) + (twice ? ", a key that was there before" : ""),
            twice ? "each key once in an object" : "valid JSON");
      } catch (NumberFormatException e) {
        throw refusal(
            source,
            place(parser.currentLocation()),
            near(text, parser.currentLocation()),
            "a number of at most " + LONGEST_NUMBER + " characters within ±1e308");
      }
    } catch (IOException e) {
      throw new IllegalStateException("reading from memory cannot fail", e);
    }
  }

  /** Half of a character has no UTF-8, so that nothing could be written as it was read. */
  private static void refuseHalves(JsonNode node, String source, String pointer) {
    if (node.isTextual()) {
      refuseHalf(node.textValue(), source, pointer);
    }
    for (Map.Entry<String, JsonNode> e : node.properties()) {
      String place = Words.pointer(pointer, e.getKey());
      refuseHalf(e.getKey(), source, place);
      refuseHalves(e.getValue(), source, place);
    }
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      refuseHalves(node.get(i), source, pointer + "/" + i);
    }
  }

  private static void refuseHalf(String text, String source, String pointer) {
    if (text.codePoints().anyMatch(c -> Character.getType(c) == Character.SURROGATE)) {
      throw refusal(source, pointer, Words.quoted(text), "whole characters, not half of a pair");
    }
  }

  private static String decode(byte[] bytes, String source) {
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharBuffer out = CharBuffer.allocate(bytes.length);
    CoderResult result =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .decode(in, out, true);
    if (result.isError()) {
      throw refusal(
          source,
          "byte " + (in.position() + 1),
          String.format(Locale.ROOT, "0x%02X", in.get()),
          "text in UTF-8");
    }
    out.flip();
    boolean marked = out.length() > 0 && out.charAt(0) == '\uFEFF';
    return out.subSequence(marked ? 1 : 0, out.length()).toString();
  }

  /** Returns what stands round a place, on its line. */
  private static String near(String text, JsonLocation at) {
    int middle = (int) Math.max(0, Math.min(at.getCharOffset(), text.length()));
    int from = Math.max(text.lastIndexOf('\n', middle - 1) + 1, middle - SHOWN / 2);
    int lineEnd = text.indexOf('\n', middle);
    int to = Math.min(lineEnd < 0 ? text.length() : lineEnd, from + SHOWN);
    return text.substring(from, to).strip();
  }

  private static String place(JsonLocation at) {
    return "line " + at.getLineNr() + ", column " + at.getColumnNr();
  }

  private static InputException refusal(
      String source, String place, String found, String expected) {
    return new InputException(new Problem(source, place, found, expected));
  }
}
