package siltwright.life.internal;

import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Result;
import siltwright.life.DemonstrationPlan;
import siltwright.life.LowerBound;

/** How many components must run how long, with how few failures, to show a B10 life. */
final class Demonstration {
  private static final double RELIABILITY = 0.9;
  private static final int MOST_FAILURES = 3;
  private static final double[] TIMES = {0.5, 1, 2, 3};
  private static final double[] SHAPES = {1, 1.5, 2, 3};

  private final Study study;
  private final double b10H;
  private final double confidence;

  Demonstration(Study study, double b10H) {
    this.study = study;
    this.b10H = b10H;
    this.confidence = study.settings.confidence();
  }

  void addTo(Result.Builder result) {
    result.add(byFailures());
    result.add(byLength());
    int least = DemonstrationPlan.components(RELIABILITY, confidence, 0);
    result.finding(
        NOTE,
        "To show a B10 life of "
            + Say.number(b10H)
            + " h at "
            + Say.number(100 * confidence)
            + " % confidence, "
            + least
            + " components must reach that age and none fail: "
            + Say.number(least * b10H)
            + " unit-hours. Longer runs need fewer, by the shape.",
        "demonstration");
  }

  /** Run to the B10 life itself no shape is needed: each component has passed or it has not. */
  private Entry.Table byFailures() {
    List<List<Cell>> rows = new ArrayList<>();
    for (int failures = 0; failures <= MOST_FAILURES; failures++) {
      int n = DemonstrationPlan.components(RELIABILITY, confidence, failures);
      rows.add(List.of(Cell.of(failures), Cell.of(n), Cell.of(n * b10H)));
    }
    return new Entry.Table(
        "demonstration",
        "To show a B10 life of " + Say.number(b10H) + " h: components run to that age",
        Entry.Use.READ,
        List.of(
            new Column("failures", "Failures at most", ""),
            new Column("components", "Components", ""),
            new Column("unitHours_h", "Unit-hours", "h")),
        rows);
  }

  private Entry.Table byLength() {
    List<Column> columns = new ArrayList<>();
    columns.add(new Column("shape", "Shape assumed", "1"));
    for (double times : TIMES) {
      String label = "Run to " + Say.number(times * b10H) + " h";
      columns.add(new Column("components" + Say.number(times) + "xB10", label, ""));
    }
    columns.add(new Column("shownB10_h", "B10 these records show", "h"));
    double[] shapes = study.settings.shape().map(s -> new double[] {s}).orElse(SHAPES);
    List<List<Cell>> rows = new ArrayList<>();
    for (double shape : shapes) {
      List<Cell> row = new ArrayList<>();
      row.add(Cell.of(shape));
      for (double times : TIMES) {
        double n = DemonstrationPlan.withoutFailure(RELIABILITY, confidence, times, shape);
        row.add(Cell.of(Math.ceil(n - 1e-9)));
      }
      boolean bounded = !study.data.hasIntervals() && study.watchedH() > 0;
      row.add(
          bounded
              ? Cell.of(LowerBound.of(study.data, shape).bLifeLowerH(1 - RELIABILITY, confidence))
              : new Cell.None());
      rows.add(row);
    }
    return new Entry.Table(
        "demonstrationByShape",
        "Components without a failure that show the same, by the age they are run to",
        Entry.Use.READ,
        columns,
        rows);
  }
}
