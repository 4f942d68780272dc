package siltwright.model.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Where the values of a JSON document stand in its bytes.
 *
 * @param start offset of the first byte
 * @param end offset behind the last byte
 * @param text the text, where it is a text; else empty
 * @param fields values of an object by key, in order
 * @param items values of an array
 */
record JsonSpan(
    int start, int end, String text, Map<String, JsonSpan> fields, List<JsonSpan> items) {
  private static final JsonFactory FACTORY = new JsonFactory();

  /**
   * Finds the values of a document that has been read before and is known to be sound.
   *
   * @param bytes JSON in UTF-8, with or without byte-order mark
   */
  static JsonSpan of(byte[] bytes) {
    int mark =
        bytes.length >= 3
                && bytes[0] == (byte) 0xEF
                && bytes[1] == (byte) 0xBB
                && bytes[2] == (byte) 0xBF
            ? 3
            : 0;
    try (JsonParser parser = FACTORY.createParser(bytes, mark, bytes.length - mark)) {
      parser.nextToken();
      return value(parser, bytes, mark);
    } catch (IOException e) {
      throw new IllegalStateException("the document was read before", e);
    }
  }

  private static JsonSpan value(JsonParser parser, byte[] bytes, int mark) throws IOException {
    int start = mark + (int) parser.currentTokenLocation().getByteOffset();
    Map<String, JsonSpan> fields = new LinkedHashMap<>();
    List<JsonSpan> items = new ArrayList<>();
    String text = "";
    switch (parser.currentToken()) {
      case START_OBJECT -> {
        while (parser.nextToken() != JsonToken.END_OBJECT) {
          String key = parser.currentName();
          parser.nextToken();
          fields.put(key, value(parser, bytes, mark));
        }
      }
      case START_ARRAY -> {
        while (parser.nextToken() != JsonToken.END_ARRAY) {
          items.add(value(parser, bytes, mark));
        }
      }
      case VALUE_STRING -> {
        text = parser.getText();
        // Finishing the text moves the parser behind its closing quote.
        int end = mark + (int) parser.currentLocation().getByteOffset();
        return new JsonSpan(start, end, text, fields, items);
      }
      default -> {
        // A number's end can't be asked for: the parser may have read past it.
        int end = start;
        while (end < bytes.length && isPartOfScalar(bytes[end])) {
          end++;
        }
        return new JsonSpan(start, end, text, fields, items);
      }
    }
    int end = mark + (int) parser.currentTokenLocation().getByteOffset() + 1;
    return new JsonSpan(start, end, text, fields, items);
  }

  private static boolean isPartOfScalar(byte b) {
    return b >= '0' && b <= '9'
        || b >= 'a' && b <= 'z'
        || b >= 'A' && b <= 'Z'
        || b == '.'
        || b == '-'
        || b == '+';
  }
}
