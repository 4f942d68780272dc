package siltwright.model.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Currency;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;

/**
 * Reads fleet files, {@code docs/file-format.md}.
 *
 * <p>A problem inside one machine leaves that machine out. A problem of the file itself, or of
 * anything that machines share, refuses the file.
 */
public final class FleetReader {
  private FleetReader() {}

  /**
   * Reads a file.
   *
   * @throws InputException if the file cannot be read, is no fleet file of a known version, or has
   *     a problem outside its machines
   */
  public static FleetFile read(Path file) {
    return read(file, Extensions.UNASKED);
  }

  /**
   * Reads a file to compute with.
   *
   * @param extensions loading laws and terms of the cost that it may name
   * @throws InputException as {@link #read(Path)} does
   */
  public static FleetFile read(Path file, Extensions extensions) {
    return read(FleetDocument.bytes(file), file.toString(), extensions);
  }

  /**
   * Reads the bytes of a file.
   *
   * @param bytes JSON in UTF-8, with or without byte-order mark
   * @param source name of the file in messages
   * @throws InputException as {@link #read(Path)} does
   */
  public static FleetFile read(byte[] bytes, String source) {
    return read(bytes, source, Extensions.UNASKED);
  }

  /**
   * Reads the bytes of a file to compute with.
   *
   * @param bytes JSON in UTF-8, with or without byte-order mark
   * @param source name of the file in messages
   * @param extensions loading laws and terms of the cost that it may name
   * @throws InputException as {@link #read(Path)} does
   */
  public static FleetFile read(byte[] bytes, String source, Extensions extensions) {
    JsonNode document = FleetDocument.parse(bytes, source);
    Head head = head(document, source, extensions);
    return head.file(head.entries(document));
  }

  /**
   * Reads all but the machines.
   *
   * @throws InputException if there is a problem in it
   */
  static Head head(JsonNode document, String source, Extensions extensions) {
    Complaints complaints = new Complaints(source, "");
    checkVersion(document, source);
    FleetForms.FLEET.check(document, "", complaints);
    refuseIfAny(complaints);

    Item fleet = new Item(document, FleetForms.FLEET, "");
    checkCurrency(fleet, complaints);
    Shared shared = Shared.read(fleet, extensions, complaints);
    refuseIfAny(complaints);
    return new Head(source, fleet.text("name"), fleet.text("note"), fleet.text("currency"), shared);
  }

  /**
   * One machine as read.
   *
   * @param id its id as it stands there; empty if there is none
   * @param machine the machine, if it has no problem
   * @param problems its problems
   */
  record Entry(String id, Optional<Machine> machine, List<Problem> problems) {}

  /**
   * What a file says apart from its machines.
   *
   * @param source name of the file in messages
   * @param name name of the fleet
   * @param note what the file says of itself
   * @param currency currency code
   * @param shared what the machines share
   */
  record Head(String source, String name, String note, String currency, Shared shared) {
    List<Entry> entries(JsonNode document) {
      JsonNode list = document.get("machines");
      List<Entry> entries = new ArrayList<>();
      Set<String> ids = new HashSet<>();
      for (int i = 0; i < list.size(); i++) {
        Entry entry = entry(list.get(i), "/machines/" + i, ids::contains);
        ids.add(entry.id());
        entries.add(entry);
      }
      return entries;
    }

    /**
     * Reads a machine.
     *
     * @param node the machine
     * @param pointer where it stands
     * @param taken whether a machine before it has an id
     */
    Entry entry(JsonNode node, String pointer, Predicate<String> taken) {
      String id = node.path("id").asText();
      boolean sound = FleetForms.ID.holds(id);
      Complaints complaints = new Complaints(source, sound ? "machine " + id : "");
      FleetForms.MACHINE.check(node, pointer, complaints);
      if (sound && taken.test(id)) {
        complaints.add(pointer + "/id", Words.quoted(id), "an id that no machine before it has");
      }
      Optional<Machine> machine = Optional.empty();
      if (complaints.isEmpty()) {
        Item item = new Item(node, FleetForms.MACHINE, pointer);
        machine = new MachineReading(item, shared, complaints).read();
      }
      return new Entry(id, machine, complaints.problems());
    }

    FleetFile file(List<Entry> entries) {
      List<Machine> machines =
          entries.stream().map(Entry::machine).flatMap(Optional::stream).toList();
      return new FleetFile(
          new Fleet(name, note, currency, shared.sites(), machines),
          entries.stream().flatMap(e -> e.problems().stream()).toList());
    }
  }

  private static void refuseIfAny(Complaints complaints) {
    if (!complaints.isEmpty()) {
      throw new InputException(complaints.problems());
    }
  }

  /** Older versions would be migrated here; there are none, and no version is guessed. */
  private static void checkVersion(JsonNode document, String source) {
    if (!document.isObject()) {
      throw new InputException(
          new Problem(
              source, "", Words.found(document), "a JSON object with the key schema and others"));
    }
    JsonNode version = document.get("schema");
    if (version == null || !version.isTextual() || !version.textValue().equals(FleetForms.SCHEMA)) {
      throw new InputException(
          new Problem(
              source,
              "/schema",
              version == null ? "nothing" : Words.found(version),
              Words.quoted(FleetForms.SCHEMA) + ", the only version there is"));
    }
  }

  private static void checkCurrency(Item fleet, Complaints complaints) {
    String code = fleet.text("currency");
    if (Currency.getAvailableCurrencies().stream()
        .noneMatch(c -> c.getCurrencyCode().equals(code))) {
      complaints.add("/currency", fleet.found("currency"), FleetForms.CURRENCY.expected());
    }
  }
}
