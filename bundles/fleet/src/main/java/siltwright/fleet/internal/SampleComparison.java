package siltwright.fleet.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Result;
import siltwright.fleet.Compliance;
import siltwright.fleet.MachineRatio;
import siltwright.life.Interval;

/** Groups compared by the share of operating hours that their oil is within a target. */
final class SampleComparison {
  private static final int MOST_TOLD = 3;
  private static final double WHOLE = 100;

  /** A share of the hours in doubt from which a denser plan of samples is advised. */
  private static final double MUCH_IN_DOUBT = 0.2;

  /** One group: its machines, and its share, not there where no machine has two samples. */
  private record Group(String name, int[] machines, MachineRatio ratio, MachineRatio.Drawn share) {}

  private record Comparison(Groups.Pair pair, MachineRatio.Drawn difference, double pAll) {}

  private final Settings settings;
  private final SampleRecords records;
  private final List<Group> groups = new ArrayList<>();
  private final List<Comparison> comparisons = new ArrayList<>();

  private SampleComparison(SampleRecords records, Settings settings, Progress progress) {
    this.records = records;
    this.settings = settings;
    double[] hours = records.hours().hoursH();
    for (int k = 0; k < records.groups().names().size(); k++) {
      int[] machines =
          Arrays.stream(records.groups().members(k)).filter(m -> hours[m] > 0).toArray();
      MachineRatio ratio = machines.length == 0 ? null : records.hours().share(machines);
      groups.add(
          new Group(
              records.groups().names().get(k),
              machines,
              ratio,
              ratio == null
                  ? null
                  : ratio.drawn(settings.draws(), settings.seed(), Settings.CONFIDENCE)));
    }
    progress.check(0.5, "pairs");
    List<Groups.Pair> pairs =
        records.groups().pairs().stream()
            .filter(
                p -> groups.get(p.first()).ratio != null && groups.get(p.second()).ratio != null)
            .toList();
    List<MachineRatio.Drawn> all =
        pairs.stream()
            .map(
                p ->
                    groups
                        .get(p.first())
                        .ratio
                        .less(
                            groups.get(p.second()).ratio,
                            settings.draws(),
                            settings.seed(),
                            Settings.CONFIDENCE))
            .toList();
    double[] adjusted =
        settings
            .correction()
            .adjusted(all.stream().mapToDouble(MachineRatio.Drawn::pValue).toArray());
    for (int i = 0; i < pairs.size(); i++) {
      comparisons.add(new Comparison(pairs.get(i), all.get(i), adjusted[i]));
    }
  }

  static void addTo(Result.Builder result, Records table, Settings settings, Progress progress) {
    progress.check(0.05, "rows");
    SampleRecords records = SampleRecords.of(table, settings);
    result.records(records.kept());
    SampleComparison study = new SampleComparison(records, settings, progress);
    study.answer().addTo(result);
    result.add(study.groupTable());
    result.add(study.differences());
    result.add(study.ranked());
    study.findings(result);
  }

  private static double sum(double[] of, int[] machines) {
    return Arrays.stream(machines).mapToDouble(m -> of[m]).sum();
  }

  private static Cell range(Interval i) {
    return Double.isNaN(i.lower()) ? new Cell.None() : new Cell.Range(i.lower(), i.upper());
  }

  /** Returns an interval of a share, in %, within 0 and 100. */
  private static Interval shares(Interval i) {
    return new Interval(
        Double.isNaN(i.lower()) ? Double.NaN : WHOLE * Math.max(0, i.lower()),
        Double.isNaN(i.upper()) ? Double.NaN : WHOLE * Math.min(1, i.upper()));
  }

  private Entry.Table groupTable() {
    Compliance c = records.hours();
    List<List<Cell>> rows = new ArrayList<>();
    for (Group g : groups) {
      double hours = sum(c.hoursH(), g.machines);
      double within = sum(c.withinH(), g.machines);
      double doubt = sum(c.undecidedH(), g.machines);
      rows.add(
          List.of(
              Cell.of(g.name),
              Cell.of(g.machines.length),
              Cell.of(Arrays.stream(g.machines).map(m -> c.samples()[m]).sum()),
              Cell.of(hours),
              Cell.of(WHOLE * within / hours),
              g.share == null ? new Cell.None() : range(shares(g.share.interval())),
              hours > 0
                  ? new Cell.Range(
                      WHOLE * (within - doubt / 2) / hours, WHOLE * (within + doubt / 2) / hours)
                  : new Cell.None()));
    }
    return new Entry.Table(
        "groups",
        "Groups",
        Entry.Use.READ,
        List.of(
            new Column("group", "Group", ""),
            new Column("machines", "Machines", "1"),
            new Column("samples", "Samples", "1"),
            new Column("sampled_h", "Hours between samples", "h"),
            new Column("within_pct", "Within the target", "%"),
            new Column("interval_pct", "95 %", "%"),
            new Column("whatever_pct", "Whatever went on between samples", "%")),
        rows);
  }

  private Entry.Table differences() {
    List<List<Cell>> rows = new ArrayList<>();
    for (Comparison c : comparisons) {
      Interval i = c.difference.interval();
      rows.add(
          List.of(
              Cell.of(groups.get(c.pair.first()).name),
              Cell.of(groups.get(c.pair.second()).name),
              Cell.of(WHOLE * c.difference.value()),
              range(new Interval(WHOLE * i.lower(), WHOLE * i.upper())),
              Cell.of(c.difference.pValue()),
              Cell.of(c.pAll)));
    }
    return new Entry.Table(
        "differences",
        "Difference of the shares of hours within the target",
        Entry.Use.READ,
        List.of(
            new Column("first", "Group", ""),
            new Column("second", "Less", ""),
            new Column("difference_pct", "Difference", "%"),
            new Column("interval_pct", "95 %", "%"),
            new Column("p", "p", "1"),
            new Column("pAdjusted", "p" + settings.corrected(), "1")),
        rows);
  }

  private Figure ranked() {
    List<Group> order = new ArrayList<>(groups.stream().filter(g -> g.share != null).toList());
    order.sort(Comparator.comparingDouble((Group g) -> g.share.value()).reversed());
    Rows rows = new Rows(false);
    double hours = 0;
    double within = 0;
    for (Group g : order) {
      rows.add(g.name, WHOLE * g.share.value(), shares(g.share.interval()));
      hours += sum(records.hours().hoursH(), g.machines);
      within += sum(records.hours().withinH(), g.machines);
    }
    return rows.figure(
        "ranked",
        "Groups by the share of hours within " + settings.target().orElseThrow(),
        "Groups whose intervals overlap may stand in any order.",
        Axis.linear("Hours within the target", "%"),
        settings.by(),
        new Layer.At("all", WHOLE * within / hours, Layer.Style.REFERENCE));
  }

  private Answer answer() {
    List<Comparison> told =
        comparisons.stream()
            .filter(c -> !Double.isNaN(c.pAll))
            .sorted(Comparator.comparingDouble(c -> c.difference.pValue()))
            .toList();
    if (told.isEmpty()) {
      return new Answer(
          "There is no comparison: groups need "
              + MachineRatio.FEWEST
              + " machines each, with two samples or more.",
          List.of());
    }
    Comparison clearest = told.get(0);
    int differ = (int) told.stream().filter(c -> c.pAll < Settings.LEVEL).count();
    List<Entry.Value> details = new ArrayList<>();
    int shown = Math.min(MOST_TOLD, told.size());
    for (int k = 0; k < shown; k++) {
      Comparison c = told.get(k);
      details.add(
          Answer.detail(
              "pair" + (k + 1),
              groups.get(c.pair.first()).name + ", " + groups.get(c.pair.second()).name,
              sentence(c)));
    }
    if (told.size() > shown) {
      details.add(
          Answer.detail(
              "others", "Others", "All " + told.size() + " pairs stand under differences."));
    }
    return new Answer(
        (differ > 0 ? sentence(clearest) : cannotTell(clearest, told.size()))
            + Answer.others(told.size(), differ),
        details);
  }

  /** Returns a short sentence on the clearest of pairs none of which differs. */
  private String cannotTell(Comparison c, int pairs) {
    Group a = groups.get(c.pair.first());
    Group b = groups.get(c.pair.second());
    Interval i = c.difference.interval();
    return "These data can't tell "
        + a.name
        + " from "
        + b.name
        + (pairs > 1 ? ", nor any other pair" : "")
        + ": "
        + Words.rough(new Interval(WHOLE * i.lower(), WHOLE * i.upper()))
        + " points of hours within the target are possible (95 %; "
        + Words.p(c.pAll)
        + Answer.among(comparisons.size())
        + ")"
        + Answer.moreHours(
            Distances.timesTheHours(c.difference.value() / c.difference.standardError()),
            sum(records.hours().hoursH(), a.machines) + sum(records.hours().hoursH(), b.machines),
            "sampled machine-hours")
        + ".";
  }

  private String sentence(Comparison c) {
    boolean more = c.difference.value() >= 0;
    Group better = groups.get(more ? c.pair.first() : c.pair.second());
    Group worse = groups.get(more ? c.pair.second() : c.pair.first());
    Interval i = c.difference.interval();
    Interval points =
        more
            ? new Interval(WHOLE * i.lower(), WHOLE * i.upper())
            : new Interval(-WHOLE * i.upper(), -WHOLE * i.lower());
    String how = Words.p(c.pAll) + (comparisons.size() > 1 ? settings.corrected() : "");
    if (c.pAll < Settings.LEVEL) {
      return better.name
          + " has its oil within "
          + settings.target().orElseThrow()
          + " for "
          + Words.rough(WHOLE * better.share.value())
          + " % of its hours, "
          + worse.name
          + " for "
          + Words.rough(WHOLE * worse.share.value())
          + " %: "
          + Words.rough(points)
          + " points more (95 %; "
          + how
          + "), or "
          + Words.rough(settings.hoursAYear() * Math.abs(c.difference.value()))
          + " h a year for each machine.";
    }
    double watched =
        sum(records.hours().hoursH(), better.machines)
            + sum(records.hours().hoursH(), worse.machines);
    double times = Distances.timesTheHours(c.difference.value() / c.difference.standardError());
    return "These data can't tell "
        + better.name
        + " from "
        + worse.name
        + ": "
        + Words.rough(points)
        + " points of hours within the target are possible (95 %; "
        + how
        + "). "
        + (times > Distances.MOST || times <= 1
            ? "No amount of hours worth waiting for would make a difference this small sure."
            : "If the difference is what it looks like, "
                + Words.rough((times - 1) * watched)
                + " more sampled machine-hours would show it in 8 of 10 such cases ("
                + Words.rough(watched)
                + " were sampled).");
  }

  private void findings(Result.Builder result) {
    Compliance c = records.hours();
    List<String> coarse = new ArrayList<>();
    long alone = Arrays.stream(c.hoursH()).filter(h -> h == 0).count();
    for (Group g : groups) {
      if (sum(c.undecidedH(), g.machines) > MUCH_IN_DOUBT * sum(c.hoursH(), g.machines)) {
        coarse.add(g.name);
      }
    }
    if (!coarse.isEmpty()) {
      result.finding(
          CAUTION,
          "In "
              + Words.list(coarse)
              + " more than a fifth of the hours lie between a sample within the target and one that"
              + " is not: sample more often, or read the last column of the groups.",
          "groups");
    }
    if (alone > 0) {
      result.finding(
          NOTE,
          Words.count(alone, "machine has", "machines have")
              + " a single sample, which stands for no hours.",
          "groups");
    }
    result.finding(
        NOTE,
        "The hours between two samples belong half to each; hours before the first and behind the"
            + " last sample of a machine are left out.",
        "groups");
  }
}
