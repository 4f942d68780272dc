package siltwright.model.json;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** A right fleet file and ways to break it. */
final class FleetSamples {
  static final ObjectMapper MAPPER =
      JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();

  private FleetSamples() {}

  /** Returns a file that uses every key at least once; its numbers are invented. */
  static String full() {
    try (InputStream in = FleetSamples.class.getResourceAsStream("full.json")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static JsonNode tree(String json) {
    try {
      return MAPPER.readTree(json);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Returns the full file with another value at a place.
   *
   * @param pointer place; {@code -} as last part adds to a list
   * @param value JSON, or {@code -} to leave the key out
   */
  static JsonNode with(String pointer, String value) {
    JsonNode root = tree(full());
    JsonPointer place = JsonPointer.compile(pointer);
    JsonNode parent = root.at(place.head());
    String last = place.last().getMatchingProperty();
    if (parent instanceof ArrayNode list) {
      if (last.equals("-")) {
        list.add(tree(value));
      } else {
        list.set(Integer.parseInt(last), tree(value));
      }
    } else if (value.equals("-")) {
      ((ObjectNode) parent).remove(last);
    } else {
      ((ObjectNode) parent).set(last, tree(value));
    }
    return root;
  }
}
