package siltwright.circuit.view;

import static siltwright.circuit.view.Digits.code;
import static siltwright.circuit.view.Digits.count;
import static siltwright.circuit.view.Digits.mass;
import static siltwright.circuit.view.Digits.perHour;
import static siltwright.circuit.view.Digits.percent;
import static siltwright.circuit.view.Digits.three;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.ResourceBundle;
import java.util.Set;
import siltwright.contamination.Circuit;
import siltwright.contamination.DirtFlow;
import siltwright.contamination.DirtFlow.Stream;
import siltwright.contamination.Simulation.Look;
import siltwright.contamination.Simulation.Moment;
import siltwright.contamination.Wear;
import siltwright.model.Bands;
import siltwright.model.Component;
import siltwright.model.Ingress;
import siltwright.model.IngressSource;
import siltwright.model.Machine;
import siltwright.model.OfflineFilter;
import siltwright.model.SizeBands;
import siltwright.model.Units;

/**
 * What is read at each place of a circuit at a moment, as texts in the units of the screen. Each
 * number comes from the balance.
 */
final class Readings {
  /** Stands for the mean over the duty states where a state is asked for. */
  static final int MEAN = -1;

  private static final double ML_PER_L = 1000;

  /**
   * What a tag says.
   *
   * @param title name of the part
   * @param lines numbers, those that matter most first
   * @param alarms those of them that tell of an open bypass or a tripped indicator
   */
  record Card(String title, List<String> lines, Set<String> alarms) {
    Card {
      lines = List.copyOf(lines);
      alarms = Set.copyOf(alarms);
    }

    Card(String title, List<String> lines) {
      this(title, lines, Set.of());
    }
  }

  /**
   * A line of the table.
   *
   * @param name what it is
   * @param value number and unit
   */
  record Row(String name, String value) {}

  private final Course course;
  private final Machine machine;
  private final Circuit circuit;
  private final Moment moment;
  private final Look look;
  private final int state;
  private final DirtFlow flow;
  private final Units units;
  private final ResourceBundle texts;
  private final Map<String, Card> cards = new LinkedHashMap<>();

  /**
   * Reads a circuit.
   *
   * @param course course of a change
   * @param look moment of it
   * @param state duty state, or {@link #MEAN}
   * @param units units on screen
   * @param texts words
   */
  Readings(Course course, Look look, int state, Units units, ResourceBundle texts) {
    this.course = course;
    this.look = look;
    this.state = state;
    this.units = units;
    this.texts = texts;
    machine = course.machine();
    circuit = course.circuit();
    moment = look.moment();
    flow =
        state == MEAN
            ? DirtFlow.mean(circuit, moment.perMl(), moment.retainedG())
            : DirtFlow.of(circuit, state, moment.perMl(), moment.retainedG());
    fill();
  }

  /** Returns the flows that the readings are of. */
  DirtFlow flow() {
    return flow;
  }

  /** Returns the moment. */
  Moment moment() {
    return moment;
  }

  /** Returns what the tag of a part says; nothing known gives an empty card. */
  Card card(String place) {
    return cards.getOrDefault(place, new Card("", List.of()));
  }

  /** Returns the load of the return element as a share of its capacity; may be above 1. */
  double load() {
    return moment.retainedG() / machine.returnFilter().element().capacityG();
  }

  /** Returns whether the indicator has tripped. */
  boolean tripped() {
    return machine.returnFilter().indicatorKPa().isPresent()
        && moment.readingKPa() >= machine.returnFilter().indicatorKPa().getAsDouble();
  }

  /** Returns the share of the filter's flow that goes through the bypass. */
  double bypassShare() {
    double both = flow.element().flowLPerMin() + flow.bypass().flowLPerMin();
    return both > 0 ? flow.bypass().flowLPerMin() / both : 0;
  }

  /** Returns the counts that a line carries, 1/mL. */
  Bands perMl(Plan.Carried carried) {
    return stream(carried).perMl();
  }

  /** Returns the oil in a line. */
  Stream stream(Plan.Carried carried) {
    return switch (carried) {
      case TANK_OIL -> flow.pump();
      case BEHIND_PRESSURE_FILTER -> flow.behindPressureFilter();
      case RETURN -> flow.returnLine();
      case PAST_FILTER -> flow.pastFilter();
      case TO_FILTER ->
          new Stream(
              flow.element().flowLPerMin() + flow.bypass().flowLPerMin(),
              flow.element().particlesPerH().plus(flow.bypass().particlesPerH()));
      case BYPASS -> flow.bypass();
      case ELEMENT -> flow.element();
      case BEHIND_ELEMENT -> flow.behindElement();
      case BEHIND_FILTER -> flow.behindFilter();
      case OFFLINE -> flow.offline();
      case BEHIND_OFFLINE -> flow.behindOffline();
      case RESERVOIR_DIRT -> new Stream(0, flow.reservoirPerH());
      case RETURN_DIRT -> new Stream(0, flow.returnPerH());
    };
  }

  private void fill() {
    double volume = machine.reservoir().volumeL();
    cards.put(
        "tank",
        new Card(
            text("tank") + ", " + number(volume, "L"),
            List.of(
                code(moment.perMl()),
                text("atLeast4", count(moment.perMl(), 0)),
                text("atLeast14", count(moment.perMl(), 2)),
                text("inOil", mass(inOilG())))));
    cards.put("breather", dirt("intoTank", flow.reservoirPerH(), machine.ingress().reservoir()));
    cards.put("ingress", dirt("intoReturn", flow.returnPerH(), machine.ingress().returnLine()));
    pumpsAndConsumers();
    filters();
  }

  private void pumpsAndConsumers() {
    int pump = 0;
    for (int i = 0; i < machine.components().size(); i++) {
      Component c = machine.components().get(i);
      if (Draughtsman.symbol(c) == Plan.Symbol.PUMP) {
        cards.put("pump" + pump, pumpCard(c.id(), i));
        cards.put("drive" + pump, new Card(text("drive"), List.of()));
        pump++;
      } else {
        Stream oil = c.behindPressureFilter() ? flow.behindPressureFilter() : flow.pump();
        cards.put(
            "c" + i,
            new Card(
                c.id(),
                List.of(
                    code(oil.perMl()),
                    number(c.flowShare() * oil.flowLPerMin(), "L/min"),
                    wearText(i),
                    c.kind())));
      }
    }
    if (pump == 0) {
      cards.put("pump0", pumpCard(text("pump"), -1));
      cards.put("drive0", new Card(text("drive"), List.of()));
    }
    Stream oil = flow.behindPressureFilter();
    cards.put(
        "consumer",
        new Card(text("consumer"), List.of(code(oil.perMl()), number(oil.flowLPerMin(), "L/min"))));
  }

  private Card pumpCard(String title, int component) {
    List<String> lines = new ArrayList<>();
    lines.add(number(flow.pump().flowLPerMin(), "L/min"));
    lines.add(text("passed", mass(passedG())));
    lines.add(code(flow.pump().perMl()));
    if (component >= 0) {
      lines.add(wearText(component));
      lines.add(machine.components().get(component).kind());
    }
    return new Card(title, lines);
  }

  private void filters() {
    List<String> lines = new ArrayList<>();
    lines.add(text("drop", drop()));
    Set<String> alarms = new HashSet<>();
    String bypassed = text("bypassed", percent(bypassShare()));
    lines.add(bypassed);
    if (bypassShare() > 0) {
      alarms.add(bypassed);
    }
    lines.add(
        text(
            "holds",
            three(moment.retainedG()),
            number(machine.returnFilter().element().capacityG(), "g")));
    lines.add(text("keeps", perHour(DirtFlow.mgPerH(flow.keptByElementPerH()))));
    lines.add(text("behind", code(flow.behindFilter().perMl())));
    if (machine.returnFilter().indicatorKPa().isPresent()) {
      String reads = text("reads", reading());
      lines.add(reads);
      if (tripped()) {
        alarms.add(reads);
      }
    }
    cards.put("returnFilter", new Card(text("returnFilter"), lines, alarms));
    cards.put(
        "bypass",
        new Card(
            text("bypass"),
            List.of(
                percent(bypassShare()),
                number(flow.bypass().flowLPerMin(), "L/min"),
                text("opensAt", number(machine.returnFilter().bypassCrackingKPa(), "kPa")))));
    machine
        .returnFilter()
        .indicatorKPa()
        .ifPresent(
            setting ->
                cards.put(
                    "indicator",
                    new Card(
                        text("indicator"),
                        List.of(
                            text("reads", reading()),
                            text("readIn", machine.returnFilter().indicatorState()),
                            text(tripped() ? "tripped" : "quiet")))));
    cards.put(
        "past",
        new Card(
            text("past", percent(1 - circuit.filteredShare())),
            List.of(
                number(flow.pastFilter().flowLPerMin(), "L/min"),
                code(flow.pastFilter().perMl()))));
    if (machine.pressureFilter().isPresent()) {
      cards.put(
          "pressureFilter",
          new Card(
              text("pressureFilter"),
              List.of(
                  text("behind", code(flow.behindPressureFilter().perMl())),
                  text("keeps", perHour(DirtFlow.mgPerH(flow.keptByPressureFilterPerH()))))));
    }
    machine.offlineFilter().ifPresent(this::offline);
  }

  private void offline(OfflineFilter filter) {
    Card card =
        new Card(
            text("offlineFilter"),
            List.of(
                number(filter.flowLPerMin(), "L/min"),
                text("behind", code(flow.behindOffline().perMl())),
                text("keeps", perHour(DirtFlow.mgPerH(flow.keptOfflinePerH())))));
    cards.put("offlineFilter", card);
    cards.put("offlinePump", card);
  }

  private Card dirt(String title, Bands perH, List<IngressSource> sources) {
    List<String> lines = new ArrayList<>();
    lines.add(perHour(DirtFlow.mgPerH(perH)));
    for (IngressSource s : sources) {
      lines.add(s.source() + " " + perHour(s.rateMgPerH()));
    }
    if (Ingress.rateMgPerH(sources) == 0) {
      lines.set(0, text("nothing"));
    }
    return new Card(text(title), lines);
  }

  /** Returns the table of the moment: the same rows for every way to change. */
  List<Row> rows() {
    List<Row> rows = new ArrayList<>();
    rows.add(new Row(text("row.code"), code(moment.perMl())));
    for (int i = 0; i < 3; i++) {
      rows.add(new Row(text("row.count", SizeBands.edgeUmC(i)), count(moment.perMl(), i) + " /mL"));
    }
    rows.add(new Row(text("row.inOil"), mass(inOilG())));
    rows.add(new Row(text("row.released"), mass(course.last().releasedG())));
    rows.add(new Row(text("row.passed"), mass(passedG())));
    rows.add(new Row(text("row.holds"), number(moment.retainedG(), "g")));
    rows.add(new Row(text("row.keeps"), perHour(DirtFlow.mgPerH(flow.keptByElementPerH()))));
    rows.add(new Row(text("row.drop"), drop()));
    if (machine.returnFilter().indicatorKPa().isPresent()) {
      rows.add(new Row(text("row.reads", machine.returnFilter().indicatorState()), reading()));
    }
    rows.add(new Row(text("row.bypass"), percent(bypassShare())));
    for (int i = 0; i < machine.components().size(); i++) {
      rows.add(new Row(text("row.wear", machine.components().get(i).id()), wearNumber(i)));
    }
    return rows;
  }

  /** Returns the moment in one sentence. */
  String summary() {
    return text("summary", code(moment.perMl()), mass(passedG()), percent(bypassShare()), drop());
  }

  /** Dirt in the oil of the tank, g. */
  double inOilG() {
    return SizeBands.massG(moment.perMl().toArray()) * machine.reservoir().volumeL() * ML_PER_L;
  }

  /** Dirt that went through the pump since the change, g. */
  double passedG() {
    return SizeBands.massG(look.passing().toArray());
  }

  /** Pressure drop of element and bypass: of the state, or from least to greatest. */
  private String drop() {
    if (state != MEAN) {
      return number(moment.dropKPa().get(state), "kPa");
    }
    double least = moment.dropKPa().stream().mapToDouble(p -> p).min().orElse(Double.NaN);
    double most = moment.dropKPa().stream().mapToDouble(p -> p).max().orElse(Double.NaN);
    return three(units.shown(least, "kPa")) + "–" + number(most, "kPa");
  }

  private String reading() {
    return text(
        "of",
        three(units.shown(moment.readingKPa(), "kPa")),
        number(machine.returnFilter().indicatorKPa().orElse(Double.NaN), "kPa"));
  }

  private String wearText(int component) {
    return text("wear", wearNumber(component));
  }

  private String wearNumber(int component) {
    Wear wear = course.wear().get(component);
    return "× " + three(wear.relative(moment.perMl().toArray()));
  }

  private String number(double value, String unit) {
    return three(units.shown(value, unit)) + " " + units.unit(unit);
  }

  private String text(String key, Object... with) {
    return Words.text(texts, key, with);
  }
}
