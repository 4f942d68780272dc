package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.ListParameter;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.fleet.Multiplicity;
import siltwright.model.CleanlinessCode;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Fleets side by side, from the user's own records. */
@Component
@Capability(namespace = "siltwright.command", name = "compare")
public final class CompareAnalysis implements Analysis {
  private static final String COLUMN = "the name of a column";
  private static final TextParameter BY =
      TextParameter.required(
          "by",
          COLUMN,
          "column whose values are the groups to compare; selection for those of --selections");
  private static final ChoiceParameter RECORDS =
      new ChoiceParameter(
          "records",
          List.of("as-found", "events", "lives", "samples"),
          "as-found",
          "what a row is: an event of a machine or the end of watching it, a component's life, or an"
              + " oil sample; as found: samples with --target, events where a machine has several"
              + " rows and no column component tells that they are lives, else lives");
  private static final ListParameter CUT =
      new ListParameter(
          "cut", "a number", "numbers at which a column of numbers is cut into groups");
  private static final TextParameter REFERENCE =
      TextParameter.optional(
          "reference",
          "one of the groups",
          "group that each other one is compared with; without it each with each");
  private static final ListParameter ADJUST =
      new ListParameter(
          "adjust",
          COLUMN,
          "column to allow for, such as age, class, duty or climate, of numbers or of words");
  private static final TextParameter STRATUM =
      TextParameter.optional(
          "stratum", COLUMN, "column within whose values alone groups are compared");
  private static final NumberParameter AT =
      NumberParameter.optional(
          "at",
          "h",
          1e-3,
          1e7,
          "age at which the mean numbers of events are compared; without it the greatest at which"
              + " every group still has enough machines");
  private static final ChoiceParameter CORRECT =
      new ChoiceParameter(
          "correct",
          List.of("holm", "false-share", "none"),
          "holm",
          "how p-values of several comparisons are told: Holm's, which bounds the chance of any"
              + " false alarm, Benjamini's and Hochberg's, which bounds their share, or as they are");
  private static final NumberParameter WEIGHT =
      NumberParameter.of(
          "weight",
          "1",
          0,
          5,
          0,
          "power of the share surviving by which the log-rank test weighs a failure: 0 all alike, 1"
              + " early ones more");
  private static final TextParameter CLEAN =
      TextParameter.optional(
          "clean-column",
          COLUMN,
          "column with the oil's cleanliness, as a code such as 18/16/13, for --target");
  private static final TextParameter TARGET =
      TextParameter.optional(
          "target",
          "a code such as 18/16/13",
          "cleanliness that oil samples are held against: share of operating hours within it");
  private static final TextParameter INTERVENTION =
      TextParameter.optional(
          "intervention",
          "the name of a column, or a date such as 2026-03-31",
          "column with the hour of a machine at which something was changed on it, empty where"
              + " nothing was, or the date on which it was on all: what the change did, the machine"
              + " as its own control");
  private static final NumberParameter HOURS_A_YEAR =
      NumberParameter.of(
          "hours-a-year", "h", 1, 8784, 3000, "hours that a machine works in a year");
  private static final NumberParameter EVENT_COST =
      NumberParameter.optional(
          "event-cost", "money", 0, 1e12, "cost of an event or a failure, without a column cost");
  private static final TextParameter CURRENCY =
      TextParameter.optional(
          "currency", "three capitals of ISO 4217", "currency of the costs, for display");
  private static final WholeParameter DRAWS =
      new WholeParameter(
          "draws", 199, 100_000, 1999, "draws of machines for intervals of costs and shares");
  private static final WholeParameter SEED =
      new WholeParameter("seed", 0, Long.MAX_VALUE, 1, "seed of the draws: same seed, same result");

  private static final Description DESCRIPTION =
      Description.of(
          "compare",
          "Fleets side by side",
          "Tells from your records whether groups of machines differ, by how much, how sure that is"
              + " and what it is worth.",
          Scope.RECORDS,
          BY,
          Selections.PARAMETER,
          RECORDS,
          CUT,
          REFERENCE,
          ADJUST,
          STRATUM,
          AT,
          CORRECT,
          WEIGHT,
          CLEAN,
          TARGET,
          INTERVENTION,
          HOURS_A_YEAR,
          EVENT_COST,
          CURRENCY,
          DRAWS,
          SEED);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    return Columns.of(settings(values));
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Settings settings = settings(values);
    Optional<Selections> selections =
        Optional.ofNullable(context.tables().get(Selections.PARAMETER.name()))
            .map(s -> Selections.join(context.records().orElseThrow(), s));
    Records table = selections.map(Selections::table).orElseGet(context.records()::orElseThrow);
    Result.Builder result = Result.of(DESCRIPTION, table.source(), values);
    switch (Columns.kind(table, settings)) {
      case EVENTS -> EventComparison.addTo(result, table, settings, progress);
      case LIVES -> LifeComparison.addTo(result, table, settings, progress);
      case SAMPLES -> SampleComparison.addTo(result, table, settings, progress);
    }
    selections.ifPresent(s -> s.findings(result));
    return result.build();
  }

  private static Settings settings(Values values) {
    String kind = values.get(RECORDS);
    List<Double> cuts = new ArrayList<>();
    for (String cut : values.find(CUT).orElse(List.of())) {
      cuts.add(number(cut));
    }
    cuts.sort(null);
    Optional<CleanlinessCode> target = values.find(TARGET).map(CompareAnalysis::code);
    Optional<String> currency = values.find(CURRENCY);
    if (currency.isPresent() && !currency.get().matches("[A-Z]{3}")) {
      throw fault("--currency", currency.get(), CURRENCY.form());
    }
    Settings settings =
        new Settings(
            values.get(BY),
            values.find(Selections.PARAMETER),
            kind.equals("as-found")
                ? Optional.empty()
                : Optional.of(Settings.Kind.valueOf(kind.toUpperCase(Locale.ROOT))),
            cuts,
            values.find(REFERENCE),
            values.find(ADJUST).orElse(List.of()),
            values.find(STRATUM),
            values.find(AT),
            switch (values.get(CORRECT)) {
              case "holm" -> Multiplicity.HOLM;
              case "false-share" -> Multiplicity.FALSE_SHARE;
              default -> Multiplicity.NONE;
            },
            values.get(WEIGHT),
            values.find(CLEAN),
            target,
            values.find(INTERVENTION),
            values.get(HOURS_A_YEAR),
            values.find(EVENT_COST),
            currency.orElse("money"),
            values.get(DRAWS).intValue(),
            values.get(SEED));
    Columns.check(settings);
    return settings;
  }

  private static CleanlinessCode code(String text) {
    try {
      return CleanlinessCode.parse(text);
    } catch (IllegalArgumentException e) {
      throw fault("--target", text, e.getMessage());
    }
  }

  private static double number(String text) {
    try {
      double v = Double.parseDouble(text);
      if (Double.isFinite(v)) {
        return v;
      }
    } catch (NumberFormatException e) {
      // told below
    }
    throw fault("--cut", text, "numbers with commas between them");
  }

  static InputException fault(String option, String found, String expected) {
    return new InputException(new Problem("option", option, found, expected));
  }
}
