package siltwright.restart.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.ArrayList;
import java.util.List;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.model.Fleet;
import siltwright.restart.Doubt;
import siltwright.restart.Release;
import siltwright.restart.SamplingPlan;
import siltwright.samples.CountErrorParameters;
import siltwright.samples.OilRecords;

/** What each change of a table of samples let go, and which depots, crews and ways shed most. */
@Component
@Capability(namespace = "siltwright.command", name = "restart")
public final class RestartAnalysis implements Analysis {
  static final NumberParameter LIMIT =
      NumberParameter.of(
          "limit-g",
          "g",
          1e-3,
          1000,
          1,
          "release above which a change counts as one that shed dirt");
  static final WholeParameter FEWEST =
      new WholeParameter(
          "fewest", 2, 1000, 5, "changes that a group must have before anything is said of it");

  private static final Description DESCRIPTION =
      Description.of(
          "restart",
          "Restart samples",
          "Tells from counts taken minutes after a restart how much dirt each change let go.",
          Scope.RECORDS,
          Grade.FLEET,
          LIMIT,
          FEWEST,
          CountErrorParameters.ALL,
          CountErrorParameters.BOTTLE,
          CountErrorParameters.SIZE,
          CountErrorParameters.VOLUME);

  static final List<String> GROUPS = List.of("depot", "crew", "procedure", "housing");
  private static final double CONTRADICTED = 4;
  private static final double NOTHING_SEEN = 0.8;
  private static final double LEAST_G = 0.02;

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    return OilRecords.columns();
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    progress.check(0.02, "the table");
    Fleet fleet = Grade.fleet(context.fleet());
    OilRecords records = OilRecords.of(context.records().orElseThrow());
    Grade.All all = Grade.of(records, fleet, CountErrorParameters.of(values), progress);
    double limit = values.get(LIMIT);
    int fewest = values.get(FEWEST).intValue();
    Result.Builder result = Result.of(DESCRIPTION, records.kept().source(), values);
    result.records(records.kept());
    result.value("changes", "Changes in the table", "1", all.changes());
    result.value("graded", "With samples after the restart", "1", all.grades().size());
    long shed =
        all.grades().stream()
            .filter(g -> g.release().probabilityAbove(limit) >= SamplingPlan.CERTAIN)
            .count();
    result.value(
        "shed", "That shed more than " + Numbers.text(limit) + " g for certain", "1", shed);
    if (!all.grades().isEmpty()) {
      result.add(table(all.grades(), limit));
      result.add(figure(all.grades(), limit));
    }
    progress.check(0.85, "ranking");
    for (String by : GROUPS) {
      rank(result, all.grades(), by, fewest);
    }
    findings(result, all, limit);
    return result.build();
  }

  static String verdict(Release r, double limit) {
    double p = r.probabilityAbove(limit);
    return p >= SamplingPlan.CERTAIN ? "shed" : p <= 1 - SamplingPlan.CERTAIN ? "clean" : "open";
  }

  private static Entry.Table table(List<Grade> grades, double limit) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Grade g : grades) {
      Release r = g.release();
      rows.add(
          List.of(
              Cell.of(g.machine().id()),
              Cell.of(g.change().hours()),
              Cell.of(g.group("procedure")),
              Cell.of(g.group("crew")),
              Cell.of(g.bottles()),
              Cell.of(r.medianG()),
              new Cell.Range(r.quantileG(0.05), r.quantileG(0.95)),
              Cell.of(r.probabilityAbove(limit)),
              Cell.of(verdict(r, limit))));
    }
    return new Entry.Table(
        "releases",
        "What each change let go (shed: more than "
            + Numbers.text(limit)
            + " g with 90 % probability; clean: less; open: neither)",
        Entry.Use.READ,
        List.of(
            new Column("machine", "Machine", ""),
            new Column("change_h", "Change at", "h"),
            new Column("procedure", "Procedure", ""),
            new Column("crew", "Crew", ""),
            new Column("bottles", "Bottles", "1"),
            new Column("released_g", "Released", "g"),
            new Column("interval90_g", "90 % interval", "g"),
            new Column("probability", "Chance of more than the limit", "1"),
            new Column("verdict", "Verdict", "")),
        rows);
  }

  private static Figure figure(List<Grade> grades, double limit) {
    int n = grades.size();
    double[] order = new double[n];
    double[] median = new double[n];
    List<Grade> sorted = new ArrayList<>(grades);
    sorted.sort((a, b) -> Double.compare(a.release().medianG(), b.release().medianG()));
    double[] low = new double[n];
    double[] high = new double[n];
    for (int i = 0; i < n; i++) {
      order[i] = i + 1;
      median[i] = sorted.get(i).release().medianG();
      low[i] = sorted.get(i).release().quantileG(0.05);
      high[i] = sorted.get(i).release().quantileG(0.95);
    }
    List<Layer> layers = new ArrayList<>();
    if (n > 1) {
      layers.add(new Layer.Band("90 % interval", order, low, high));
    }
    layers.add(new Layer.Points("released", order, median, Layer.Mark.EVENT));
    layers.add(new Layer.Level("limit", limit));
    return new Figure(
        "releases",
        "What each change let go",
        "Changes from the least to the most; those whose whole interval lies above the limit shed"
            + " dirt.",
        Axis.linear("Change, by release", "1"),
        List.of(new Panel(Axis.log("Released", "g"), layers)));
  }

  private static void rank(Result.Builder result, List<Grade> grades, String by, int fewest) {
    // People are held against what their way is said to let go, so that nobody is ranked for the
    // way, the housing or the dust that was given to them.
    boolean people = by.equals("depot") || by.equals("crew");
    new GroupTable(
            by,
            people ? "release over what the way used is said to let go" : "release",
            people ? "" : "_g",
            people ? "1" : "g",
            fewest)
        .addTo(
            result,
            grades,
            g -> Math.log(g.release().medianG() / (people ? Math.max(LEAST_G, g.saidG()) : 1)))
        .ifPresent(
            ranking ->
                ranking.groups().stream()
                    .filter(g -> g.above(ranking.mean()))
                    .forEach(
                        g ->
                            result.finding(
                                CAUTION,
                                "Changes of "
                                    + by
                                    + " "
                                    + g.name()
                                    + " let go "
                                    + Numbers.text(Math.exp(g.shrunken() - ranking.mean()))
                                    + " times what is usual here"
                                    + (people ? " for the way used" : "")
                                    + ". Look first at what they have to work with: caps, housing,"
                                    + " time, and whether the right way was ever shown.",
                                g.name())));
  }

  private static void findings(Result.Builder result, Grade.All all, double limit) {
    if (!all.strangers().isEmpty()) {
      result.finding(
          CAUTION,
          "Machines that the fleet file does not know are left out: "
              + String.join(", ", all.strangers())
              + ".",
          "");
    }
    int without = all.changes() - all.grades().size();
    if (without > 0 && all.strangers().isEmpty()) {
      result.finding(
          NOTE,
          without + " of " + all.changes() + " changes have no sample after the restart.",
          "");
    }
    List<String> late = new ArrayList<>();
    List<String> odd = new ArrayList<>();
    int unsettled = 0;
    for (Grade g : all.grades()) {
      String name = g.machine().id() + " at " + Numbers.text(g.change().hours()) + " h";
      if (g.release().logSd() > NOTHING_SEEN * Doubt.STANDARD.releaseSd()) {
        late.add(name + " (last bottle after " + Numbers.text(g.lastMin()) + " min)");
      }
      if (g.release().misfit() > CONTRADICTED) {
        odd.add(name);
      }
      unsettled += g.before() ? 0 : 1;
    }
    if (!late.isEmpty()) {
      result.finding(
          CAUTION,
          "Sampled when nothing was left to see of a release: "
              + first(late)
              + ". The plan of the command sampling says when to draw.",
          "");
    }
    if (!odd.isEmpty()) {
      result.finding(
          CAUTION,
          "Counts that no release explains: "
              + first(odd)
              + ". Check the bottles, the minutes and the sampling point.",
          "");
    }
    if (unsettled > 0) {
      result.finding(
          NOTE,
          unsettled
              + " changes have no sample from before: the counts that the oil settles at are then the"
              + " model's, known within a factor of "
              + Numbers.text(Math.exp(1.96 * Doubt.STANDARD.base()))
              + ".",
          "");
    }
    if (all.grades().stream().anyMatch(g -> verdict(g.release(), limit).equals("open"))) {
      result.finding(
          NOTE,
          "An open verdict is no blame and no praise: more bottles, or earlier ones, would tell.",
          "");
    }
    result.finding(
        NOTE,
        "Grams count particles of 4 to 100 µm(c), spheres of test dust, with the sizes of what the"
            + " element had caught.",
        "");
  }

  private static String first(List<String> names) {
    String some = String.join(", ", names.subList(0, Math.min(5, names.size())));
    return names.size() > 5 ? some + " and " + (names.size() - 5) + " more" : some;
  }
}
