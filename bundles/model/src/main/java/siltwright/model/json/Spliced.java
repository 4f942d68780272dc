package siltwright.model.json;

import com.fasterxml.jackson.databind.node.TextNode;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Puts one value into the bytes of a JSON document, in the manner of what stands round it. */
final class Spliced {
  private Spliced() {}

  /**
   * Returns the bytes with an edit made.
   *
   * @param bytes the document; not modified
   * @param source name of the file in messages
   * @param pointer the edit's pointer within these bytes
   * @param edit the edit
   * @throws InputException if the place is not there, or the value is no JSON
   */
  static byte[] edited(byte[] bytes, String source, String pointer, Edit edit) {
    edit.json()
        .ifPresent(
            json -> FleetDocument.parse(json.getBytes(StandardCharsets.UTF_8), edit.pointer()));
    int slash = pointer.lastIndexOf('/');
    JsonSpan parent =
        slash < 0
            ? null
            : find(JsonSpan.of(bytes), pointer.substring(0, slash))
                .orElseThrow(() -> absent(source, edit));
    if (parent == null) {
      throw absent(source, edit);
    }
    String key = unescaped(pointer.substring(slash + 1));
    List<JsonSpan> values = values(parent);
    int at = index(parent, key, bytes);
    if (at < 0) {
      throw absent(source, edit);
    }
    boolean there = at < values.size();
    if (edit.json().isEmpty()) {
      return there ? without(bytes, parent, values, at) : bytes.clone();
    }
    String json = edit.json().get();
    if (there) {
      return replaced(bytes, values.get(at).start(), values.get(at).end(), json);
    }
    boolean list = bytes[parent.start()] == '[';
    String member = list ? json : new TextNode(key) + ": " + json;
    if (values.isEmpty()) {
      String whole = list ? "[" + member + "]" : "{" + member + "}";
      return replaced(bytes, parent.start(), parent.end(), whole);
    }
    int end = values.get(values.size() - 1).end();
    return replaced(bytes, end, end, "," + gap(bytes, parent, values, list) + member);
  }

  private static List<JsonSpan> values(JsonSpan parent) {
    return parent.items().isEmpty() ? List.copyOf(parent.fields().values()) : parent.items();
  }

  /** Returns the place of a member; the number of members for a new one; -1 if it can't be. */
  private static int index(JsonSpan parent, String key, byte[] bytes) {
    if (bytes[parent.start()] == '{') {
      int at = List.copyOf(parent.fields().keySet()).indexOf(key);
      return at < 0 ? parent.fields().size() : at;
    }
    if (bytes[parent.start()] != '[') {
      return -1;
    }
    int size = parent.items().size();
    int at = key.equals("-") ? size : key.matches("[0-9]{1,6}") ? Integer.parseInt(key) : -1;
    return at > size ? -1 : at;
  }

  private static Optional<JsonSpan> find(JsonSpan from, String pointer) {
    Optional<JsonSpan> at = Optional.of(from);
    for (String part : pointer.isEmpty() ? new String[0] : pointer.substring(1).split("/", -1)) {
      String key = unescaped(part);
      at =
          at.map(
              span -> {
                Map<String, JsonSpan> fields = span.fields();
                if (fields.containsKey(key)) {
                  return fields.get(key);
                }
                boolean inList = key.matches("[0-9]{1,6}");
                return inList && Integer.parseInt(key) < span.items().size()
                    ? span.items().get(Integer.parseInt(key))
                    : null;
              });
    }
    return at;
  }

  private static String unescaped(String part) {
    return part.replace("~1", "/").replace("~0", "~");
  }

  private static InputException absent(String source, Edit edit) {
    return new InputException(
        new Problem(source, edit.pointer(), "no such place", "a place in the file"));
  }

  /** Returns the blanks that stand before a member: a line break and indentation, or one blank. */
  private static String gap(byte[] bytes, JsonSpan parent, List<JsonSpan> values, boolean list) {
    int last = values.size() - 1;
    int from = last == 0 ? parent.start() + 1 : values.get(last - 1).end();
    String before =
        new String(bytes, from, values.get(last).start() - from, StandardCharsets.UTF_8);
    String blanks = list ? before : before.substring(0, before.indexOf('"'));
    String gap = blanks.replace(",", "");
    return gap.isEmpty() ? " " : gap;
  }

  private static byte[] without(byte[] bytes, JsonSpan parent, List<JsonSpan> values, int at) {
    if (at > 0) {
      return replaced(bytes, values.get(at - 1).end(), values.get(at).end(), "");
    }
    if (values.size() == 1) {
      return replaced(bytes, parent.start() + 1, parent.end() - 1, "");
    }
    // From where the first member begins to where the second does.
    List<Integer> starts = new ArrayList<>();
    for (int from : new int[] {parent.start() + 1, values.get(0).end()}) {
      int start = from;
      while (bytes[start] == ',' || Character.isWhitespace(bytes[start])) {
        start++;
      }
      starts.add(start);
    }
    return replaced(bytes, starts.get(0), starts.get(1), "");
  }

  private static byte[] replaced(byte[] bytes, int start, int end, String text) {
    ByteArrayOutputStream out = new ByteArrayOutputStream(bytes.length + 64);
    out.write(bytes, 0, start);
    out.writeBytes(text.getBytes(StandardCharsets.UTF_8));
    out.write(bytes, end, bytes.length - end);
    return out.toByteArray();
  }
}
