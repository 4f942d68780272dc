package siltwright.interval.view;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.interval.Best;
import siltwright.interval.TrialCurve;
import siltwright.model.Machine;

/** The picture of a trial's curve and the pinned ones. */
final class CurveFigure {
  private static final double SHOWN = 2.5;

  private CurveFigure() {}

  static Figure of(Machine machine, String currency, TrialCurve curve, List<TrialCurve> pinned) {
    List<Layer> layers = new ArrayList<>();
    double top = SHOWN * least(curve);
    for (TrialCurve p : pinned) {
      top = Math.max(top, 1.2 * least(p));
    }
    curve
        .best()
        .interval()
        .ifPresent(
            i ->
                layers.add(
                    new Layer.Span(Words.of("within"), i.within5pct()[0], i.within5pct()[1])));
    for (int i = 0; i < pinned.size(); i++) {
      layers.add(line(Words.of("pinned", i + 1), pinned.get(i), top, Layer.Style.COMPARED));
    }
    layers.add(line(Words.of("shown"), curve, top, Layer.Style.MAIN));
    curve
        .best()
        .interval()
        .ifPresent(i -> layers.add(new Layer.At(Words.of("best"), i.hours(), Layer.Style.MAIN)));
    layers.add(new Layer.At(Words.of("today"), machine.today().intervalH(), Layer.Style.REFERENCE));
    machine
        .limits()
        .makerMaximumH()
        .ifPresent(h -> layers.add(new Layer.At(Words.of("maker"), h, Layer.Style.LIMIT)));
    return new Figure(
        "cost-by-hand",
        Words.of("figure.title"),
        Words.of("figure.caption"),
        Axis.log(Words.of("interval"), "h"),
        List.of(new Panel(Axis.linear(Words.of("cost"), currency + "/h"), layers)));
  }

  private static double least(TrialCurve curve) {
    return curve
        .best()
        .interval()
        .map(Best.Interval::costPerH)
        .orElseGet(() -> Arrays.stream(curve.costPerH()).min().orElse(Double.NaN));
  }

  private static Layer line(String label, TrialCurve curve, double top, Layer.Style style) {
    double[] shown = Arrays.stream(curve.costPerH()).map(g -> g <= top ? g : Double.NaN).toArray();
    return new Layer.Line(label, curve.hours(), shown, style);
  }
}
