package siltwright.model.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.BooleanNode;
import com.fasterxml.jackson.databind.node.DecimalNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;

/**
 * Machines that are like one of a fleet file but for some of its values.
 *
 * <p>A place in a machine is named by the keys on the way to it, such as {@code today/interval_h};
 * a member of a list by its id or by its number from 0, such as {@code
 * components/pump/life/scale_h} or {@code ingress/reservoir/0/rate_mg_per_h}. A variant is checked
 * as a machine of the file is.
 *
 * <p>For use by several threads.
 */
public final class FleetVariants {
  private final FleetReader.Head head;
  private final FleetFile file;
  private final String sha256;
  private final Map<String, JsonNode> machines = new HashMap<>();

  /**
   * Reads a fleet file.
   *
   * @param extensions laws and terms that it may name
   * @throws InputException as {@link FleetReader#read(Path, Extensions)} does
   */
  public FleetVariants(Path path, Extensions extensions) {
    this(bytes(path), path.toString(), extensions);
  }

  /**
   * Reads the bytes of a fleet file.
   *
   * @param source what messages call it
   * @param extensions laws and terms that it may name
   * @throws InputException as {@link FleetReader#read(Path, Extensions)} does
   */
  public FleetVariants(byte[] bytes, String source, Extensions extensions) {
    sha256 = sha256(bytes);
    JsonNode document = FleetDocument.parse(bytes, source);
    head = FleetReader.head(document, source, extensions);
    file = head.file(head.entries(document));
    for (JsonNode machine : document.get("machines")) {
      machines.putIfAbsent(machine.path("id").asText(), machine);
    }
  }

  /**
   * Returns the bytes of a fleet file.
   *
   * @throws InputException if it cannot be read or is too long
   */
  public static byte[] bytes(Path path) {
    return FleetDocument.bytes(path);
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e); // every Java has it
    }
  }

  /** Returns the SHA-256 of the file's bytes, in hexadecimal digits. */
  public String sha256() {
    return sha256;
  }

  /** Returns the fleet without variants. */
  public Fleet fleet() {
    return file.fleet();
  }

  /**
   * Makes a variant.
   *
   * @param id its id
   * @param like id of the machine of the file that it is like
   * @param values text by place; a number where the file has a number
   * @throws InputException if there is no such machine or place, or a value does not fit; a problem
   *     is at a place, or at {@code like}
   */
  public Machine machine(String id, String like, Map<String, String> values) {
    JsonNode model = machines.get(like);
    if (model == null) {
      throw refusal("like", like, "the id of a machine of " + head.source());
    }
    ObjectNode machine = model.deepCopy();
    machine.put("id", id);
    values.forEach((place, text) -> put(machine, place, text));
    FleetReader.Entry entry = head.entry(machine, "", other -> false);
    return entry
        .machine()
        .orElseThrow(
            () ->
                new InputException(
                    entry.problems().stream()
                        .map(
                            p ->
                                new Problem(
                                    "",
                                    p.place().substring(p.place().indexOf('/') + 1),
                                    p.value(),
                                    p.expected()))
                        .toList()));
  }

  private static void put(ObjectNode machine, String place, String text) {
    String[] keys = place.split("/");
    JsonNode at = machine;
    for (int i = 0; i < keys.length - 1; i++) {
      at = member(at, keys[i]).orElseThrow(() -> noPlace(place));
    }
    String last = keys[keys.length - 1];
    if (at instanceof ObjectNode object) {
      object.set(last, value(object.get(last), text));
    } else if (at instanceof ArrayNode list && index(list, last).isPresent()) {
      int index = index(list, last).get();
      list.set(index, value(list.get(index), text));
    } else {
      throw noPlace(place);
    }
  }

  private static Optional<JsonNode> member(JsonNode at, String key) {
    if (at instanceof ArrayNode list) {
      return index(list, key).map(list::get);
    }
    return Optional.ofNullable(at.get(key));
  }

  private static Optional<Integer> index(ArrayNode list, String key) {
    List<Integer> found = new ArrayList<>();
    for (int i = 0; i < list.size(); i++) {
      if (key.equals(list.get(i).path("id").asText()) || key.equals(String.valueOf(i))) {
        found.add(i);
      }
    }
    return found.size() == 1 ? Optional.of(found.get(0)) : Optional.empty();
  }

  /** A number or truth where there is one, or nothing yet; what does not fit is told later. */
  private static JsonNode value(JsonNode now, String text) {
    if (now != null && now.isTextual()) {
      return TextNode.valueOf(text);
    }
    if (text.equals("true") || text.equals("false")) {
      return BooleanNode.valueOf(text.equals("true"));
    }
    try {
      return DecimalNode.valueOf(new BigDecimal(text));
    } catch (NumberFormatException e) {
      return TextNode.valueOf(text);
    }
  }

  private static InputException noPlace(String place) {
    return refusal(place, "", "a column that is machine, like or a place in a machine of the file");
  }

  private static InputException refusal(String place, String found, String expected) {
    return new InputException(new Problem("", place, found, expected));
  }
}
