package siltwright.cleanliness.view;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
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

/**
 * Counts and codes of a machine over its hour meter. Of very many samples the extremes of each
 * stretch are drawn; all of a stretch come back where one looks closer.
 */
final class CourseFigure {
  static final String NAME = "cleanliness";
  private static final int PLACES = 3;

  /** About as many as a picture has pixels in pairs. */
  private static final int RANGES = 400;

  private static final int MOST_CHANGES = 40;

  /** More marks than these run into one another. */
  private static final int MOST_MARKS = 300;

  private final MachineSamples m;
  private final int size;
  private final Course counts;
  private final Course doubtful;
  private final List<Course> codes = new ArrayList<>();

  /** Numbers over hours that rise. */
  private record Course(double[] hours, double[] numbers) {
    static Course of(List<OilRecord> samples, ToDoubleFunction<OilRecord> number) {
      return new Course(
          samples.stream().mapToDouble(OilRecord::hours).toArray(),
          samples.stream().mapToDouble(number).toArray());
    }

    /** Returns those to draw: all, or so many that it looks the same. */
    Course drawn(double low, double high, int ranges) {
      int[] kept = Thinning.near(hours, numbers, low, high, ranges);
      return new Course(Thinning.at(hours, kept), Thinning.at(numbers, kept));
    }
  }

  /**
   * Makes figures of a machine's samples.
   *
   * @param size which of the sizes is counted
   */
  CourseFigure(MachineSamples m, int size) {
    this.m = m;
    this.size = size;
    counts = Course.of(m.running(), r -> r.countAt(size));
    doubtful =
        Course.of(
            m.samples().stream()
                .filter(r -> Double.isNaN(r.minutes()) && r.countAt(size) > 0)
                .filter(m.doubts()::containsKey)
                .toList(),
            r -> r.countAt(size));
    for (int i = 0; i < PLACES; i++) {
      int place = i;
      codes.add(
          Course.of(
              m.running().stream().filter(r -> !Double.isNaN(r.countAt(place))).toList(),
              r -> Iso4406.scaleNumber(r.countAt(place))));
    }
  }

  /** Returns the figure for a look at the samples between two hours. */
  Figure near(double lowH, double highH) {
    String count = Words.of("countAt", SizeBands.edgeUmC(size));
    return new Figure(
        NAME,
        Words.of("course.title", m.id()),
        thinned(lowH, highH).orElseGet(() -> Words.of("course.caption")),
        Axis.linear(Words.of("hours"), "h"),
        List.of(
            new Panel(Axis.log(count, "1/mL"), counts(lowH, highH)),
            new Panel(Axis.linear(Words.of("scaleNumber"), "1"), codes(lowH, highH))));
  }

  /** Returns what to say where not every sample between two hours is drawn. */
  Optional<String> thinned(double lowH, double highH) {
    return thins(lowH, highH)
        ? Optional.of(
            Words.of(
                "course.thinned",
                Numbers.grouped(Numbers.text(m.running().size())),
                Numbers.text(m.grouped())))
        : Optional.empty();
  }

  private boolean thins(double lowH, double highH) {
    return counts.hours().length > 2 * RANGES
        && Thinning.thins(counts.hours(), lowH, highH, RANGES);
  }

  private List<Layer> counts(double lowH, double highH) {
    List<Layer> layers = new ArrayList<>();
    double[] hours = counts.hours();
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
    double[] changes = Arrays.stream(m.changes()).filter(x -> x >= lowH && x <= highH).toArray();
    if (changes.length <= MOST_CHANGES) {
      for (int i = 0; i < changes.length; i++) {
        layers.add(
            new Layer.At(i == 0 ? Words.of("changed") : "", changes[i], Layer.Style.REFERENCE));
      }
    }
    Course drawn = counts.drawn(lowH, highH, RANGES);
    layers.add(new Layer.Line("", drawn.hours(), drawn.numbers(), Layer.Style.MAIN));
    if (Thinning.between(hours, lowH, highH) <= MOST_MARKS) {
      layers.add(
          new Layer.Points(Words.of("samples"), drawn.hours(), drawn.numbers(), Layer.Mark.EVENT));
    }
    if (doubtful.hours().length > 0) {
      Course shown = doubtful.drawn(lowH, highH, RANGES / 4);
      layers.add(
          new Layer.Points(
              Words.of("toDoubt"), shown.hours(), shown.numbers(), Layer.Mark.CENSORED));
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

  private List<Layer> codes(double lowH, double highH) {
    List<Layer> layers = new ArrayList<>();
    for (int i = 0; i < PLACES; i++) {
      Course drawn = codes.get(i).drawn(lowH, highH, RANGES / 2);
      layers.add(
          new Layer.Line(
              Words.of("sizeUm", SizeBands.edgeUmC(i)),
              drawn.hours(),
              drawn.numbers(),
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
