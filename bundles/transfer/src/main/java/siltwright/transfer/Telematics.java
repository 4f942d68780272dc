package siltwright.transfer;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import siltwright.model.history.RecordKind;

/**
 * What a document of ISO 15143-3 says of hour meters and faults. The names of its elements are from
 * public descriptions and from memory of the standard; what feeds do otherwise is taken too: other
 * namespaces, attributes for elements, durations for hours, hours as the text itself.
 *
 * <p>Places are left out, since nobody needs them here and they tell where people are.
 */
final class Telematics {
  private static final Set<String> USED =
      Set.of(
          "equipmentheader",
          "cumulativeoperatinghours",
          "faultcode",
          "links",
          "location",
          "version",
          "hydraulicoilfilterrestrictionswitch");
  private static final String RESTRICTION = "HydraulicOilFilterRestrictionSwitch";
  private static final long STALE_MS = Duration.ofDays(3).toMillis();

  private final List<Machine> machines = new ArrayList<>();
  private final Set<String> notes = new TreeSet<>();
  private final Set<String> unused = new TreeSet<>();
  private final Dates dates = new Dates(DateOrder.YEAR_FIRST);

  private Telematics() {}

  /** A machine of the document; texts are empty where it says nothing. */
  record Machine(
      String pin,
      String serial,
      String equipmentId,
      List<Meter> meters,
      List<Fault> faults,
      List<RowReading.Fault> wrong) {
    /** Returns what people call it. */
    String name() {
      return !pin.isEmpty() ? pin : !serial.isEmpty() ? serial : equipmentId;
    }
  }

  /** What an hour meter showed, h. */
  record Meter(long atMs, boolean wholeDay, double hours) {}

  /** A fault. */
  record Fault(
      long atMs, boolean wholeDay, String code, String severity, String origin, String text) {}

  /** Returns what a document says, or null if it is no such document. */
  static Telematics of(Node root) {
    Telematics t = new Telematics();
    List<Node> equipment = root.all("Equipment");
    if (root.find("Fleet").isPresent()) {
      root = root.find("Fleet").get();
      equipment = root.all("Equipment");
    }
    if (equipment.isEmpty() && root.find("EquipmentHeader").isPresent()) {
      equipment = List.of(root);
    }
    if (equipment.isEmpty() && !root.name().equalsIgnoreCase("Fleet")) {
      return null;
    }
    Dates.When snapshot = t.dates.read(root.text("snapshotTime"), ZoneOffset.UTC);
    for (Node e : equipment) {
      t.read(e, snapshot);
    }
    return t;
  }

  List<Machine> machines() {
    return machines;
  }

  List<String> notes() {
    List<String> all = new ArrayList<>(notes);
    if (!unused.isEmpty()) {
      all.add("Parts that are not used: " + String.join(", ", unused) + ".");
    }
    return all;
  }

  private void read(Node e, Dates.When snapshot) {
    Node header = e.find("EquipmentHeader").orElse(e);
    List<Meter> meters = new ArrayList<>();
    List<Fault> faults = new ArrayList<>();
    List<RowReading.Fault> wrong = new ArrayList<>();
    Machine machine =
        new Machine(
            header.text("PIN"),
            header.text("SerialNumber"),
            header.text("EquipmentID"),
            meters,
            faults,
            wrong);
    if (!named(machine)) {
      machines.add(machine);
      return;
    }
    for (Node child : e.children()) {
      switch (child.name().toLowerCase(java.util.Locale.ROOT)) {
        case "cumulativeoperatinghours" -> meter(machine, child, snapshot);
        case "faultcode" -> fault(machine, child);
        case "hydraulicoilfilterrestrictionswitch" -> restriction(machine, child);
        default -> {
          if (!USED.contains(child.name().toLowerCase(java.util.Locale.ROOT))
              && !child.children().isEmpty()) {
            unused.add(child.name());
          }
        }
      }
    }
    if (meters.isEmpty() && wrong.isEmpty() && faults.isEmpty()) {
      notes.add(machine.name() + ": no operating hours.");
    }
    machines.add(machine);
  }

  /** Returns whether a machine has a name that can be kept; complains if it has none. */
  private static boolean named(Machine machine) {
    if (machine.name().isEmpty()) {
      machine
          .wrong()
          .add(
              new RowReading.Fault(
                  "EquipmentHeader", "nothing", "a PIN, a SerialNumber or an EquipmentID"));
    }
    for (String text : List.of(machine.pin(), machine.serial(), machine.equipmentId())) {
      complain(machine, "EquipmentHeader", text);
    }
    return machine.wrong().isEmpty();
  }

  /** Complains of a text that cannot be kept; returns whether it did. */
  private static boolean complain(Machine machine, String of, String text) {
    RowReading.Fault fault = RowReading.fault(of, text);
    if (fault != null) {
      machine.wrong().add(fault);
    }
    return fault != null;
  }

  private Dates.When when(Machine machine, Node node) {
    String text = node.text("datetime");
    Dates.When when = dates.read(text, ZoneOffset.UTC);
    if (when == null) {
      machine
          .wrong()
          .add(
              new RowReading.Fault(
                  node.name() + " datetime", text, Dates.expected() + ", with its time"));
    } else if (!text.matches(".*(Z|[+-]\\d\\d:?\\d\\d)$")) {
      notes.add("Times without a zone are read as UTC.");
    }
    return when;
  }

  private void meter(Machine machine, Node node, Dates.When snapshot) {
    String text = node.text("Hour");
    if (node.find("Hour").isEmpty()) {
      text = node.text();
      if (!text.isEmpty()) {
        notes.add("Hours stand in the element itself, not in Hour: taken so.");
      }
    }
    double hours = hours(text);
    Dates.When when = when(machine, node);
    if (!(hours >= RecordKind.METER_H.low() && hours <= RecordKind.METER_H.high())) {
      machine
          .wrong()
          .add(
              new RowReading.Fault(
                  node.name(),
                  text.isEmpty() ? "nothing" : text,
                  "hours, as 1234.5 or PT1234H30M"));
    } else if (when != null) {
      machine.meters().add(new Meter(when.atMs(), when.wholeDay(), hours));
      if (snapshot != null && snapshot.atMs() - when.atMs() > STALE_MS) {
        notes.add(
            machine.name()
                + ": the meter is of "
                + Instant.ofEpochMilli(when.atMs()).toString().substring(0, 10)
                + ", days before the document.");
      }
    }
  }

  private static double hours(String text) {
    if (text.startsWith("P")) {
      try {
        return Duration.parse(text).toMillis() / 3.6e6;
      } catch (DateTimeException | ArithmeticException e) {
        return Double.NaN;
      }
    }
    return new NumberText('.').read(text);
  }

  private void fault(Machine machine, Node node) {
    Dates.When when = when(machine, node);
    String code = node.text("CodeIdentifier");
    if (code.isEmpty()) {
      machine.wrong().add(new RowReading.Fault("CodeIdentifier", "nothing", "the code of a fault"));
    } else if (when != null) {
      String[] texts = {
        code, node.text("CodeSeverity"), node.text("CodeSource"), node.text("CodeDescription")
      };
      boolean wrong = false;
      for (String text : texts) {
        wrong |= complain(machine, node.name(), text);
      }
      if (!wrong) {
        machine
            .faults()
            .add(new Fault(when.atMs(), when.wholeDay(), texts[0], texts[1], texts[2], texts[3]));
      }
    }
  }

  /**
   * The switch of a clogged filter is what this program is about: kept as a fault while it is on.
   */
  private void restriction(Machine machine, Node node) {
    String state = node.text().isEmpty() ? lastText(node) : node.text();
    if (state.matches("(?i)true|on|1|yes|active")) {
      Dates.When when = when(machine, node);
      if (when != null) {
        machine
            .faults()
            .add(new Fault(when.atMs(), when.wholeDay(), RESTRICTION, "", "", "switch " + state));
      }
    }
  }

  private static String lastText(Node node) {
    String text = "";
    for (Node child : node.children()) {
      if (!child.name().equalsIgnoreCase("datetime") && !child.text().isEmpty()) {
        text = child.text();
      }
    }
    return text;
  }
}
