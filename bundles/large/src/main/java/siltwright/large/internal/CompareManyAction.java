package siltwright.large.internal;

import java.util.ArrayList;
import java.util.List;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Action;
import siltwright.analysis.Cell;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.fleet.EventsInParts;
import siltwright.fleet.PoissonRates;
import siltwright.large.ManyEvents;
import siltwright.life.Interval;
import siltwright.life.SignificanceTest;
import siltwright.wide.BackEnd;

/** Groups of machines by events that do not fit in memory. */
@Component
@Capability(namespace = "siltwright.command", name = "compare-many")
public final class CompareManyAction implements Action {
  private static final double CONFIDENCE = 0.95;
  private static final NumberParameter AT =
      NumberParameter.optional(
          "at",
          "h",
          1e-3,
          1e7,
          "age at which mean numbers are compared; if not given, the greatest at which each group"
              + " has a fifth of its machines under watch");
  private static final Description DESCRIPTION =
      Settings.describe(
          "compare-many",
          "Very many machines side by side",
          "Do groups of machines differ in their events, by records that do not fit in memory?",
          Settings.BY_REQUIRED,
          AT,
          Settings.GRID);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public String file() {
    return "Events (Parquet, or a folder of such files), the rows of a machine together: columns"
        + " machine, hours, event, and entry_hours, cost as compare takes them.";
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    try (BackEnd backEnd = Settings.backEnd(values)) {
      return told(
          ManyEvents.of(
              Settings.source(file),
              values.get(Settings.BY_REQUIRED),
              values.get(Settings.GRID),
              values.find(AT).orElse(Double.NaN),
              Settings.together(values),
              backEnd,
              progress),
          values);
    }
  }

  private static Result told(ManyEvents many, Values values) {
    EventsInParts events = many.events();
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    result.rows(many.rows());
    result.value("at_h", "Age of the mean numbers", "h", events.atH());
    List<List<Cell>> rows = new ArrayList<>();
    for (String group : events.groups()) {
      EventsInParts.Sums sums = events.sums(group);
      double error = Math.sqrt(sums.rateVariance());
      rows.add(
          List.of(
              Cell.of(group),
              Cell.of(sums.machines()),
              Cell.of(sums.hoursH()),
              Cell.of(sums.events()),
              Cell.of(1000 * sums.ratePerH()),
              Cell.of(1000 * error),
              range(
                  PoissonRates.interval(Math.round(sums.events()), sums.hoursH(), CONFIDENCE),
                  1000),
              Cell.of(sums.dispersion()),
              Cell.of(events.mean(group)),
              Cell.of(Math.sqrt(events.meanVariance(group))),
              Cell.of(sums.marks() == 0 ? Double.NaN : sums.marks() / sums.hoursH())));
    }
    result.add(
        new Entry.Table(
            "groups",
            "Groups",
            Entry.Use.READ,
            List.of(
                new Entry.Column("group", "Group", ""),
                new Entry.Column("machines", "Machines", "1"),
                new Entry.Column("hours_h", "Watched", "h"),
                new Entry.Column("events", "Events", "1"),
                new Entry.Column("rate_per_1000h", "Rate", "1/1000 h"),
                new Entry.Column("rateError_per_1000h", "Its error by machines", "1/1000 h"),
                new Entry.Column(
                    "rateByChance_per_1000h", "95 % if events came by chance", "1/1000 h"),
                new Entry.Column("dispersion", "Spread of machines over chance", "1"),
                new Entry.Column("mean", "Mean number by the age", "1"),
                new Entry.Column("meanError", "Its error", "1"),
                new Entry.Column("cost_per_h", "Cost", "money/h")),
            rows));
    if (events.groups().size() > 1) {
      compared(result, events);
    }
    if (many.openEnded() > 0) {
      result.finding(
          Severity.CAUTION,
          many.openEnded()
              + " machines have no end of watching (event 0): it counts as ended at their last"
              + " event, and their rates come out too high if it went on.",
          "groups");
    }
    Settings.leftOut(result, many.rows(), "groups");
    return result.build();
  }

  private static void compared(Result.Builder result, EventsInParts events) {
    SignificanceTest test = events.alike();
    result.value("alikeChiSquare", "All groups alike: chi-square", "1", test.chiSquare());
    result.value("alikeDegreesOfFreedom", "Degrees of freedom", "1", test.degreesOfFreedom());
    result.value("alikePValue", "p-value", "1", test.pValue());
    List<List<Cell>> rows = new ArrayList<>();
    String reference = events.groups().get(0);
    for (String group : events.groups().subList(1, events.groups().size())) {
      if (events.sums(group).events() == 0 || events.sums(reference).events() == 0) {
        continue; // the exact interval of its rate says what there is to say
      }
      EventsInParts.Ratio ratio = events.ratio(group, reference, CONFIDENCE);
      rows.add(
          List.of(
              Cell.of(group),
              Cell.of(reference),
              Cell.of(ratio.ratio()),
              range(ratio.interval(), 1),
              Cell.of(ratio.pValue()),
              range(ratio.byChance().interval(), 1)));
    }
    result.add(
        new Entry.Table(
            "ratios",
            "Ratios of rates",
            Entry.Use.READ,
            List.of(
                new Entry.Column("group", "Group", ""),
                new Entry.Column("to", "To", ""),
                new Entry.Column("ratio", "Ratio", "1"),
                new Entry.Column("interval", "95 % by machines", "1"),
                new Entry.Column("pValue", "p-value", "1"),
                new Entry.Column("intervalByChance", "95 % if events came by chance", "1")),
            rows));
  }

  private static Cell range(Interval interval, double factor) {
    return new Cell.Range(factor * interval.lower(), factor * interval.upper());
  }
}
