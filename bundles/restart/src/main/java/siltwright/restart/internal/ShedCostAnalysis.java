package siltwright.restart.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.stream.DoubleStream;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.interval.ReleaseCost;
import siltwright.model.Fleet;
import siltwright.samples.CountErrorParameters;
import siltwright.samples.OilRecords;

/** What the dirt that changes let go cost, by depot and year, and what the best way would save. */
@Component
@Capability(namespace = "siltwright.command", name = "shed-cost")
public final class ShedCostAnalysis implements Analysis {
  private static final NumberParameter FACTOR =
      NumberParameter.of(
          "cost-factor",
          "1",
          1,
          10,
          2,
          "factor within which the price of a gram is known: 95 % of the chance lies between it over"
              + " and times this, for all changes alike");
  private static final WholeParameter DRAWS =
      new WholeParameter("draws", 100, 100_000, 2000, "draws behind the intervals");
  private static final WholeParameter SEED =
      new WholeParameter("seed", 0, Long.MAX_VALUE, 1, "seed of the draws");

  private static final Description DESCRIPTION =
      Description.of(
          "shed-cost",
          "What shed dirt costs",
          "Turns what each change let go into money, by depot and year, and what a better way would"
              + " save.",
          Scope.RECORDS,
          Grade.FLEET,
          FACTOR,
          RestartAnalysis.FEWEST,
          DRAWS,
          SEED,
          CountErrorParameters.ALL,
          CountErrorParameters.BOTTLE,
          CountErrorParameters.SIZE,
          CountErrorParameters.VOLUME);

  private static final double LEAST_MONEY = 0.01;
  private static final double Z95 = 1.959963984540054;

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    return OilRecords.columns();
  }

  /**
   * A change with the money of its release.
   *
   * @param grade the change
   * @param moneyPerG money of a gram there, at the median release
   * @param bestG what the best procedure of the machine would let go, g
   */
  private record Priced(Grade grade, double moneyPerG, double bestG) {
    String year() {
      String date = grade.change().word("date");
      return date.length() >= 4 ? date.substring(0, 4) : "undated";
    }
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    progress.check(0.02, "the table");
    Fleet fleet = Grade.fleet(context.fleet());
    OilRecords records = OilRecords.of(context.records().orElseThrow());
    Grade.All all = Grade.of(records, fleet, CountErrorParameters.of(values), progress);
    List<Priced> priced = new ArrayList<>();
    int unpriced = 0;
    Map<String, ReleaseCost> costs = new HashMap<>();
    for (Grade g : all.grades()) {
      progress.check(0.8, "prices");
      ReleaseCost cost = costs.computeIfAbsent(g.machine().id(), k -> ReleaseCost.of(g.machine()));
      double grams = g.release().medianG();
      double money = cost.money(g.wash().particlesPerG().times(grams), g.intervalH());
      if (Double.isFinite(money)) {
        priced.add(new Priced(g, money / grams, g.bestG()));
      } else {
        unpriced++;
      }
    }
    Result.Builder result = Result.of(DESCRIPTION, records.kept().source(), values);
    result.records(records.kept());
    String money = fleet.currency();
    Map<String, List<Priced>> by = new TreeMap<>();
    for (Priced p : priced) {
      by.computeIfAbsent(p.grade().group("depot") + "\t" + p.year(), k -> new ArrayList<>()).add(p);
    }
    double[][] draws = new double[2][values.get(DRAWS).intValue()];
    List<List<Cell>> rows = new ArrayList<>();
    by.forEach(
        (key, changes) -> {
          double[][] own = draw(changes, values);
          for (int k = 0; k < 2; k++) {
            for (int i = 0; i < own[k].length; i++) {
              draws[k][i] += own[k][i];
            }
          }
          String[] parts = key.split("\t");
          rows.add(
              List.of(
                  Cell.of(parts[0]),
                  Cell.of(parts[1]),
                  Cell.of(changes.size()),
                  Cell.of(changes.stream().mapToDouble(p -> p.grade().release().medianG()).sum()),
                  Cell.of(quantile(own[0], 0.5)),
                  new Cell.Range(quantile(own[0], 0.05), quantile(own[0], 0.95)),
                  Cell.of(quantile(own[1], 0.5)),
                  new Cell.Range(quantile(own[1], 0.05), quantile(own[1], 0.95))));
        });
    result.add(
        new Entry.Group(
            "case",
            "All graded changes",
            List.of(
                new Entry.Value("priced", "Changes priced", "1", Cell.of(priced.size())),
                new Entry.Value(
                    "cost", "Cost of what they shed", money, Cell.of(quantile(draws[0], 0.5))),
                new Entry.Value(
                    "cost90",
                    "90 % interval",
                    money,
                    new Cell.Range(quantile(draws[0], 0.05), quantile(draws[0], 0.95))),
                new Entry.Value(
                    "saved",
                    "The best way of each machine would have saved",
                    money,
                    Cell.of(quantile(draws[1], 0.5))),
                new Entry.Value(
                    "saved90",
                    "90 % interval",
                    money,
                    new Cell.Range(quantile(draws[1], 0.05), quantile(draws[1], 0.95))),
                new Entry.Value(
                    "savedShare",
                    "Share saved",
                    "1",
                    Cell.of(quantile(draws[1], 0.5) / quantile(draws[0], 0.5))))));
    result.add(
        new Entry.Table(
            "byDepotAndYear",
            "By depot and year",
            Entry.Use.READ,
            List.of(
                new Column("depot", "Depot", ""),
                new Column("year", "Year", ""),
                new Column("changes", "Changes", "1"),
                new Column("released_g", "Released", "g"),
                new Column("cost", "Cost", money),
                new Column("cost90", "90 % interval", money),
                new Column("saved", "Best way would save", money),
                new Column("saved90", "90 % interval", money)),
            rows));
    Map<Grade, Priced> price = new HashMap<>();
    priced.forEach(p -> price.put(p.grade(), p));
    List<Grade> grades = priced.stream().map(Priced::grade).toList();
    for (String group : RestartAnalysis.GROUPS) {
      new GroupTable(
              group, "cost of a change", "", money, values.get(RestartAnalysis.FEWEST).intValue())
          .addTo(
              result,
              grades,
              g ->
                  Math.log(
                      Math.max(LEAST_MONEY, g.release().medianG() * price.get(g).moneyPerG())));
    }
    result.add(each(priced, money));
    findings(result, all, priced, unpriced, values);
    return result.build();
  }

  private static double[][] draw(List<Priced> changes, Values values) {
    int n = values.get(DRAWS).intValue();
    double sd = Math.log(values.get(FACTOR)) / Z95;
    double[][] sums = new double[2][n];
    for (int i = 0; i < n; i++) {
      SplittableRandom price = new SplittableRandom(values.get(SEED) * 1_000_003L + i);
      double factor = Math.exp(sd * price.nextGaussian());
      for (Priced p : changes) {
        long own = values.get(SEED) ^ (31L * p.grade().change().line()) * 7919L + i;
        double grams = p.grade().release().quantileG(new SplittableRandom(own).nextDouble());
        sums[0][i] += factor * grams * p.moneyPerG();
        sums[1][i] += factor * Math.max(0, grams - p.bestG()) * p.moneyPerG();
      }
    }
    return sums;
  }

  private static double quantile(double[] values, double share) {
    double[] sorted = DoubleStream.of(values).sorted().toArray();
    return sorted[(int) Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  }

  private static Entry.Table each(List<Priced> priced, String money) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Priced p : priced) {
      double grams = p.grade().release().medianG();
      rows.add(
          List.of(
              Cell.of(p.grade().machine().id()),
              Cell.of(p.grade().change().hours()),
              Cell.of(p.grade().group("procedure")),
              Cell.of(grams),
              Cell.of(p.moneyPerG()),
              Cell.of(grams * p.moneyPerG()),
              Cell.of(p.bestG())));
    }
    return new Entry.Table(
        "changes",
        "Change by change",
        Entry.Use.READ,
        List.of(
            new Column("machine", "Machine", ""),
            new Column("change_h", "Change at", "h"),
            new Column("procedure", "Procedure", ""),
            new Column("released_g", "Released", "g"),
            new Column("moneyPer_g", "Money of a gram", money + "/g"),
            new Column("cost", "Cost", money),
            new Column("best_g", "Best way would release", "g")),
        rows);
  }

  private static void findings(
      Result.Builder result, Grade.All all, List<Priced> priced, int unpriced, Values values) {
    int without = all.changes() - all.grades().size();
    if (without > 0) {
      result.finding(
          CAUTION,
          without
              + " of "
              + all.changes()
              + " changes have no sample after the restart and are not in the sums.",
          "");
    }
    if (!all.strangers().isEmpty()) {
      result.finding(
          CAUTION,
          "Machines that the fleet file does not know are left out: "
              + String.join(", ", all.strangers())
              + ".",
          "");
    }
    if (unpriced > 0) {
      result.finding(
          CAUTION, unpriced + " changes shed more than the new element could take and hold.", "");
    }
    if (!priced.isEmpty()) {
      result.finding(
          NOTE,
          "Costs by depot and crew hold what they were given: the way, the housing, the dust. The"
              + " command restart compares people with that taken out.",
          "");
      result.finding(
          NOTE,
          "Assumed: prices, lives and exponents of the fleet file; a gram is priced at the median"
              + " release by the cycle that follows the change, and is known within a factor of "
              + Numbers.text(values.get(FACTOR))
              + "; the best way lets go what the fleet file says of it.",
          "");
    }
  }
}
