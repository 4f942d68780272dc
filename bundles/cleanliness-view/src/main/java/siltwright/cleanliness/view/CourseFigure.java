package siltwright.cleanliness.view;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.cleanliness.Iso4406;
import siltwright.model.SizeBands;
import siltwright.samples.OilRecord;
import siltwright.samples.SampleLimit;

/** Counts and codes of a machine over its hour meter. */
final class CourseFigure {
  private static final int PLACES = 3;

  /** About as many as a picture has pixels in pairs. */
  private static final int RANGES = 400;

  private static final int MOST_CHANGES = 40;

  private CourseFigure() {}

  static Figure of(MachineSamples m, int size) {
    String count = Words.of("countAt", SizeBands.edgeUmC(size));
    String caption =
        thinned(m)
            ? Words.of(
                "course.thinned",
                Numbers.grouped(Numbers.text(m.running().size())),
                Numbers.text(m.grouped()))
            : Words.of("course.caption");
    return new Figure(
        "cleanliness",
        Words.of("course.title", m.id()),
        caption,
        Axis.linear(Words.of("hours"), "h"),
        List.of(
            new Panel(Axis.log(count, "1/mL"), counts(m, size)),
            new Panel(Axis.linear(Words.of("scaleNumber"), "1"), codes(m))));
  }

  /** Returns whether not every sample is drawn. */
  static boolean thinned(MachineSamples m) {
    return m.running().size() > 2 * RANGES;
  }

  private static List<Layer> counts(MachineSamples m, int size) {
    List<Layer> layers = new ArrayList<>();
    double[] hours = m.running().stream().mapToDouble(OilRecord::hours).toArray();
    double[] perMl = m.running().stream().mapToDouble(r -> r.countAt(size)).toArray();
    m.chart()
        .ifPresent(
            c -> {
              double[] ends = {hours[0], hours[hours.length - 1]};
              double low = Math.exp(c.lower());
              double high = Math.exp(c.upper());
              layers.add(
                  new Layer.Band(
                      Words.of("control"),
                      ends,
                      new double[] {low, low},
                      new double[] {high, high}));
            });
    double[] changes = m.changes();
    if (changes.length <= MOST_CHANGES) {
      for (int i = 0; i < changes.length; i++) {
        layers.add(
            new Layer.At(i == 0 ? Words.of("changed") : "", changes[i], Layer.Style.REFERENCE));
      }
    }
    int[] kept = Thinning.of(hours, perMl, RANGES);
    double[] keptHours = Thinning.at(hours, kept);
    double[] keptPerMl = Thinning.at(perMl, kept);
    layers.add(new Layer.Line("", keptHours, keptPerMl, Layer.Style.MAIN));
    if (kept.length == hours.length) {
      layers.add(new Layer.Points(Words.of("samples"), keptHours, keptPerMl, Layer.Mark.EVENT));
    }
    List<OilRecord> doubtful =
        m.samples().stream()
            .filter(r -> Double.isNaN(r.minutes()) && r.countAt(size) > 0)
            .filter(m.doubts()::containsKey)
            .toList();
    if (!doubtful.isEmpty()) {
      double[] at = doubtful.stream().mapToDouble(OilRecord::hours).toArray();
      double[] of = doubtful.stream().mapToDouble(r -> r.countAt(size)).toArray();
      int[] shown = Thinning.of(at, of, RANGES / 4);
      layers.add(
          new Layer.Points(
              Words.of("toDoubt"),
              Thinning.at(at, shown),
              Thinning.at(of, shown),
              Layer.Mark.CENSORED));
    }
    for (SampleLimit l : m.limits()) {
      layers.add(
          new Layer.Level(l.kind() + " " + l.code(), Iso4406.upperLimitsPerMl(l.code())[size]));
    }
    double[] levels = m.levels();
    for (int i = 0; i < levels.length; i++) {
      layers.add(new Layer.At(i == 0 ? Words.of("level") : "", levels[i], Layer.Style.MAIN));
    }
    return layers;
  }

  private static List<Layer> codes(MachineSamples m) {
    List<Layer> layers = new ArrayList<>();
    for (int i = 0; i < PLACES; i++) {
      int place = i;
      ToDoubleFunction<OilRecord> count = r -> r.countAt(place);
      List<OilRecord> with =
          m.running().stream().filter(r -> !Double.isNaN(count.applyAsDouble(r))).toList();
      double[] hours = with.stream().mapToDouble(OilRecord::hours).toArray();
      double[] numbers = with.stream().mapToDouble(count).map(Iso4406::scaleNumber).toArray();
      int[] kept = Thinning.of(hours, numbers, RANGES / 2);
      layers.add(
          new Layer.Line(
              Words.of("sizeUm", SizeBands.edgeUmC(i)),
              Thinning.at(hours, kept),
              Thinning.at(numbers, kept),
              Layer.Style.COMPARED));
    }
    return layers;
  }

  /** Returns a figure with an x marked in each panel. */
  static Figure marked(Figure f, double x) {
    List<Panel> panels =
        f.panels().stream()
            .map(
                p -> {
                  List<Layer> layers = new ArrayList<>(p.layers());
                  layers.add(
                      new Layer.At(
                          p == f.panels().get(0) ? Words.of("selected") : "",
                          x,
                          Layer.Style.REFERENCE));
                  return new Panel(p.y(), layers);
                })
            .toList();
    return new Figure(f.name(), f.title(), f.caption(), f.x(), panels);
  }
}
