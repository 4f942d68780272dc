package siltwright.interval.internal;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.Numbers;
import siltwright.analysis.Result;
import siltwright.interval.Best;
import siltwright.interval.Option;
import siltwright.interval.Tuning;
import siltwright.interval.Tuning.CycleAnswer;
import siltwright.interval.Tuning.OptionAnswer;
import siltwright.interval.Tuning.ProcedureAnswer;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** What the user should know of a tuning, in sentences. */
final class TuneFindings {
  /** A band in which most harm is done and that every code counts: 6–14 µm(c). */
  private static final int TELLING_BAND = 1;

  private static final double NOTICED = 0.02;

  private final Tuning tuning;
  private final Machine machine;
  private final String moneyPerH;

  TuneFindings(Tuning tuning, String currency) {
    this.tuning = tuning;
    machine = tuning.machine();
    moneyPerH = currency + "/h";
  }

  void addTo(Result.Builder result) {
    tuning
        .recommended()
        .ifPresentOrElse(
            r -> recommended(r, result),
            () ->
                result.finding(
                    Severity.WARNING,
                    "No interval can be recommended: "
                        + tuning.procedures().get(0).best().reason()
                        + ".",
                    "limits"));
    shortcut(result);
    bypass(result);
    if (tuning.today().isEmpty()) {
      result.finding(
          Severity.WARNING,
          String.format(
              Locale.ROOT,
              "Today's interval of %s h has no steady course: more dirt comes in than the element can"
                  + " hold.",
              hours(machine.today().intervalH())),
          "today/interval_h");
    }
    result.finding(
        Severity.NOTE,
        "The machine maker's manual, local codes and licensed practice come first; a longer interval"
            + " than the maker's is the maker's to allow.",
        "");
  }

  private void recommended(OptionAnswer r, Result.Builder result) {
    Best.Interval best = r.best().interval().orElseThrow();
    Optional<Double> today = tuning.today().map(t -> t.split().total());
    if (today.isPresent() && today.get() - best.costPerH() > NOTICED * best.costPerH()) {
      result.finding(
          Severity.CAUTION,
          String.format(
              Locale.ROOT,
              "Today's way costs %s; %s every %s h%s costs %s.",
              money(today.get()),
              r.procedure().id(),
              hours(best.hours()),
              fitting(r.option()),
              money(best.costPerH())),
          "today");
    }
    for (Best.Limit limit : r.best().limits()) {
      if (limit.binds()) {
        result.finding(
            Severity.NOTE,
            r.best()
                .free()
                .map(
                    f ->
                        String.format(
                            Locale.ROOT,
                            "The %s holds the interval at %s h; without it %s h would cost %s less.",
                            limit.name(),
                            hours(Math.floor(limit.longestH())),
                            hours(f.hours()),
                            money(best.costPerH() - f.costPerH())))
                .orElse("The " + limit.name() + " ends the interval; the cost still falls there."),
            "limits");
      }
    }
    tuning
        .spread()
        .filter(s -> s.regretOfRecommendedPerH() > NOTICED * best.costPerH())
        .ifPresent(
            s ->
                result.finding(
                    Severity.CAUTION,
                    String.format(
                        Locale.ROOT,
                        "The numbers of this machine leave the best interval between %s and %s h;"
                            + " %s h risks least.",
                        hours(s.bestH()[0]),
                        hours(s.bestH()[2]),
                        hours(s.leastRegretH())),
                    "uncertainty"));
    policy(result);
  }

  /** Says where another way to decide when is expected to cost less than fixed hours. */
  private void policy(Result.Builder result) {
    double fixed = tuning.policies().get(0).expectedPerH();
    tuning.policies().stream()
        .filter(p -> p.expectedPerH() < (1 - NOTICED) * fixed)
        .min(Comparator.comparingDouble(Tuning.PolicyAnswer::expectedPerH))
        .ifPresent(
            p ->
                result.finding(
                    Severity.NOTE,
                    String.format(
                        Locale.ROOT,
                        "As uncertain as the numbers are, changing by %s is expected to cost %s,"
                            + " fixed hours %s.",
                        p.policy().words(),
                        money(p.expectedPerH()),
                        money(fixed)),
                    "policies"));
  }

  /** What is newly fitted, in words; empty where all stays as it is. */
  private static String fitting(Option option) {
    List<String> fitted = new ArrayList<>();
    option.element().ifPresent(e -> fitted.add("element " + e.id()));
    option.breather().ifPresent(b -> fitted.add("breather " + b.id()));
    option.offlineFilter().ifPresent(o -> fitted.add("offline filter " + o.id()));
    return fitted.isEmpty() ? "" : " with " + String.join(", ", fitted);
  }

  private String money(double perH) {
    return Numbers.text(perH, moneyPerH) + " " + moneyPerH;
  }

  private static String hours(double hours) {
    return Numbers.text(Math.rint(hours), "h");
  }

  private void shortcut(Result.Builder result) {
    ProcedureAnswer cleanest = null;
    ProcedureAnswer dirtiest = null;
    for (ProcedureAnswer p : tuning.procedures()) {
      double share = p.procedure().backFlushShare();
      if (cleanest == null || share < cleanest.procedure().backFlushShare()) {
        cleanest = p;
      }
      if (dirtiest == null || share > dirtiest.procedure().backFlushShare()) {
        dirtiest = p;
      }
    }
    if (cleanest == dirtiest || cleanest == null) {
      return;
    }
    result.finding(
        Severity.NOTE,
        String.format(
            Locale.ROOT,
            "Against particles of %s µm(c) the element works as filtration ratio %s with %s and as %s"
                + " with %s.",
            SizeBands.label(TELLING_BAND).replace('-', '–'),
            Numbers.text(cleanest.equivalentBeta().get(TELLING_BAND)),
            cleanest.procedure().id(),
            Numbers.text(dirtiest.equivalentBeta().get(TELLING_BAND)),
            dirtiest.procedure().id()),
        "procedures");
  }

  private void bypass(Result.Builder result) {
    tuning
        .recommended()
        .flatMap(
            r ->
                Tuning.along(
                        machine,
                        r.option(),
                        r.procedure(),
                        r.best().interval().orElseThrow().hours())
                    .get(0))
        .ifPresent(c -> bypass(c, result));
  }

  private void bypass(CycleAnswer c, Result.Builder result) {
    List<String> states = new ArrayList<>();
    for (int k = 0; k < c.bypassShare().length; k++) {
      if (c.bypassShare()[k] > NOTICED) {
        states.add(
            String.format(
                Locale.ROOT,
                "%.0f %% in state %s (%s °C)",
                100 * c.bypassShare()[k],
                machine.duty().get(k).id(),
                Numbers.text(machine.duty().get(k).oilDegC())));
      }
    }
    if (!states.isEmpty()) {
      result.finding(
          Severity.CAUTION,
          "Before the change a part of the flow passes the element by: "
              + String.join(", ", states)
              + ".",
          "duty");
    }
  }
}
