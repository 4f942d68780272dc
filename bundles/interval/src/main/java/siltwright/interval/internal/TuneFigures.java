package siltwright.interval.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.contamination.Circuit;
import siltwright.contamination.Trace;
import siltwright.interval.Best;
import siltwright.interval.Option;
import siltwright.interval.Tuning;
import siltwright.interval.Tuning.CycleAnswer;
import siltwright.interval.Tuning.OptionAnswer;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** The pictures of a tuning. */
final class TuneFigures {
  private static final int POINTS = 61;

  /**
   * Cost over the least up to which a curve is shown: beyond, the flat bottom would be squashed.
   */
  private static final double SHOWN = 2.5;

  private final Tuning tuning;
  private final Machine machine;
  private final String moneyPerH;

  TuneFigures(Tuning tuning, String currency) {
    this.tuning = tuning;
    machine = tuning.machine();
    moneyPerH = currency + "/h";
  }

  List<Figure> all() {
    Optional<OptionAnswer> r = tuning.recommended();
    if (r.isEmpty()) {
      return List.of();
    }
    Option option = r.get().option();
    Best.Interval best = r.get().best().interval().orElseThrow();
    double[] hours = hours(best);
    List<Optional<CycleAnswer>> ours = Tuning.along(machine, option, r.get().procedure(), hours);
    return List.of(
        cost(r.get(), best, hours, ours),
        split(best, ours),
        cycle(option, r.get().procedure(), best),
        washOut(option, r.get().procedure(), best));
  }

  private double[] hours(Best.Interval best) {
    double longest =
        Math.max(
            2.5 * best.hours(),
            1.15
                * Math.max(
                    machine.today().intervalH(), machine.limits().makerMaximumH().orElse(0)));
    double shortest = Math.min(best.hours() / 6, machine.today().intervalH() / 1.2);
    return IntStream.range(0, POINTS)
        .mapToDouble(i -> shortest * Math.pow(longest / shortest, i / (POINTS - 1.0)))
        .toArray();
  }

  private Figure cost(
      OptionAnswer r, Best.Interval best, double[] hours, List<Optional<CycleAnswer>> ours) {
    List<Layer> layers = new ArrayList<>();
    layers.add(new Layer.Span("within 5 %", best.within5pct()[0], best.within5pct()[1]));
    tuning
        .spread()
        .ifPresent(
            s -> {
              int[] shown =
                  IntStream.range(0, s.gridH().length)
                      .filter(i -> s.gridH()[i] >= hours[0] && s.gridH()[i] <= hours[POINTS - 1])
                      .filter(i -> s.low()[i] < SHOWN * best.costPerH())
                      .toArray();
              // Cut at the top: what is dearer is out of sight, as the lines are.
              double[] high =
                  Arrays.stream(pick(s.high(), shown))
                      .map(g -> Math.min(g, SHOWN * best.costPerH()))
                      .toArray();
              layers.add(
                  new Layer.Band(
                      "90 % of draws", pick(s.gridH(), shown), pick(s.low(), shown), high));
            });
    for (ChangeProcedure p : recommendedLast(r.procedure())) {
      boolean recommended = p.id().equals(r.procedure().id());
      layers.add(
          line(
              p.id(),
              recommended ? ours : Tuning.along(machine, r.option(), p, hours),
              best,
              hours,
              style(p, r.procedure())));
    }
    layers.add(at("best", best.hours(), Layer.Style.MAIN));
    layers.add(at("today", machine.today().intervalH(), Layer.Style.REFERENCE));
    machine
        .limits()
        .makerMaximumH()
        .ifPresent(h -> layers.add(at("maker's maximum", h, Layer.Style.LIMIT)));
    return new Figure(
        "cost",
        "Cost against interval",
        "Long-run cost of an hour of operation. The bottom is flat: the shaded range costs at most 5 %"
            + " more than the best. What costs over 2.5 times the best is cut off.",
        Axis.log("Interval", "h"),
        List.of(new Panel(Axis.linear("Cost", moneyPerH), layers)));
  }

  /** The procedures, the recommended one last and so in front; a procedure has one colour. */
  private List<ChangeProcedure> recommendedLast(ChangeProcedure recommended) {
    return machine.procedures().stream()
        .sorted(Comparator.comparing(p -> p.id().equals(recommended.id())))
        .toList();
  }

  private static Layer.Style style(ChangeProcedure p, ChangeProcedure recommended) {
    return p.id().equals(recommended.id()) ? Layer.Style.MAIN : Layer.Style.COMPARED;
  }

  private static Layer at(String label, double hours, Layer.Style style) {
    return new Layer.At(label + " " + Numbers.text(Math.rint(hours), "h") + " h", hours, style);
  }

  private static Layer line(
      String label,
      List<Optional<CycleAnswer>> cycles,
      Best.Interval best,
      double[] hours,
      Layer.Style style) {
    double[] cost =
        cycles.stream()
            .mapToDouble(c -> c.map(x -> x.split().total()).orElse(Double.NaN))
            .map(g -> g <= SHOWN * best.costPerH() ? g : Double.NaN)
            .toArray();
    return new Layer.Line(label, hours, cost, style);
  }

  private Figure split(Best.Interval best, List<Optional<CycleAnswer>> ours) {
    List<Double> shown = new ArrayList<>();
    List<Map<String, Double>> parts = new ArrayList<>();
    for (Optional<CycleAnswer> c : ours) {
      c.filter(x -> x.split().total() <= SHOWN * best.costPerH())
          .ifPresent(
              x -> {
                shown.add(x.intervalH());
                parts.add(TuneTables.parts(x.split()));
              });
    }
    double[] xs = shown.stream().mapToDouble(Double::doubleValue).toArray();
    List<Layer.Part> stack = new ArrayList<>();
    if (!parts.isEmpty()) {
      for (String name : List.of("wear", "acute", "equipment", "service", "element", "bypass")) {
        double[] ys = parts.stream().mapToDouble(m -> Math.max(0, m.get(name))).toArray();
        if (Arrays.stream(ys).anyMatch(y -> y > 0)) {
          stack.add(new Layer.Part(name, ys));
        }
      }
    }
    return new Figure(
        "split",
        "What the cost is made of",
        "Parts of the cost per hour with the recommended procedure: changes get cheaper with the"
            + " interval, what the bypass lets through gets dearer.",
        Axis.log("Interval", "h"),
        List.of(
            new Panel(
                Axis.linear("Cost", moneyPerH),
                List.of(
                    new Layer.Stack("", xs, stack), at("best", best.hours(), Layer.Style.MAIN)))));
  }

  private Figure cycle(Option option, ChangeProcedure procedure, Best.Interval best) {
    Circuit circuit = Circuit.inTheLongRun(option.fitted(machine));
    double t = best.hours();
    double[] hours =
        IntStream.range(0, 2 * POINTS - 1)
            .mapToDouble(
                i ->
                    i < POINTS
                        ? t * 0.02 * Math.pow(i / (POINTS - 1.0), 3)
                        : t * (0.02 + 0.98 * (i - POINTS + 1) / (POINTS - 1.0)))
            .toArray();
    CycleAnswer answer = Tuning.along(machine, option, procedure, t).get(0).orElseThrow();
    Trace trace = Trace.of(circuit, answer.startPerMl(), hours);
    List<Layer> counts = new ArrayList<>();
    for (int j = 0; j < 3; j++) {
      counts.add(
          new Layer.Line(
              "≥ " + SizeBands.edgeUmC(j) + " µm(c)",
              hours,
              cumulative(trace, j),
              Layer.Style.COMPARED));
    }
    List<Layer> drops = new ArrayList<>();
    for (int k = 0; k < circuit.states(); k++) {
      int state = k;
      drops.add(
          new Layer.Line(
              machine.duty().get(k).id(),
              hours,
              Arrays.stream(trace.massG()).map(m -> circuit.readingKPa(state, m)).toArray(),
              Layer.Style.COMPARED));
    }
    machine
        .returnFilter()
        .indicatorKPa()
        .ifPresent(p -> drops.add(new Layer.Level("indicator", p)));
    drops.add(new Layer.Level("bypass opens", machine.returnFilter().bypassCrackingKPa()));
    return new Figure(
        "cycle",
        "Oil and element over the cycle",
        "From one change to the next at the recommended interval: particles in the tank, and what a"
            + " gauge over the filter reads in each duty state.",
        Axis.linear("Hours since the change", "h"),
        List.of(
            new Panel(Axis.log("Particles", "1/mL"), counts),
            new Panel(Axis.linear("Pressure drop", "kPa"), drops)));
  }

  private Figure washOut(Option option, ChangeProcedure procedure, Best.Interval best) {
    Circuit circuit = Circuit.inTheLongRun(option.fitted(machine));
    double slow = 0;
    for (int j = 1; j < 3; j++) {
      slow = Math.max(slow, circuit.washOutH(j));
    }
    double end = Double.isFinite(slow) ? Math.min(8, Math.max(0.25, 7 * slow)) : 8;
    double[] hours = IntStream.range(0, POINTS).mapToDouble(i -> end * i / (POINTS - 1)).toArray();
    double[] minutes = Arrays.stream(hours).map(h -> 60 * h).toArray();
    List<Layer> lines = new ArrayList<>();
    for (ChangeProcedure p : recommendedLast(procedure)) {
      Tuning.along(machine, option, p, best.hours())
          .get(0)
          .ifPresent(
              c ->
                  lines.add(
                      new Layer.Line(
                          p.id(),
                          minutes,
                          cumulative(Trace.of(circuit, c.startPerMl(), hours), 1),
                          style(p, procedure))));
    }
    return new Figure(
        "wash-out",
        "Wash-out of a change",
        "Particles in the clean tank after a change at the recommended interval. All of them go through"
            + " pump, valves and cylinders before the filter catches them.",
        Axis.linear("Time since restart", "min"),
        List.of(new Panel(Axis.log("Particles ≥ 6 µm(c)", "1/mL"), lines)));
  }

  private static double[] cumulative(Trace trace, int edge) {
    return trace.perMl().stream()
        .mapToDouble((Bands b) -> SizeBands.toCumulative(b.toArray())[edge])
        .toArray();
  }

  private static double[] pick(double[] values, int[] indices) {
    return Arrays.stream(indices).mapToDouble(i -> values[i]).toArray();
  }
}
