package siltwright.contamination.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.contamination.Simulation.Moment;
import siltwright.model.DutyState;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** The figures of a simulation. */
final class SimulateFigures {
  private static final int CODED_SIZES = 3;
  private static final double MIN_PER_H = 60;

  private final Machine machine;
  private final List<String> states;

  SimulateFigures(Machine machine) {
    this.machine = machine;
    states = machine.duty().stream().map(DutyState::id).toList();
  }

  /** Cleanliness and pressure drop over all cycles. */
  Figure course(List<Moment> moments) {
    double[] hours = moments.stream().mapToDouble(Moment::timeH).toArray();
    List<Layer> drops = new ArrayList<>();
    drops.add(new Layer.Level("bypass begins to open", machine.returnFilter().bypassCrackingKPa()));
    for (int k = 0; k < states.size(); k++) {
      int state = k;
      drops.add(line(states.get(k), hours, moments, m -> m.dropKPa().get(state)));
    }
    machine
        .returnFilter()
        .indicatorKPa()
        .ifPresent(
            setting -> {
              drops.add(new Layer.Level("indicator trips", setting));
              drops.add(
                  new Layer.Line(
                      "indicator reading, housing included",
                      hours,
                      moments.stream().mapToDouble(Moment::readingKPa).toArray(),
                      Layer.Style.REFERENCE));
            });
    return new Figure(
        "course",
        "Cleanliness and pressure drop from change to change",
        "Counts jump at a change by what it releases and fall back within minutes; they rise again"
            + " where the bypass opens.",
        Axis.linear("Time", "h"),
        List.of(counts(hours, moments), new Panel(Axis.linear("Pressure drop", "kPa"), drops)));
  }

  /** The minutes after the last change. */
  Figure washOut(List<Moment> moments) {
    double[] minutes = moments.stream().mapToDouble(m -> MIN_PER_H * m.elementH()).toArray();
    return new Figure(
        "washOut",
        "Wash-out after a change",
        "What the change released passes the pump before it is caught again.",
        Axis.linear("Time since the change", "min"),
        List.of(counts(minutes, moments)));
  }

  private static Panel counts(double[] xs, List<Moment> moments) {
    List<Layer> layers = new ArrayList<>();
    for (int i = 0; i < CODED_SIZES; i++) {
      int size = i;
      layers.add(
          line(
              "at or above " + SizeBands.edgeUmC(i) + " µm(c)",
              xs,
              moments,
              m -> aboveZero(SizeBands.toCumulative(m.perMl().toArray())[size])));
    }
    return new Panel(Axis.log("Particles", "1/mL"), layers);
  }

  /** A log axis has no zero. */
  private static double aboveZero(double count) {
    return count > 0 ? count : Double.NaN;
  }

  private static Layer line(
      String label, double[] xs, List<Moment> moments, ToDoubleFunction<Moment> y) {
    return new Layer.Line(
        label, xs, moments.stream().mapToDouble(y).toArray(), Layer.Style.COMPARED);
  }
}
