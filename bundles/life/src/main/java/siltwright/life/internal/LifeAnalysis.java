package siltwright.life.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.ListParameter;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.life.LifeFamily;
import siltwright.life.records.LifeRecords;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Life of components from the user's own records. */
@Component
public final class LifeAnalysis implements Analysis {
  private static final String ALL = "all";
  private static final ChoiceParameter DISTRIBUTION =
      new ChoiceParameter(
          "distribution",
          List.of(ALL, "weibull", "lognormal", "exponential"),
          ALL,
          "law of life to fit; all of them come best first, by Akaike's criterion");
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
          "component", "a kind of component in the fleet file", "kind for --into");

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
          AT,
          BOOTSTRAP,
          SEED,
          INTO,
          COMPONENT);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    return LifeRecords.columns(settings(values).wanted());
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Settings settings = settings(values);
    if (values.find(INTO).isPresent() != values.find(COMPONENT).isPresent()) {
      throw fault("--into and --component", "one of them", "both or neither");
    }
    LifeRecords records = LifeRecords.of(context.records().orElseThrow(), settings.wanted());
    Study study = Study.of(records, settings, progress);
    Result.Builder result = Result.of(DESCRIPTION, records.kept().source(), values);
    result.records(records.kept());
    new LifeTables(study).addTo(result);
    progress.check(0.8, "figures");
    new LifeFigures(study).all().forEach(result::add);
    new LifeFindings(study).addTo(result);
    values
        .find(COMPONENT)
        .ifPresent(
            kind -> new LifeTransfer(study, context.fleet().orElseThrow(), kind).addTo(result));
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
    return new Settings(
        families,
        covariates,
        clean,
        values.find(MODE),
        shape,
        values.find(AT),
        values.get(BOOTSTRAP).intValue(),
        values.get(SEED));
  }

  private static InputException fault(String option, String found, String expected) {
    return new InputException(new Problem("option", option, found, expected));
  }
}
