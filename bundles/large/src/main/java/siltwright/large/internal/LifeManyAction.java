package siltwright.large.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Action;
import siltwright.analysis.Cell;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.large.ManyLives;
import siltwright.life.Estimate;
import siltwright.life.Estimated;
import siltwright.life.LifeFamily;
import siltwright.life.LifeFit;
import siltwright.life.LogRank;
import siltwright.life.Quantity;
import siltwright.life.SignificanceTest;
import siltwright.wide.BackEnd;

/** Laws of life of records that do not fit in memory. */
@Component
@Capability(namespace = "siltwright.command", name = "life-many")
public final class LifeManyAction implements Action {
  private static final double CONFIDENCE = 0.95;
  private static final ChoiceParameter LAW =
      new ChoiceParameter(
          "law",
          List.of("all", "weibull", "lognormal", "exponential"),
          "weibull",
          "law of life to fit, or all of them");
  private static final Description DESCRIPTION =
      Settings.describe(
          "life-many",
          "Component life of very many records",
          "How long do components last, by records that do not fit in memory?",
          Settings.BY,
          LAW,
          Settings.GRID);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public String file() {
    return "Lives of components (Parquet, or a folder of such files): a column hours, and event,"
        + " entry_hours, lower_hours, upper_hours, count as life takes them.";
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    String law = values.get(LAW);
    List<LifeFamily> laws =
        law.equals("all")
            ? List.of(LifeFamily.values())
            : List.of(LifeFamily.valueOf(law.toUpperCase(Locale.ROOT)));
    try (BackEnd backEnd = Settings.backEnd(values)) {
      return told(
          ManyLives.of(
              Settings.source(file),
              values.find(Settings.BY).orElse(""),
              laws,
              values.get(Settings.GRID),
              Settings.together(values),
              backEnd,
              progress),
          values);
    }
  }

  private static Result told(ManyLives lives, Values values) {
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    result.rows(lives.rows());
    List<List<Cell>> rows = new ArrayList<>();
    lives
        .groups()
        .forEach(
            (name, group) ->
                group.fits().forEach((law, fit) -> rows.add(row(name, group, law, fit, lives))));
    result.add(
        new Entry.Table(
            "fits",
            "Laws of life",
            Entry.Use.READ,
            List.of(
                new Entry.Column("group", "Group", ""),
                new Entry.Column("law", "Law", ""),
                new Entry.Column("components", "Components", "1"),
                new Entry.Column("failures", "Failures", "1"),
                new Entry.Column("shape", "Shape", "1"),
                new Entry.Column("shapeInterval", "95 %", "1"),
                new Entry.Column("scale_h", "Scale or median", "h"),
                new Entry.Column("scaleInterval_h", "95 %", "h"),
                new Entry.Column("b10_h", "B10 life", "h"),
                new Entry.Column("b10Interval_h", "95 %", "h"),
                new Entry.Column("aic", "AIC", "1"),
                new Entry.Column("reason", "Why not", "")),
            rows));
    alike(result, lives);
    result.value("passes", "Times that all rows were read", "1", lives.passes());
    Settings.leftOut(result, lives.rows(), "fits");
    return result.build();
  }

  private static List<Cell> row(
      String name, ManyLives.Group group, LifeFamily law, Estimate<LifeFit> fit, ManyLives lives) {
    List<Cell> row = new ArrayList<>();
    row.add(Settings.group(name));
    row.add(Cell.of(law.name().toLowerCase(Locale.ROOT)));
    row.add(Cell.of(group.components()));
    row.add(Cell.of(group.failures()));
    if (!fit.exists()) {
      for (int i = 0; i < 7; i++) {
        row.add(new Cell.None());
      }
      row.add(Cell.of(fit.refusal().why()));
      return row;
    }
    Quantity shape = law == LifeFamily.LOGNORMAL ? Quantity.SIGMA : Quantity.SHAPE;
    for (Quantity q : List.of(shape, Quantity.SCALE, new Quantity.BLife(0.1))) {
      Estimated e = fit.get().estimate(q, CONFIDENCE);
      row.add(Cell.of(e.value()));
      row.add(
          e.logStandardError() == 0
              ? new Cell.None()
              : new Cell.Range(e.wald().lower(), e.wald().upper()));
    }
    row.add(Cell.of(fit.get().aic()));
    row.add(new Cell.None());
    return row;
  }

  private static void alike(Result.Builder result, ManyLives lives) {
    if (lives.groups().size() <= 2) {
      return;
    }
    List<List<Cell>> rows = new ArrayList<>();
    for (Map.Entry<LifeFamily, SignificanceTest> test : lives.alike().entrySet()) {
      rows.add(
          row(
              "likelihood ratio, " + test.getKey().name().toLowerCase(Locale.ROOT),
              test.getValue()));
    }
    lives.logRank().map(LogRank::test).ifPresent(test -> rows.add(row("log-rank", test)));
    result.add(
        new Entry.Table(
            "alike",
            "Whether all groups live alike",
            Entry.Use.READ,
            List.of(
                new Entry.Column("test", "Test", ""),
                new Entry.Column("chiSquare", "Chi-square", "1"),
                new Entry.Column("degreesOfFreedom", "Degrees of freedom", "1"),
                new Entry.Column("pValue", "p-value", "1")),
            rows));
    if (lives.logRank().isEmpty()) {
      result.finding(
          Severity.NOTE,
          "No log-rank test: a failure is known within an interval only, or there are too many"
              + " different hours for --grid.",
          "alike");
    }
  }

  private static List<Cell> row(String name, SignificanceTest test) {
    return List.of(
        Cell.of(name),
        Cell.of(test.chiSquare()),
        Cell.of(test.degreesOfFreedom()),
        Cell.of(test.pValue()));
  }
}
