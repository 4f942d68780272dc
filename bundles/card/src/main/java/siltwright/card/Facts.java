package siltwright.card;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import siltwright.analysis.Numbers;
import siltwright.analysis.Progress;
import siltwright.cleanliness.Iso4406;
import siltwright.interval.Option;
import siltwright.interval.Tuning;
import siltwright.interval.Tuning.CycleAnswer;
import siltwright.interval.Tuning.ProcedureAnswer;
import siltwright.model.ChangeProcedure;
import siltwright.model.DutyState;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.Site;
import siltwright.restart.SamplingPlan;

/**
 * The numbers of one machine that its card shows.
 *
 * @param machine the machine
 * @param site name of its site
 * @param way the procedure of the card
 * @param intervalH hours after which the element is changed, h
 * @param tuned whether that is the interval that costs least rather than today's
 * @param reason why there is none that costs least, where today's had to do; else empty
 * @param flatH shortest and longest interval within 5 % of the least cost, h
 * @param right the cycle at that interval; empty where it does not repeat itself
 * @param rightRatio equivalent filtration ratio of 14–21 µm(c)
 * @param other the procedure of the machine that sheds most, if it sheds more
 * @param samplesMin minutes after the restart at which to take oil, rising; empty where nothing
 *     takes the dirt out
 * @param next when the next change is due, where the hour meter is given
 */
public record Facts(
    Machine machine,
    String site,
    ChangeProcedure way,
    double intervalH,
    boolean tuned,
    String reason,
    Optional<double[]> flatH,
    Optional<CycleAnswer> right,
    double rightRatio,
    Optional<Other> other,
    List<Double> samplesMin,
    Next next) {
  /** Band whose filtration ratio a crew is told: 14–21 µm(c). */
  private static final int BAND = 2;

  private static final double HORIZON_H = 4000;

  /**
   * The same change done the other way.
   *
   * @param procedure the procedure
   * @param cycle the cycle at the same interval; empty where it does not repeat itself
   * @param ratio equivalent filtration ratio of 14–21 µm(c)
   */
  public record Other(ChangeProcedure procedure, Optional<CycleAnswer> cycle, double ratio) {}

  /**
   * The next change.
   *
   * @param meterH hour meter then, h
   * @param weeks weeks until then
   * @param date day of it
   */
  public record Next(OptionalDouble meterH, OptionalDouble weeks, Optional<LocalDate> date) {}

  /**
   * What is wanted of the hours.
   *
   * @param tuned the interval that costs least rather than today's
   * @param meterH hour meter at this change, h
   * @param useHPerWeek hours of operation a week
   * @param date day of this change
   */
  public record Hours(
      boolean tuned, OptionalDouble meterH, OptionalDouble useHPerWeek, Optional<LocalDate> date) {}

  /** Returns the procedure of a machine that sheds least. */
  public static ChangeProcedure cleanest(Machine machine) {
    return machine.procedures().stream().min(ChangeProcedure.CLEANEST_FIRST).orElseThrow();
  }

  /**
   * Computes the numbers.
   *
   * @param fleet the fleet, which names the site
   * @param machine the machine
   * @param way the procedure
   * @param hours what is wanted of the hours
   * @param progress told how far it is
   */
  public static Facts of(
      Fleet fleet, Machine machine, ChangeProcedure way, Hours hours, Progress progress) {
    List<ProcedureAnswer> answers = Tuning.procedures(machine, HORIZON_H, progress);
    ProcedureAnswer answer = answer(answers, way);
    boolean tuned = hours.tuned() && answer.best().interval().isPresent();
    double intervalH =
        tuned ? answer.best().interval().orElseThrow().hours() : machine.today().intervalH();
    Optional<CycleAnswer> right = tuned ? answer.atBest() : answer.atToday();
    Optional<Other> other =
        machine.procedures().stream()
            .max(ChangeProcedure.CLEANEST_FIRST)
            .filter(p -> p.backFlushShare() > way.backFlushShare())
            .map(
                p ->
                    new Other(
                        p,
                        Tuning.along(machine, Option.TODAY, p, intervalH).get(0),
                        answer(answers, p).equivalentBeta().get(BAND)));
    return new Facts(
        machine,
        fleet.sites().stream()
            .filter(s -> s.id().equals(machine.site()))
            .map(Site::name)
            .findFirst()
            .orElse(machine.site()),
        way,
        intervalH,
        tuned,
        hours.tuned() ? answer.best().reason() : "",
        tuned ? Optional.of(answer.best().interval().orElseThrow().within5pct()) : Optional.empty(),
        right,
        answer.equivalentBeta().get(BAND),
        other,
        Arrays.stream(SamplingPlan.minutes(machine)).boxed().toList(),
        next(intervalH, hours));
  }

  private static ProcedureAnswer answer(List<ProcedureAnswer> answers, ChangeProcedure way) {
    return answers.stream()
        .filter(a -> a.procedure().id().equals(way.id()))
        .findFirst()
        .orElseThrow();
  }

  private static Next next(double intervalH, Hours hours) {
    OptionalDouble weeks =
        hours.useHPerWeek().isPresent()
            ? OptionalDouble.of(intervalH / hours.useHPerWeek().getAsDouble())
            : OptionalDouble.empty();
    return new Next(
        hours.meterH().isPresent()
            ? OptionalDouble.of(hours.meterH().getAsDouble() + intervalH)
            : OptionalDouble.empty(),
        weeks,
        weeks.isPresent()
            ? hours.date().map(d -> d.plusDays(Math.round(7 * weeks.getAsDouble())))
            : Optional.empty());
  }

  /** Returns how many times as much the other way sheds; not a number where it is not known. */
  public double times() {
    return other
        .flatMap(Other::cycle)
        .filter(c -> right.isPresent() && right.get().releasedG() > 0)
        .map(c -> c.releasedG() / right.get().releasedG())
        .orElse(Double.NaN);
  }

  /** Returns the temperature of the hottest duty state, °C. */
  public double hottestDegC() {
    return machine.duty().stream().mapToDouble(DutyState::oilDegC).max().orElseThrow();
  }

  /**
   * Returns the values of placeholders as a card prints them.
   *
   * @param decimalMark what stands before decimals
   */
  Map<String, String> values(String decimalMark) {
    Values v = new Values(decimalMark);
    v.words("machine", machine.name());
    v.words("machineId", machine.id());
    v.words("site", site);
    v.words("procedure", way.name());
    v.number("interval_h", intervalH, "h");
    v.number("today_h", machine.today().intervalH(), "h");
    v.words("element", machine.returnFilter().element().name());
    v.words("elementId", machine.returnFilter().element().id());
    v.words("oil", machine.fluid().grade());
    v.number("volume_L", machine.reservoir().volumeL(), "L");
    v.number("hottest_degC", Math.rint(hottestDegC()), "");
    v.number("labour_h", way.labourH(), "h");
    v.number("oilLost_L", way.oilLostL(), "L");
    v.number("capacity_g", machine.returnFilter().element().capacityG(), "g");
    v.number("cracking_kPa", machine.returnFilter().bypassCrackingKPa(), "kPa");
    flatH.ifPresent(f -> v.words("flat_h", v.text(f[0], "h") + "–" + v.text(f[1], "h")));
    machine.limits().makerMaximumH().ifPresent(h -> v.number("maker_h", h, "h"));
    machine.returnFilter().indicatorKPa().ifPresent(p -> v.number("indicator_kPa", p, "kPa"));
    if (machine.returnFilter().indicatorKPa().isPresent()) {
      v.words("indicatorState", machine.returnFilter().indicatorState());
    }
    right.ifPresent(
        c -> {
          v.number("retained_g", rounded(c.retainedG()), "g");
          v.number("right_g", rounded(c.releasedG()), "g");
          v.words("rightCode", Iso4406.code(c.startPerMl()).toString());
        });
    v.number("rightRatio", rounded(rightRatio), "");
    other.ifPresent(
        o -> {
          v.words("wrong", o.procedure().name());
          v.number("wrongRatio", rounded(o.ratio()), "");
          o.cycle()
              .ifPresent(
                  c -> {
                    v.number("wrong_g", rounded(c.releasedG()), "g");
                    v.words("wrongCode", Iso4406.code(c.startPerMl()).toString());
                  });
        });
    if (Double.isFinite(times())) {
      v.number("times", Math.rint(times()), "");
    }
    for (int i = 0; i < samplesMin.size(); i++) {
      v.number("sample" + (i + 1) + "_min", Math.ceil(samplesMin.get(i)), "min");
    }
    next.meterH()
        .ifPresent(
            h -> {
              v.number("meter_h", Math.rint(h - intervalH), "");
              v.number("next_h", Math.rint(h), "");
            });
    next.weeks().ifPresent(w -> v.number("nextWeeks", Math.rint(w), ""));
    next.date().ifPresent(d -> v.words("nextDate", d.toString()));
    return v.byName;
  }

  /** Three significant digits: no crew reads more. */
  private static double rounded(double value) {
    if (value == 0 || !Double.isFinite(value)) {
      return value;
    }
    double unit = Math.pow(10, Math.floor(Math.log10(Math.abs(value))) - 2);
    return unit < 1
        ? Math.rint(value / unit) / Math.rint(1 / unit)
        : Math.rint(value / unit) * unit;
  }

  private static final class Values {
    final Map<String, String> byName = new TreeMap<>();
    private final String decimalMark;

    Values(String decimalMark) {
      this.decimalMark = decimalMark;
    }

    String text(double value, String unit) {
      return Numbers.grouped(Numbers.text(value, unit)).replace(".", decimalMark);
    }

    void number(String name, double value, String unit) {
      byName.put(name, text(value, unit));
    }

    void words(String name, String text) {
      byName.put(name, text);
    }
  }
}
