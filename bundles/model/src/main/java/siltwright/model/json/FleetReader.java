package siltwright.model.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Currency;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
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
    return read(FleetDocument.bytes(file), file.toString());
  }

  /**
   * Reads the bytes of a file.
   *
   * @param bytes JSON in UTF-8, with or without byte-order mark
   * @param source name of the file in messages
   * @throws InputException as {@link #read(Path)} does
   */
  public static FleetFile read(byte[] bytes, String source) {
    JsonNode document = FleetDocument.parse(bytes, source);
    Complaints complaints = new Complaints(source, "");
    checkVersion(document, source);
    FleetForms.FLEET.check(document, "", complaints);
    refuseIfAny(complaints);

    Item fleet = new Item(document, FleetForms.FLEET, "");
    checkCurrency(fleet, complaints);
    Shared shared = Shared.read(fleet, complaints);
    refuseIfAny(complaints);

    List<Problem> problems = new ArrayList<>();
    List<Machine> machines = machines(document.get("machines"), shared, source, problems);
    return new FleetFile(
        new Fleet(
            fleet.text("name"),
            fleet.text("note"),
            fleet.text("currency"),
            shared.sites(),
            machines),
        problems);
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

  private static List<Machine> machines(
      JsonNode list, Shared shared, String source, List<Problem> problems) {
    List<Machine> machines = new ArrayList<>();
    Set<String> ids = new HashSet<>();
    for (int i = 0; i < list.size(); i++) {
      JsonNode node = list.get(i);
      String pointer = "/machines/" + i;
      String id = node.path("id").asText();
      Complaints complaints =
          new Complaints(source, FleetForms.ID.holds(id) ? "machine " + id : "");
      FleetForms.MACHINE.check(node, pointer, complaints);
      if (FleetForms.ID.holds(id) && !ids.add(id)) {
        complaints.add(pointer + "/id", Words.quoted(id), "an id that no machine before it has");
      }
      if (complaints.isEmpty()) {
        Item item = new Item(node, FleetForms.MACHINE, pointer);
        new MachineReading(item, shared, complaints).read().ifPresent(machines::add);
      }
      problems.addAll(complaints.problems());
    }
    return machines;
  }
}
