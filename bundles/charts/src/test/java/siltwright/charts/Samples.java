package siltwright.charts;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.DoubleStream;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Layer.Style;
import siltwright.analysis.Panel;

/** Figures of the kinds that the product draws, from invented numbers. */
public final class Samples {
  private Samples() {}

  /** Cost per hour against the interval. */
  public static Figure cost() {
    double[] xs = range(300, 4000, 400);
    DoubleUnaryOperator cost = t -> 900 / t + 0.35 + 1.6e-7 * t * t;
    return new Figure(
        "cost",
        "Cost per hour against the change interval",
        "The bottom is flat: any interval in the shaded ranges costs nearly the same.",
        Axis.linear("Change interval", "h"),
        List.of(
            new Panel(
                Axis.linear("Cost per hour", "EUR/h"),
                List.of(
                    new Layer.Span("within 5 %", 1010, 1830),
                    new Layer.Span("within 1 %", 1220, 1600),
                    new Layer.Band(
                        "80 % of the draws",
                        xs,
                        map(xs, t -> 0.86 * cost.applyAsDouble(t) - 1.5e-8 * t * t),
                        map(xs, t -> 1.12 * cost.applyAsDouble(t) + 4e-8 * t * t)),
                    new Layer.Line("Expected cost", xs, map(xs, cost), Style.MAIN),
                    new Layer.At("least cost 1410 h", 1410, Style.MAIN),
                    new Layer.At("today 1000 h", 1000, Style.REFERENCE),
                    new Layer.At("maker's limit 2000 h", 2000, Style.LIMIT)))));
  }

  /** Cost split as stacked areas. */
  public static Figure split() {
    double[] xs = range(100, 4000, 300);
    return new Figure(
        "split",
        "What the cost per hour is made of",
        "Each area is one kind of cost; the top edge is the whole.",
        Axis.linear("Change interval", "h"),
        List.of(
            new Panel(
                Axis.linear("Cost per hour", "EUR/h"),
                List.of(
                    new Layer.Stack(
                        "",
                        xs,
                        List.of(
                            new Layer.Part("element", map(xs, t -> 210 / t)),
                            new Layer.Part("service", map(xs, t -> 320 / t)),
                            new Layer.Part("wear", map(xs, t -> 0.3 + 2e-5 * t)),
                            new Layer.Part("acute", map(xs, t -> 0.04 + 0 * t)),
                            new Layer.Part(
                                "bypass",
                                map(xs, t -> 2e-7 * Math.pow(Math.max(0, t - 1500), 2)))))))));
  }

  /** Cleanliness and pressure drop over the cycle. */
  public static Figure cycle() {
    double[] xs = range(0, 1500, 500);
    String[] sizes = {
      "≥ 4 µm(c)", "≥ 6 µm(c)", "≥ 14 µm(c)", "≥ 21 µm(c)", "≥ 38 µm(c)", "≥ 70 µm(c)"
    };
    double[] levels = {4200, 900, 70, 14, 1.1, 0.06};
    List<Layer> lines = new java.util.ArrayList<>();
    for (int k = 0; k < sizes.length; k++) {
      double level = levels[k];
      lines.add(
          new Layer.Line(
              sizes[k],
              xs,
              map(
                  xs,
                  t -> level * (1 + 0.3 * t / 1500 + (t > 1250 ? Math.expm1((t - 1250) / 90) : 0))),
              Style.COMPARED));
    }
    return new Figure(
        "cycle",
        "Cleanliness and pressure drop over the cycle",
        "When the bypass opens, the oil goes dirty.",
        Axis.linear("Hours since the change", "h"),
        List.of(
            new Panel(Axis.log("Particles in the tank", "1/mL"), lines),
            new Panel(
                Axis.linear("Pressure drop", "kPa"),
                List.of(
                    new Layer.Line(
                        "working",
                        xs,
                        map(xs, t -> Math.min(230, 20 * Math.pow(10, t / 1250))),
                        Style.MAIN),
                    new Layer.Steps(
                        "cold start",
                        new double[] {0, 400, 800, 1100, 1500},
                        new double[] {60, 90, 140, 250, 260},
                        Style.COMPARED),
                    new Layer.Level("indicator 200 kPa", 200),
                    new Layer.Level("bypass cracks 230 kPa", 230),
                    new Layer.At("bypass opens", 1250, Style.LIMIT)))));
  }

  /** The wash-out of a change. */
  public static Figure washOut() {
    double[] xs = range(0, 60, 240);
    return new Figure(
        "wash-out",
        "Wash-out after a change",
        "The particles that a change lets in pass the pump within the first minutes.",
        Axis.linear("Time since the restart", "min"),
        List.of(
            new Panel(
                Axis.log("Particles ≥ 14 µm(c) in the tank", "1/mL"),
                List.of(
                    new Layer.Line(
                        "element pulled out in the housing",
                        xs,
                        map(xs, t -> 40 + 21000 * Math.exp(-t / 5.2)),
                        Style.COMPARED),
                    new Layer.Line(
                        "ports capped",
                        xs,
                        map(xs, t -> 40 + 2300 * Math.exp(-t / 5.2)),
                        Style.COMPARED),
                    new Layer.Line(
                        "bowl drained first",
                        xs,
                        map(xs, t -> 40 + 310 * Math.exp(-t / 5.2)),
                        Style.COMPARED),
                    new Layer.Level("target", 80)))));
  }

  /** A Weibull probability plot with censored units. */
  public static Figure weibull() {
    double[] ts = {820, 1490, 1910, 2460, 2980, 3700, 4450, 5600};
    double[] ps = {0.055, 0.137, 0.219, 0.31, 0.41, 0.53, 0.66, 0.83};
    double[] xs = DoubleStream.iterate(400, t -> t < 9500, t -> t * 1.05).toArray();
    DoubleUnaryOperator f = t -> -Math.expm1(-Math.pow(t / 4200, 1.7));
    return new Figure(
        "weibull",
        "Life of the pump's cylinder block",
        "Points on a straight line: a Weibull distribution fits.",
        Axis.log("Life", "h"),
        List.of(
            new Panel(
                new Axis("Failed by then", "", Axis.Scale.WEIBULL),
                List.of(
                    new Layer.Band(
                        "95 % confidence",
                        xs,
                        map(xs, t -> f.applyAsDouble(0.75 * t)),
                        map(xs, t -> f.applyAsDouble(1.3 * t))),
                    new Layer.Line("β 1.7, η 4200 h", xs, map(xs, f), Style.MAIN),
                    new Layer.Points("failed", ts, ps, Layer.Mark.EVENT),
                    new Layer.Points(
                        "still running",
                        new double[] {2000, 3000, 5000},
                        new double[] {0.22, 0.41, 0.7},
                        Layer.Mark.CENSORED),
                    new Layer.Level("10 %", 0.1)))));
  }

  /** Nothing to show. */
  public static Figure nothing() {
    return new Figure(
        "nothing",
        "Samples of the last year",
        "There were none.",
        Axis.linear("Hour meter", "h"),
        List.of(
            new Panel(
                Axis.log("Particles", "1/mL"),
                List.of(new Layer.Line("samples", new double[0], new double[0], Style.MAIN)))));
  }

  /** Returns all of them. */
  public static List<Figure> all() {
    return List.of(cost(), split(), cycle(), washOut(), weibull(), nothing());
  }

  static double[] range(double from, double to, int steps) {
    double[] xs = new double[steps + 1];
    for (int i = 0; i <= steps; i++) {
      xs[i] = from + (to - from) * i / steps;
    }
    return xs;
  }

  static double[] map(double[] xs, DoubleUnaryOperator f) {
    return DoubleStream.of(xs).map(f).toArray();
  }
}
