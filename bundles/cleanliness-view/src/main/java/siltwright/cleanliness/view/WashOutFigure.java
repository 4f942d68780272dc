package siltwright.cleanliness.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.contamination.Simulation;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.samples.OilRecord;

/**
 * The minutes after a restart: what the contamination balance gives for each way to change the
 * element, and the restart samples that were drawn.
 */
final class WashOutFigure {
  private static final double MIN_PER_H = 60;

  /** As many cycles as the command simulate runs unless told. */
  private static final int CYCLES = 4;

  private WashOutFigure() {}

  /**
   * Makes the figure.
   *
   * @param machine the machine in the fleet
   * @param m its samples
   * @param size place of the size
   * @param progress told how far it is
   */
  static Figure of(Machine machine, MachineSamples m, int size, Progress progress) {
    List<Layer> layers = new ArrayList<>();
    double lastMin = 0;
    for (ChangeProcedure p : machine.procedures()) {
      progress.check(0.8, p.name());
      List<Simulation.Moment> washOut =
          Simulation.of(machine, p)
              .run(machine.today().intervalH(), CYCLES, Progress.NONE)
              .washOut();
      double[] minutes = washOut.stream().mapToDouble(w -> w.elementH() * MIN_PER_H).toArray();
      double[] perMl =
          washOut.stream()
              .mapToDouble(w -> SizeBands.toCumulative(w.perMl().toArray())[size])
              .toArray();
      lastMin = Math.max(lastMin, minutes[minutes.length - 1]);
      layers.add(new Layer.Line(p.name(), minutes, perMl, Layer.Style.COMPARED));
    }
    points(m, size, lastMin, false).ifPresent(layers::add);
    points(m, size, lastMin, true).ifPresent(layers::add);
    return new Figure(
        "wash-out",
        Words.of("washOut.title", machine.id()),
        Words.of("washOut.caption"),
        Axis.linear(Words.of("minutes"), "min"),
        List.of(new Panel(Axis.log(Words.of("countAt", SizeBands.edgeUmC(size)), "1/mL"), layers)));
  }

  private static Optional<Layer> points(
      MachineSamples m, int size, double lastMin, boolean doubtful) {
    List<OilRecord> drawn =
        m.samples().stream()
            .filter(r -> r.minutes() <= lastMin && r.countAt(size) > 0)
            .filter(r -> m.doubts().containsKey(r) == doubtful)
            .toList();
    return drawn.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Layer.Points(
                Words.of(doubtful ? "toDoubt" : "restartSamples"),
                drawn.stream().mapToDouble(OilRecord::minutes).toArray(),
                drawn.stream().mapToDouble(r -> r.countAt(size)).toArray(),
                doubtful ? Layer.Mark.CENSORED : Layer.Mark.EVENT));
  }
}
