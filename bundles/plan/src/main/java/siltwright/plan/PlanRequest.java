package siltwright.plan;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.ListParameter;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Parameter;
import siltwright.analysis.RecordsParameter;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** What a plan is asked for with. */
public final class PlanRequest {
  static final String TODAY = "today";
  private static final String DAY_FORM = "a day such as 2026-03-02";

  /** Hour meters. */
  public static final RecordsParameter METERS =
      new RecordsParameter(
          "meters",
          MeterTable.COLUMNS,
          "hour-meter readings: machine, date, meter_h and, where it applies, event (change or"
              + " new-meter); without them every machine is used as --use says");

  /** Sites. */
  public static final RecordsParameter SITES =
      new RecordsParameter(
          "sites",
          SiteTable.COLUMNS,
          "driving: site, travel_h (there and back) and, where sites share a road, area, shared_h;"
              + " also trip_money");

  /** Intervals. */
  public static final RecordsParameter INTERVALS =
      new RecordsParameter(
          "intervals",
          IntervalTable.COLUMNS,
          "best intervals known already, which are then not tuned: machine, best_h, low_h, high_h"
              + " (within 5 %), costPerHour and, where it applies, limit_h");

  /** Stock. */
  public static final RecordsParameter STOCK =
      new RecordsParameter(
          "stock", StockTable.COLUMNS, "elements in store: element, on_hand and lead_days");

  /** First day. */
  public static final TextParameter FROM =
      TextParameter.optional(
          "from", DAY_FORM, "first day of the plan; the day after the newest reading if left out");

  /** Length. */
  public static final WholeParameter DAYS =
      new WholeParameter("days", 1, 1100, 365, "days that the plan covers");

  /** Days worked. */
  public static final ChoiceParameter WEEK =
      new ChoiceParameter(
          "week", List.of("mon-fri", "mon-sat", "mon-sun"), "mon-fri", "days that are worked");

  /** Holidays. */
  public static final ListParameter CLOSED =
      new ListParameter("closed", DAY_FORM, "days that are not worked all the same");

  /** Technicians. */
  public static final WholeParameter TECHNICIANS =
      new WholeParameter("technicians", 1, 1000, 2, "technicians who work on the same day");

  /** Day. */
  public static final NumberParameter DAY_HOURS =
      NumberParameter.of(
          "day-hours", "h", 2, 24, 8, "hours a technician works a day, driving included");

  /** Driving where no table says. */
  public static final NumberParameter TRAVEL =
      NumberParameter.of(
          "travel", "h", 0, 20, 1.5, "driving there and back to a site that --sites does not name");

  /** Overtime. */
  public static final NumberParameter OVERTIME =
      NumberParameter.of(
          "overtime",
          "1",
          0,
          1000,
          1,
          "what an hour beyond the technicians' day costs more, as a multiple of the wage");

  /** Procedure. */
  public static final ChoiceParameter PROCEDURE =
      new ChoiceParameter(
          "procedure",
          List.of("cheapest", TODAY),
          "cheapest",
          "way of changing: the one that costs least with what is fitted, or today's");

  /** Use without readings. */
  public static final NumberParameter USE =
      NumberParameter.of(
          "use", "h/day", 0.01, 24, 8, "hours of operation a day where no readings tell");

  /** Sureness. */
  public static final NumberParameter SURENESS =
      NumberParameter.of(
          "sureness",
          "1",
          0.5,
          0.999,
          0.9,
          "probability with which a change comes before the end of its flat range");

  /** Lead time. */
  public static final WholeParameter LEAD =
      new WholeParameter("lead", 1, 365, 30, "days from ordering an element to having it");

  /** Service level. */
  public static final NumberParameter SERVICE =
      NumberParameter.of(
          "service", "1", 0.5, 0.9999, 0.95, "probability with which the stock should suffice");

  /** Unplanned changes. */
  public static final NumberParameter UNPLANNED =
      NumberParameter.of(
          "unplanned",
          "per 1000 h",
          0,
          100,
          0,
          "elements used besides, per 1000 h of operation, such as after a failure");

  /** How far to look for an interval. */
  public static final NumberParameter HORIZON =
      NumberParameter.of(
          "horizon", "h", 100, 64_000, 4000, "how far to look for the best interval at first");

  /** Effort. */
  public static final WholeParameter ROUNDS =
      new WholeParameter(
          "rounds", 0, 1000, 8, "how often each machine's visits are rearranged, on average");

  /** Seed. */
  public static final WholeParameter SEED =
      new WholeParameter("seed", 0, Long.MAX_VALUE, 1, "seed of the search: same seed, same plan");

  private PlanRequest() {}

  /** Returns the parameters in the order shown. */
  public static Parameter<?>[] parameters() {
    return new Parameter<?>[] {
      METERS,
      SITES,
      INTERVALS,
      STOCK,
      FROM,
      DAYS,
      WEEK,
      CLOSED,
      TECHNICIANS,
      DAY_HOURS,
      TRAVEL,
      OVERTIME,
      PROCEDURE,
      USE,
      SURENESS,
      LEAD,
      SERVICE,
      UNPLANNED,
      HORIZON,
      ROUNDS,
      SEED
    };
  }

  static WorkDays workDays(Values values, Optional<LocalDate> newest) {
    LocalDate from =
        values
            .find(FROM)
            .map(text -> day("--" + FROM.name(), text))
            .or(() -> newest.map(d -> d.plusDays(1)))
            .orElseThrow(
                () ->
                    new InputException(
                        new Problem(
                            "option",
                            "--" + FROM.name(),
                            "",
                            DAY_FORM + ", or readings of --meters")));
    if (newest.isPresent() && newest.get().isAfter(from)) {
      throw new InputException(
          new Problem(
              "option",
              "--" + FROM.name(),
              from.toString(),
              "a day not before the newest reading, " + newest.get()));
    }
    Set<LocalDate> closed = new HashSet<>();
    for (String text : values.find(CLOSED).orElse(List.of())) {
      closed.add(day("--" + CLOSED.name(), text));
    }
    WorkDays.Week week = WorkDays.Week.values()[WEEK.choices().indexOf(values.get(WEEK))];
    WorkDays days = WorkDays.of(from, values.get(DAYS).intValue(), week, closed);
    if (days.count() == 0) {
      throw new InputException(
          new Problem(
              "option",
              "--" + DAYS.name(),
              values.get(DAYS).toString(),
              "so many that one of them is worked, from "
                  + from
                  + " ("
                  + name(from.getDayOfWeek())
                  + ") on"));
    }
    return days;
  }

  private static String name(DayOfWeek day) {
    return day.name().charAt(0) + day.name().substring(1).toLowerCase(Locale.ROOT);
  }

  private static LocalDate day(String option, String text) {
    try {
      return LocalDate.parse(text);
    } catch (DateTimeParseException e) {
      throw new InputException(new Problem("option", option, text, DAY_FORM));
    }
  }

  static InputException fault(Parameter<?> parameter, Values values, String expected) {
    return new InputException(
        new Problem(
            "option",
            "--" + parameter.name(),
            values.find(parameter).map(Object::toString).orElse(""),
            expected));
  }
}
