package example.coldstart;

import java.util.*;
import java.util.stream.*;
import siltwright.analysis.*;
import siltwright.analysis.Entry.*;
import siltwright.model.*;

/** How long does cold oil go past the element? */
public final class ColdStart implements Analysis {
  static final NumberParameter START =
      NumberParameter.of("start", "°C", -40, 60, 5, "oil temperature at the start");
  static final NumberParameter TAU =
      NumberParameter.of("warming", "min", 1, 600, 25, "time constant of warming up");
  static final NumberParameter STARTS =
      NumberParameter.of("starts", "1", 0, 5000, 250, "cold starts in a year");
  static final Description ABOUT = Description.of("cold-start", "Cold start",
      "How long does cold oil go past the element?", Scope.MACHINE, START, TAU, STARTS);

  @Override public Description description() { return ABOUT; }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Machine m = context.machine();
    double start = values.get(START);
    double full = ColdOil.fullRatio(m);
    double stepMin = values.get(TAU) / 100;
    double[] minutes = IntStream.range(0, 800).mapToDouble(i -> i * stepMin).toArray();
    List<List<Cell>> elements = new ArrayList<>();
    List<Layer> curves = new ArrayList<>();
    for (double ratio : new double[] {1, (1 + full) / 2, full}) {
      double[] past = Arrays.stream(minutes)
          .map(t -> ColdOil.past(m, ratio, ColdOil.degC(m, start, values.get(TAU), t))).toArray();
      double openMin = Arrays.stream(past).filter(b -> b > 0).count() * stepMin;
      double pastL = Arrays.stream(past).sum() * stepMin * ColdOil.flowLPerMin(m);
      elements.add(List.of(Cell.of(ratio), Cell.of(openMin),
          Cell.of(openMin / 60 * values.get(STARTS)), Cell.of(pastL)));
      curves.add(new Layer.Line("× " + Math.round(ratio), minutes, past, Layer.Style.COMPARED));
    }
    List<List<Cell>> oil = DoubleStream.iterate(start, t -> t < 60, t -> t + 10)
        .mapToObj(t -> List.of(Cell.of(t), Cell.of(ColdOil.viscosity(m.fluid(), t)),
            Cell.of(ColdOil.past(m, 1, t)))).toList();
    Result.Builder result = Result.of(ABOUT, m, values)
        .add(new Table("elements", "By the element's pressure drop", Use.READ, List.of(
            new Column("dropRatio", "Drop, of the clean one's", "1"),
            new Column("open_min", "Bypass open after a start", "min"),
            new Column("open_h_per_year", "Open in a year", "h"),
            new Column("past_L", "Oil past it after a start", "L")), elements))
        .add(new Table("oil", "A clean element in cold oil", Use.READ, List.of(
            new Column("oil_degC", "Oil", "°C"),
            new Column("viscosity_mm2_per_s", "Viscosity", "mm²/s"),
            new Column("past", "Share past it", "1")), oil))
        .add(new Figure("warming", "Past the element", "At 0 the bypass is shut.",
            Axis.linear("Time", "min"), List.of(new Panel(Axis.linear("Share", "1"), curves))));
    if (ColdOil.past(m, 1, start) > 0) {
      result.finding(Finding.Severity.CAUTION, "Even a clean element is bypassed.", "returnFilter");
    }
    return result.build();
  }
}
