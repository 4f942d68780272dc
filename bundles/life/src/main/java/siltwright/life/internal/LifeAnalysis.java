package siltwright.life.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.FlagParameter;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.ListParameter;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Parameter;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.RecordsParameter;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.life.LifeFamily;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Life of components from the user's own records. */
@Component
@Capability(namespace = "siltwright.command", name = "life")
public final class LifeAnalysis implements Analysis {
  private static final String ALL = "all";
  private static final String NONE = "none";
  private static final ChoiceParameter DISTRIBUTION =
      new ChoiceParameter(
          "distribution",
          List.of(ALL, "weibull", "lognormal", "exponential", NONE),
          ALL,
          "law of life to fit; all of them come best first, by Akaike's criterion; none tells"
              + " survival without a law alone");
  private static final ListParameter COVARIATE =
      new ListParameter(
          "covariate",
          "the name of a column",
          "column, of numbers or of words, whose effect on life is estimated");
  private static final TextParameter CLEAN =
      TextParameter.optional(
          "clean-column",
          "the name of a column",
          "column with the oil's cleanliness, as a code such as 18/16/13 (its number at 6 µm(c)"
              + " counts) or as one number of the code; a covariate as well");
  private static final TextParameter MODE =
      TextParameter.optional(
          "mode",
          "a word of the column mode",
          "failure mode to study: failures of other modes count as taken out");
  private static final NumberParameter SHAPE =
      NumberParameter.optional(
          "shape", "1", 0.05, 50, "Weibull shape taken as known; only the scale is then estimated");
  private static final FlagParameter FAILURE_FREE =
      new FlagParameter(
          "failure-free", "fits a Weibull whose failures begin after a failure-free time as well");
  private static final NumberParameter AT =
      NumberParameter.optional("at", "h", 1e-3, 1e7, "age at which reliability is wanted");
  private static final WholeParameter BOOTSTRAP =
      new WholeParameter("bootstrap", 0, 100_000, 0, "draws of a bootstrap; 0 leaves it out");
  private static final WholeParameter SEED =
      new WholeParameter("seed", 0, Long.MAX_VALUE, 1, "seed of the draws: same seed, same result");
  private static final FleetFileParameter INTO =
      new FleetFileParameter(
          "into",
          "fleet file to write the life into, for every component of the kind that --component"
              + " names; the rest of the file stays as it is");
  private static final TextParameter COMPONENT =
      TextParameter.optional(
          "component",
          "a kind of component in the fleet file",
          "kind for --into, and for the relative wear of --history");
  private static final RecordsParameter HISTORY =
      new RecordsParameter(
          "history",
          Histories.COLUMNS,
          "table of what each component lived through, piece by piece; lives are then told on the"
              + " exposure clock, in hours at the reference cleanliness");
  private static final FleetFileParameter FLEET =
      new FleetFileParameter(
          "fleet",
          "fleet file whose machine models tell the relative wear of --history; it stays as it is");
  private static final NumberParameter CONFIDENCE =
      NumberParameter.of(
          "confidence", "1", 0.5, 0.999, 0.95, "confidence of lower bounds and of --demonstrate");
  private static final NumberParameter DEMONSTRATE =
      NumberParameter.optional(
          "demonstrate",
          "h",
          1e-3,
          1e7,
          "B10 life to be shown: tells how many components must run how long, with how few failures");

  private static final Description DESCRIPTION =
      Description.of(
          "life",
          "Component life",
          "Tells from your records how long components last, how sure that is, and what changes it.",
          Scope.RECORDS,
          DISTRIBUTION,
          COVARIATE,
          CLEAN,
          MODE,
          SHAPE,
          FAILURE_FREE,
          AT,
          BOOTSTRAP,
          SEED,
          CONFIDENCE,
          DEMONSTRATE,
          HISTORY,
          INTO,
          FLEET,
          COMPONENT);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    return LifeRecords.columns(settings(values));
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Settings settings = settings(values);
    boolean into = values.find(INTO).isPresent();
    boolean fleet = values.find(FLEET).isPresent();
    Optional<String> kind = values.find(COMPONENT);
    if (into && fleet) {
      throw fault("--fleet", "--into beside it", "one of them: --into tells the models too");
    }
    if (fleet && !settings.histories()) {
      throw fault("--fleet", "no --history", "both or neither");
    }
    if ((into || fleet) != kind.isPresent()) {
      throw fault("--into or --fleet, and --component", "one of them", "both or neither");
    }
    Optional<Histories> histories =
        Optional.ofNullable(context.tables().get(HISTORY.name()))
            .map(table -> Histories.of(table, context.fleet(), kind));
    LifeRecords records = LifeRecords.of(context.records().orElseThrow(), settings, histories);
    Study study = Study.of(records, settings, progress);
    Result.Builder result = Result.of(DESCRIPTION, records.kept().source(), values);
    result.records(records.kept());
    new LifeTables(study).addTo(result);
    result.figures(new LifeFigures(study)::all);
    new LifeFindings(study).addTo(result);
    values.find(DEMONSTRATE).ifPresent(b10 -> new Demonstration(study, b10).addTo(result));
    histories.ifPresent(h -> LifeFindings.onExposure(h, result));
    if (into) {
      new LifeTransfer(study, context.fleet().orElseThrow(), kind.orElseThrow()).addTo(result);
    }
    return result.build();
  }

  private static Settings settings(Values values) {
    String law = values.get(DISTRIBUTION);
    List<LifeFamily> families = new ArrayList<>();
    for (LifeFamily f : LifeFamily.values()) {
      if (law.equals(ALL) || law.equals(Laws.word(f))) {
        families.add(f);
      }
    }
    if (law.equals(NONE)) {
      for (Parameter<?> p : List.of(COVARIATE, CLEAN, SHAPE, INTO)) {
        if (values.find(p).isPresent()) {
          throw fault("--" + p.name(), "--distribution none", "a law beside it");
        }
      }
    }
    Optional<Double> shape = values.find(SHAPE);
    List<String> covariates = new ArrayList<>(values.find(COVARIATE).orElse(List.of()));
    Optional<String> clean = values.find(CLEAN);
    clean.filter(c -> !covariates.contains(c)).ifPresent(covariates::add);
    if (shape.isPresent()) {
      if (!families.contains(LifeFamily.WEIBULL)) {
        throw fault("--shape", "--distribution " + law, "a Weibull law, which alone has a shape");
      }
      if (!covariates.isEmpty()) {
        throw fault("--shape", "covariates beside it", "one of the two");
      }
      families.removeIf(f -> f != LifeFamily.WEIBULL);
    }
    boolean histories = values.find(HISTORY).isPresent();
    if (histories && clean.isPresent()) {
      throw fault(
          "--history", "--clean-column beside it", "one of them: both tell what the oil did");
    }
    return new Settings(
        families,
        covariates,
        clean,
        values.find(MODE),
        shape,
        values.get(FAILURE_FREE),
        histories,
        values.get(CONFIDENCE),
        values.find(AT),
        values.get(BOOTSTRAP).intValue(),
        values.get(SEED));
  }

  private static InputException fault(String option, String found, String expected) {
    return new InputException(new Problem("option", option, found, expected));
  }
}
