package siltwright.plan.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.plan.FleetPlan;
import siltwright.plan.FleetPlan.Part;
import siltwright.plan.FleetPlan.Visit;
import siltwright.plan.PlanRequest;
import siltwright.plan.Task;

/** The pictures of a plan. */
final class PlanFigures {
  private static final int MOST_PANELS = 5;
  private static final int MOST_ROWS = 40;
  private static final int MOST_NAMED = 8;
  private static final int POINTS = 81;
  private static final int WEEK = 7;

  private final FleetPlan plan;
  private final Values values;
  private final Axis time;

  PlanFigures(FleetPlan plan, Values values) {
    this.plan = plan;
    this.values = values;
    time = Axis.linear("days after " + plan.days().start(), "d");
  }

  void addTo(Result.Builder result) {
    if (plan.members().isEmpty()) {
      return;
    }
    result.add(windows());
    result.add(load());
    result.add(timing());
    plan.parts().stream()
        .max(Comparator.comparingInt(Part::planned))
        .filter(p -> p.planned() > 0)
        .ifPresent(p -> result.add(stock(p)));
  }

  /** Windows and changes of the machines, a panel a site; of many sites the busiest. */
  private Figure windows() {
    int[] sites =
        IntStream.range(0, plan.network().sites().size())
            .boxed()
            .filter(s -> members(s).length > 0)
            .sorted(Comparator.comparing(s -> -members(s).length))
            .limit(MOST_PANELS)
            .mapToInt(s -> s)
            .toArray();
    Arrays.sort(sites);
    List<Panel> panels = new ArrayList<>();
    for (int s : sites) {
      panels.add(site(s));
    }
    boolean all = sites.length == plan.network().sites().size();
    return new Figure(
        "windows",
        "Changes and the days on which they may be",
        "A row a machine, from the bottom up as in the table"
            + (all ? "" : "; the sites with most machines")
            + ". Bars reach from the first to the last day that the flat range allows after the"
            + " change before, dots are the planned changes; dots above each other are one visit.",
        time,
        panels);
  }

  private int[] members(int site) {
    return IntStream.range(0, plan.members().size())
        .filter(i -> plan.members().get(i).task().site() == site)
        .toArray();
  }

  private Panel site(int site) {
    List<Layer> layers = new ArrayList<>();
    List<double[]> dots = new ArrayList<>();
    int[] rows = Arrays.copyOf(members(site), Math.min(MOST_ROWS, members(site).length));
    for (int r = 0; r < rows.length; r++) {
      Task t = plan.members().get(rows[r]).task();
      int at = -1;
      for (int k : plan.answer().plan().chains()[rows[r]]) {
        double from = plan.days().days()[t.windowLow(at)];
        double to = plan.days().days()[t.windowHigh(at)];
        double y = r + 1;
        layers.add(
            new Layer.Line(
                "",
                new double[] {from, Math.max(to, from + 1)},
                new double[] {y, y},
                Layer.Style.REFERENCE));
        dots.add(new double[] {plan.days().days()[k], y});
        at = k;
      }
    }
    layers.add(
        new Layer.Points(
            "",
            dots.stream().mapToDouble(d -> d[0]).toArray(),
            dots.stream().mapToDouble(d -> d[1]).toArray(),
            Layer.Mark.EVENT));
    String name = plan.network().sites().get(site).id();
    if (rows.length <= MOST_NAMED) {
      name +=
          Arrays.stream(rows)
              .mapToObj(i -> plan.members().get(i).machine().id())
              .collect(Collectors.joining(", ", ", from the bottom up: ", ""));
    }
    return new Panel(Axis.linear(name, "row"), layers);
  }

  /** Hours of each week. */
  private Figure load() {
    int weeks = (plan.days().length() + WEEK - 1) / WEEK;
    double[] xs = new double[weeks + 1];
    double[] work = new double[weeks + 1];
    double[] all = new double[weeks + 1];
    double[] full = new double[weeks + 1];
    for (int w = 0; w <= weeks; w++) {
      xs[w] = (double) w * WEEK;
    }
    for (Visit v : plan.visits()) {
      int w = plan.days().days()[v.day()] / WEEK;
      work[w] += v.workH();
      all[w] += v.workH() + v.driveH();
    }
    double dayH = plan.network().technicians() * plan.network().dayMin() / 60.0;
    for (int d : plan.days().days()) {
      full[d / WEEK] += dayH;
    }
    for (double[] ys : List.of(work, all, full)) {
      ys[weeks] = ys[weeks - 1];
    }
    return new Figure(
        "load",
        "Technicians' hours a week",
        "Work alone, work and driving, and what the technicians have.",
        time,
        List.of(
            new Panel(
                Axis.linear("hours a week", "h"),
                List.of(
                    new Layer.Steps("technicians' hours", xs, full, Layer.Style.LIMIT),
                    new Layer.Steps("work and driving", xs, all, Layer.Style.MAIN),
                    new Layer.Steps("work", xs, work, Layer.Style.COMPARED)))));
  }

  /** Excess cost against the interval, over the machines. */
  private Figure timing() {
    double[] xs = new double[POINTS];
    double[] low = new double[POINTS];
    double[] middle = new double[POINTS];
    double[] high = new double[POINTS];
    int n = plan.members().size();
    for (int p = 0; p < POINTS; p++) {
      xs[p] = 50 + 100.0 * p / (POINTS - 1);
      double x = xs[p] / 100;
      double[] money =
          plan.members().stream()
              .mapToDouble(m -> m.task().cost().at(x * m.task().cost().bestH()))
              .sorted()
              .toArray();
      low[p] = money[0];
      middle[p] = money[n / 2];
      high[p] = money[n - 1];
    }
    return new Figure(
        "timing",
        "What a change early or late costs",
        "Cost of a cycle above what its hours would have cost with the best interval: the machines'"
            + " least, median and most. Where a limit sets the best, the line beyond it is 0 and not"
            + " allowed.",
        Axis.linear("hours on the element, as a share of the best interval", "%"),
        List.of(
            new Panel(
                Axis.linear("cost of one change", plan.fleet().currency()),
                List.of(
                    new Layer.Band("least to most", xs, low, high),
                    new Layer.Line("median", xs, middle, Layer.Style.MAIN),
                    new Layer.At("best", 100, Layer.Style.REFERENCE)))));
  }

  /** Probability of running out against the stock, of the element that the plan takes most of. */
  private Figure stock(Part part) {
    int most = part.batched().stock(0.9995) + 1;
    double[] xs = new double[most + 1];
    double[] single = new double[most + 1];
    double[] batched = new double[most + 1];
    for (int s = 0; s <= most; s++) {
      xs[s] = s;
      single[s] = 100 * part.single().stockOut(s);
      batched[s] = 100 * part.batched().stockOut(s);
    }
    return new Figure(
        "stock",
        "Elements " + part.id() + ": running out within a lead time",
        "Visits take several at a time, so the store runs out sooner than if changes came one by"
            + " one.",
        Axis.linear("elements in store when ordering", "1"),
        List.of(
            new Panel(
                Axis.linear("probability of running out", "%"),
                List.of(
                    new Layer.Steps("by visits", xs, batched, Layer.Style.MAIN),
                    new Layer.Steps("one by one", xs, single, Layer.Style.REFERENCE),
                    new Layer.Level("allowed", 100 * (1 - values.get(PlanRequest.SERVICE)))))));
  }
}
