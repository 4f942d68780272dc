package siltwright.circuit.view;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import siltwright.circuit.view.Plan.Carried;
import siltwright.circuit.view.Plan.Line;
import siltwright.circuit.view.Plan.Place;
import siltwright.circuit.view.Plan.Symbol;
import siltwright.circuit.view.Plan.Tag;
import siltwright.model.Component;
import siltwright.model.Machine;

/**
 * Lays a machine's circuit out. The tank lies along the bottom, the pump stands on it at the left,
 * the return filter at the right; between them, above a pressure and a return line, stand the
 * components in the order of the file: first what sees oil straight from the pump, then what stands
 * behind the pressure filter.
 *
 * <p>A file names components and no lines between them. So cylinders and motors are drawn at the
 * first valve of their group (one that is called a bank goes before), other valves alone.
 *
 * <p>One class, though long: each part stands where the one before it ended.
 */
final class Draughtsman {
  static final double TAG_WIDTH = 138;
  private static final double ROW = 16;
  private static final double COLUMN = 150;
  private static final double VALVE_COLUMNS = 300;
  private static final double FILTER_GAP = 190;
  private static final double PUMP_COLUMN = 256;

  private static final double ACTUATOR_TAG_Y = 58;
  private static final double ACTUATOR_Y = 168;
  private static final double WORK_A_Y = 216;
  private static final double WORK_B_Y = 230;
  private static final double VALVE_Y = 266;
  private static final double VALVE_TAG_Y = 238;
  private static final double PRESSURE_Y = 326;
  private static final double RETURN_Y = 350;
  private static final double PUMP_Y = 456;
  private static final double ROOF_Y = 556;
  private static final double PIPE_END_Y = 622;
  private static final double HEIGHT = 766;

  /** Room for the key to colours and dots under the tank. */
  private static final double KEY_HEIGHT = 80;

  private static final double MARGIN = 20;
  private static final double PORT_ASIDE = 38;

  private final Machine machine;
  private final List<Place> places = new ArrayList<>();
  private final Map<String, Spot> ports = new LinkedHashMap<>();
  private final List<Line> lines = new ArrayList<>();
  private final List<Tag> tags = new ArrayList<>();

  /** Where a line turns on its way to a port that lies at the side of its symbol. */
  private final Map<String, Spot> knees = new LinkedHashMap<>();

  /** Ends of branches on the pressure line and the return line, left to right. */
  private final List<String> fed = new ArrayList<>();

  private final List<Carried> fedWith = new ArrayList<>();
  private final List<Double> fedShare = new ArrayList<>();
  private final List<String> drained = new ArrayList<>();
  private final List<Double> drainedShare = new ArrayList<>();

  private Draughtsman(Machine machine) {
    this.machine = machine;
  }

  /** Returns the plan of a machine's circuit. */
  static Plan plan(Machine machine) {
    return new Draughtsman(machine).draw();
  }

  private Plan draw() {
    List<Integer> pumps = new ArrayList<>();
    List<Integer> before = new ArrayList<>();
    List<Integer> behind = new ArrayList<>();
    for (int i = 0; i < machine.components().size(); i++) {
      Component c = machine.components().get(i);
      if (symbol(c) == Symbol.PUMP) {
        pumps.add(i);
      } else {
        (c.behindPressureFilter() ? behind : before).add(i);
      }
    }
    double pumpX = 236;
    int pumpCount = Math.max(1, pumps.size());
    for (int i = 0; i < pumpCount; i++) {
      pump(i, pumps.isEmpty() ? OptionalInt.empty() : OptionalInt.of(pumps.get(i)), pumpX);
      pumpX += PUMP_COLUMN;
    }
    final double bottomX = pumpX - PUMP_COLUMN + 36 + TAG_WIDTH;
    double x = pumpX - PUMP_COLUMN + 64;
    boolean filtered = machine.pressureFilter().isPresent();
    if (before.isEmpty() && behind.isEmpty()) {
      if (!filtered) {
        x = nameless(x, Carried.TANK_OIL);
      }
    } else {
      x = group(before, x, Carried.TANK_OIL);
    }
    if (filtered) {
      x = pressureFilter(x);
      x =
          behind.isEmpty()
              ? nameless(x, Carried.BEHIND_PRESSURE_FILTER)
              : group(behind, x, Carried.BEHIND_PRESSURE_FILTER);
    }
    double filterFrom = bottomX + 16;
    if (machine.offlineFilter().isPresent()) {
      filterFrom = offline(bottomX + 44);
    }
    double filterX = Math.max(x + 112, filterFrom + 60);
    double right = filterX + 120 + TAG_WIDTH + 14 + MARGIN;
    tank(right);
    returnLine(x, filterX);
    pressureLine(pumpCount);
    return new Plan(right, HEIGHT, places, ports, lines, tags);
  }

  /** Tells from the words for a component what it is; anything else is a box. */
  static Symbol symbol(Component c) {
    String kind = c.kind().toLowerCase(Locale.ROOT);
    if (kind.contains("valve")) {
      return Symbol.VALVE;
    }
    if (kind.contains("pump")) {
      return Symbol.PUMP;
    }
    if (kind.contains("cylinder") || kind.contains("ram")) {
      return Symbol.CYLINDER;
    }
    return kind.contains("motor") ? Symbol.MOTOR : Symbol.CONSUMER;
  }

  private void pump(int number, OptionalInt component, double x) {
    String id = "pump" + number;
    place(id, Symbol.PUMP, Box.round(x, PUMP_Y, 52, 52), component, path(component, "duty"));
    port(id + ".in", x, PUMP_Y + 26);
    port(id + ".out", x, PUMP_Y - 26);
    place("drive" + number, Symbol.DRIVE, Box.round(x - 58, PUMP_Y, 30, 30), component, "duty");
    tag(id, x + 36, PUMP_Y - 52, 4);
    port("tank." + id, x, PIPE_END_Y);
    line(Carried.TANK_OIL, "tank." + id, id + ".in", 1);
  }

  private static String path(OptionalInt component, String otherwise, Machine machine) {
    return component.isPresent()
        ? "components/" + machine.components().get(component.getAsInt()).id()
        : otherwise;
  }

  private String path(OptionalInt component, String otherwise) {
    return path(component, otherwise, machine);
  }

  private double share(int component) {
    return machine.components().get(component).flowShare();
  }

  /** Draws the components of a group and returns where it ends. */
  private double group(List<Integer> members, double from, Carried oil) {
    List<Integer> valves = new ArrayList<>();
    List<Integer> actuators = new ArrayList<>();
    for (int i : members) {
      (symbol(machine.components().get(i)) == Symbol.VALVE ? valves : actuators).add(i);
    }
    double x = from;
    if (!valves.isEmpty() && !actuators.isEmpty()) {
      int bank =
          valves.stream()
              .filter(
                  i -> machine.components().get(i).kind().toLowerCase(Locale.ROOT).contains("bank"))
              .findFirst()
              .orElse(valves.get(0));
      double width = Math.max(actuators.size() * COLUMN, VALVE_COLUMNS);
      driven(bank, actuators, x, width, oil);
      x += width;
      valves.remove(Integer.valueOf(bank));
    } else {
      for (int i : actuators) {
        actuator(i, x + COLUMN / 2);
        feed("c" + i + ".a", oil, share(i));
        drain("c" + i + ".b", share(i));
        x += COLUMN;
      }
    }
    for (int i : valves) {
      double centre = x + COLUMN / 2;
      valve(i, Symbol.LONE_VALVE, centre, oil);
      tag("c" + i, centre - TAG_WIDTH / 2, ACTUATOR_TAG_Y + 84, 3);
      x += COLUMN;
    }
    return x;
  }

  /** A valve with what it drives above it. */
  private void driven(int bank, List<Integer> actuators, double from, double width, Carried oil) {
    double valveX = from + 76;
    valve(bank, Symbol.VALVE, valveX, oil);
    tag("c" + bank, valveX + 74, VALVE_TAG_Y, 3);
    String id = "c" + bank;
    double step = width / actuators.size();
    for (int k = 0; k < actuators.size(); k++) {
      int i = actuators.get(k);
      actuator(i, from + (k + 0.5) * step);
    }
    for (int k = 0; k < actuators.size(); k++) {
      String to = "c" + actuators.get(k);
      double share = share(actuators.get(k));
      work(oil, id + ".a", to + ".a", WORK_A_Y, true, share);
      work(oil, id + ".b", to + ".b", WORK_B_Y, false, share);
    }
  }

  /** A line between a valve and what it drives; all to one valve run on the same height. */
  private void work(
      Carried oil, String valve, String actuator, double y, boolean out, double share) {
    Spot v = ports.get(valve);
    Spot a = ports.get(actuator);
    Spot knee = knees.getOrDefault(actuator, a);
    List<Spot> path = new ArrayList<>(List.of(v, new Spot(v.x(), y), new Spot(knee.x(), y)));
    if (knee != a) {
      path.add(knee);
    }
    path.add(a);
    if (!out) {
      Collections.reverse(path);
    }
    lines.add(new Line(oil, out ? valve : actuator, out ? actuator : valve, path, share));
  }

  private void valve(int i, Symbol symbol, double x, Carried oil) {
    String id = "c" + i;
    OptionalInt component = OptionalInt.of(i);
    place(id, symbol, Box.round(x, VALVE_Y, 136, 36), component, path(component, ""));
    port(id + ".a", x - 10, VALVE_Y - 18);
    port(id + ".b", x + 10, VALVE_Y - 18);
    port(id + ".p", x - 10, VALVE_Y + 18);
    port(id + ".t", x + 10, VALVE_Y + 18);
    feed(id + ".p", oil, share(i));
    drain(id + ".t", share(i));
  }

  private void actuator(int i, double x) {
    OptionalInt component = OptionalInt.of(i);
    consumer("c" + i, symbol(machine.components().get(i)), component, path(component, ""), x);
  }

  private void consumer(String id, Symbol symbol, OptionalInt component, String path, double x) {
    place(id, symbol, Box.round(x, ACTUATOR_Y, 108, 48), component, path);
    if (symbol == Symbol.MOTOR) {
      port(id + ".a", x - 24, ACTUATOR_Y);
      port(id + ".b", x + 24, ACTUATOR_Y);
      knees.put(id + ".a", new Spot(x - PORT_ASIDE, ACTUATOR_Y));
      knees.put(id + ".b", new Spot(x + PORT_ASIDE, ACTUATOR_Y));
    } else {
      double y = ACTUATOR_Y + (symbol == Symbol.CYLINDER ? 14 : 24);
      port(id + ".a", x - PORT_ASIDE, y);
      port(id + ".b", x + (symbol == Symbol.CYLINDER ? 20 : PORT_ASIDE), y);
    }
    tag(id, x - TAG_WIDTH / 2, ACTUATOR_TAG_Y, 3);
  }

  /** What the file does not name still takes the oil. */
  private double nameless(double from, Carried oil) {
    consumer("consumer", Symbol.CONSUMER, OptionalInt.empty(), "components", from + COLUMN / 2);
    feed("consumer.a", oil, 1);
    drain("consumer.b", 1);
    return from + COLUMN;
  }

  private double pressureFilter(double from) {
    double x = from + FILTER_GAP / 2;
    place(
        "pressureFilter",
        Symbol.PRESSURE_FILTER,
        Box.round(x, PRESSURE_Y, 44, 44),
        OptionalInt.empty(),
        "pressureFilter");
    port("pressureFilter.in", x - 22, PRESSURE_Y);
    port("pressureFilter.out", x + 22, PRESSURE_Y);
    tag("pressureFilter", x - TAG_WIDTH / 2, PRESSURE_Y - 22 - 10 - height(2), 2);
    return from + FILTER_GAP;
  }

  private double offline(double x) {
    place(
        "offlinePump",
        Symbol.OFFLINE_PUMP,
        Box.round(x, PUMP_Y + 14, 34, 34),
        OptionalInt.empty(),
        "offlineFilter");
    port("offlinePump.in", x, PUMP_Y + 31);
    port("offlinePump.out", x, PUMP_Y - 3);
    double y = PUMP_Y - 48;
    place(
        "offlineFilter",
        Symbol.OFFLINE_FILTER,
        Box.round(x + 56, y, 44, 44),
        OptionalInt.empty(),
        "offlineFilter");
    port("offlineFilter.in", x + 34, y);
    port("offlineFilter.out", x + 78, y);
    port("tank.offlineOut", x, PIPE_END_Y);
    port("tank.offlineBack", x + 98, PIPE_END_Y);
    line(Carried.OFFLINE, "tank.offlineOut", "offlinePump.in", 1);
    line(Carried.OFFLINE, "offlinePump.out", "offlineFilter.in", 1, new Spot(x, y));
    line(Carried.BEHIND_OFFLINE, "offlineFilter.out", "tank.offlineBack", 1, new Spot(x + 98, y));
    tag("offlineFilter", x + 110, PUMP_Y - 60, 3);
    return x + 110 + TAG_WIDTH;
  }

  private void tank(double right) {
    place(
        "tank",
        machine.reservoir().pressurised() ? Symbol.PRESSURISED_TANK : Symbol.TANK,
        new Box(MARGIN, ROOF_Y, right - 2 * MARGIN, HEIGHT - KEY_HEIGHT - ROOF_Y),
        OptionalInt.empty(),
        "reservoir");
    tags.add(new Tag("tank", new Box(MARGIN + 12, ROOF_Y + 38, 190, height(4))));
    double x = 68;
    place(
        "breather",
        Symbol.BREATHER,
        new Box(x - 20, ROOF_Y - 72, 40, 56),
        OptionalInt.empty(),
        "ingress/reservoir");
    port("breather.out", x, ROOF_Y - 16);
    port("tank.breather", x, ROOF_Y + 10);
    line(Carried.RESERVOIR_DIRT, "breather.out", "tank.breather", 1);
    tag("breather", MARGIN - 4, ROOF_Y - 80 - height(3), 3);
  }

  private void returnLine(double dirtFrom, double filterX) {
    double dirtX = dirtFrom + 6 + TAG_WIDTH / 2;
    tag("ingress", dirtFrom + 6, VALVE_TAG_Y - 14, 3);
    place(
        "ingress",
        Symbol.INGRESS,
        new Box(dirtX - 10, VALVE_TAG_Y - 14 + height(3) + 4, 20, 10),
        OptionalInt.empty(),
        "ingress/returnLine");
    port("ingress.out", dirtX, VALVE_TAG_Y - 14 + height(3) + 14);
    port("dirtIn", dirtX, RETURN_Y);
    line(Carried.RETURN_DIRT, "ingress.out", "dirtIn", 1);
    rail(drained, drainedShare, "dirtIn");

    double top = RETURN_Y + 38;
    double bottom = top + 92;
    double y = (top + bottom) / 2;
    port("split", filterX, RETURN_Y);
    line(Carried.RETURN, "dirtIn", "split", 1);
    port("filterIn", filterX, top);
    port("filterOut", filterX, bottom);
    line(Carried.TO_FILTER, "split", "filterIn", 1);
    place(
        "returnFilter",
        Symbol.RETURN_FILTER,
        Box.round(filterX, y, 52, 52),
        OptionalInt.empty(),
        "returnFilter");
    port("returnFilter.in", filterX, y - 26);
    port("returnFilter.out", filterX, y + 26);
    line(Carried.ELEMENT, "filterIn", "returnFilter.in", 1);
    line(Carried.BEHIND_ELEMENT, "returnFilter.out", "filterOut", 1);
    double bypassX = filterX + 56;
    place(
        "bypass",
        Symbol.BYPASS,
        Box.round(bypassX, y, 26, 40),
        OptionalInt.empty(),
        "returnFilter/bypass");
    port("bypass.in", bypassX, y - 20);
    port("bypass.out", bypassX, y + 20);
    line(Carried.BYPASS, "filterIn", "bypass.in", 1, new Spot(bypassX, top));
    line(Carried.BYPASS, "bypass.out", "filterOut", 1, new Spot(bypassX, bottom));
    if (machine.returnFilter().indicatorKPa().isPresent()) {
      place(
          "indicator",
          Symbol.INDICATOR,
          Box.round(filterX - 44, y, 20, 20),
          OptionalInt.empty(),
          "returnFilter/indicator");
    }
    port("tank.return", filterX, PIPE_END_Y);
    line(Carried.BEHIND_FILTER, "filterOut", "tank.return", 1);
    double tagX = filterX + 120;
    tags.add(new Tag("returnFilter", new Box(tagX, RETURN_Y + 10, TAG_WIDTH + 14, height(6))));
    if (machine.filteredShare() < 1) {
      double pastX = filterX + 106;
      port("tank.past", pastX, PIPE_END_Y);
      line(Carried.PAST_FILTER, "split", "tank.past", 1, new Spot(pastX, RETURN_Y));
      tags.add(
          new Tag("past", new Box(tagX, RETURN_Y + 18 + height(6), TAG_WIDTH + 14, height(2))));
    }
  }

  private void pressureLine(int pumps) {
    String last = null;
    for (int i = 0; i < pumps; i++) {
      String joint = "pumped" + i;
      port(joint, ports.get("pump" + i + ".out").x(), PRESSURE_Y);
      line(Carried.TANK_OIL, "pump" + i + ".out", joint, 1);
      if (last != null) {
        line(Carried.TANK_OIL, last, joint, 1);
      }
      last = joint;
    }
    boolean filtered = machine.pressureFilter().isPresent();
    boolean passed = false;
    for (int i = 0; i < fed.size(); i++) {
      if (filtered && !passed && fedWith.get(i) == Carried.BEHIND_PRESSURE_FILTER) {
        line(Carried.TANK_OIL, last, "pressureFilter.in", 1);
        last = "pressureFilter.out";
        passed = true;
      }
      String joint = "fed" + i;
      Spot knee = knees.get(fed.get(i));
      port(joint, (knee == null ? ports.get(fed.get(i)) : knee).x(), PRESSURE_Y);
      line(fedWith.get(i), last, joint, 1);
      line(fedWith.get(i), joint, fed.get(i), fedShare.get(i), corner(knee));
      last = joint;
    }
  }

  /** The return line collects the branches on its way to the right. */
  private void rail(List<String> branches, List<Double> shares, String end) {
    String last = null;
    for (int i = 0; i < branches.size(); i++) {
      String joint = "drained" + i;
      Spot knee = knees.get(branches.get(i));
      port(joint, (knee == null ? ports.get(branches.get(i)) : knee).x(), RETURN_Y);
      line(Carried.BEHIND_PRESSURE_FILTER, branches.get(i), joint, shares.get(i), corner(knee));
      if (last != null) {
        line(Carried.BEHIND_PRESSURE_FILTER, last, joint, 1);
      }
      last = joint;
    }
    line(Carried.BEHIND_PRESSURE_FILTER, last, end, 1);
  }

  private static Spot[] corner(Spot knee) {
    return knee == null ? new Spot[0] : new Spot[] {knee};
  }

  private void feed(String port, Carried oil, double share) {
    fed.add(port);
    fedWith.add(oil);
    fedShare.add(share);
  }

  private void drain(String port, double share) {
    drained.add(port);
    drainedShare.add(share);
  }

  private void place(String id, Symbol symbol, Box box, OptionalInt component, String path) {
    places.add(new Place(id, symbol, box, component, path));
  }

  private void port(String id, double x, double y) {
    ports.put(id, new Spot(x, y));
  }

  private void line(Carried carried, String from, String to, double share, Spot... corners) {
    List<Spot> path = new ArrayList<>();
    path.add(ports.get(from));
    path.addAll(List.of(corners));
    path.add(ports.get(to));
    lines.add(new Line(carried, from, to, path, share));
  }

  private void tag(String place, double x, double y, int rows) {
    tags.add(new Tag(place, new Box(x, y, TAG_WIDTH, height(rows))));
  }

  /** Height of a tag with a title and some rows. */
  private static double height(int rows) {
    return 10 + ROW * (rows + 1);
  }
}
