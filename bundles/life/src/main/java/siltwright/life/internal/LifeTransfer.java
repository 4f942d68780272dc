package siltwright.life.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import siltwright.analysis.Result;
import siltwright.life.AftFit;
import siltwright.life.Covariate;
import siltwright.life.LifeFamily;
import siltwright.life.LifeFit;
import siltwright.model.Component;
import siltwright.model.Distribution;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.MachineParameter;
import siltwright.model.Problem;
import siltwright.model.Revision;
import siltwright.model.Uncertainty;

/**
 * The life of a study as numbers of the machine model, for every component of a kind.
 *
 * <p>The model's life is a Weibull at the component's reference code. With cleanliness among the
 * covariates, ln scale is that of the regression at the reference code's number at 6 µm(c), other
 * covariates at typical values, and the exponent m = -b/ln 2. The joint uncertainty is the
 * covariance of the logarithms (delta method):
 *
 * <pre>
 *   ln shape = -ln sigma      ln scale = x'b      ln m = ln(-b) + constant, d ln m/db = 1/b
 * </pre>
 */
final class LifeTransfer {
  private static final double Z = 1.959963984540054;

  private final Study study;
  private final Fleet fleet;
  private final String kind;

  LifeTransfer(Study study, Fleet fleet, String kind) {
    this.study = study;
    this.fleet = fleet;
    this.kind = kind;
  }

  /** Numbers by name, with the covariance of the logarithms of the first of them. */
  private record Life(Map<String, Double> numbers, List<String> uncertain, double[][] covariance) {}

  void addTo(Result.Builder result) {
    int written = 0;
    TreeSet<String> kinds = new TreeSet<>();
    Life last = null;
    for (Machine m : fleet.machines()) {
      for (Component c : m.components()) {
        kinds.add(c.kind());
        if (c.kind().equals(kind)) {
          if (c.life().survival().weibullShape().isEmpty()) {
            throw new InputException(
                new Problem(
                    "machine " + m.id(),
                    "component " + c.id(),
                    "lifeLaw " + c.life().law().orElseThrow().law(),
                    "a component of Weibull life, which is what --into gives"));
          }
          last = life(c);
          result.add(revision(m, c, last));
          written++;
        }
      }
    }
    if (last == null) {
      throw new InputException(
          new Problem("option", "--component", kind, "one of " + String.join(", ", kinds)));
    }
    findings(result, written, last);
  }

  private Life life(Component c) {
    Optional<AftFit> regression = study.regression(LifeFamily.WEIBULL);
    if (regression.isPresent()) {
      return of(regression.get(), c);
    }
    if (!study.settings.covariates().isEmpty()) {
      throw none("a Weibull regression on these covariates, which the records do not carry");
    }
    LifeFit fit =
        study
            .fit(LifeFamily.WEIBULL)
            .orElseThrow(
                () ->
                    none(
                        "a Weibull fit, which the records do not carry or --distribution excludes"));
    double[][] v = fit.covarianceLogScaleLogShape();
    Map<String, Double> numbers = new LinkedHashMap<>();
    numbers.put("life/shape", fit.shape());
    numbers.put("life/scale_h", fit.scaleH());
    return v.length == 1
        ? new Life(numbers, List.of("life/scale_h"), v)
        : new Life(
            numbers,
            List.of("life/shape", "life/scale_h"),
            new double[][] {{v[1][1], v[0][1]}, {v[0][1], v[0][0]}});
  }

  private static InputException none(String expected) {
    return new InputException(new Problem("option", "--into", "", expected));
  }

  private Life of(AftFit fit, Component c) {
    double[] b = fit.coefficients();
    int p = b.length;
    Map<String, Object> at = study.typical();
    study.settings.clean().ifPresent(name -> at.put(name, (double) c.reference().at6()));
    double[] x = row(fit, at);
    double scale = 0;
    for (int j = 0; j < p; j++) {
      scale += x[j] * b[j];
    }
    Map<String, Double> numbers = new LinkedHashMap<>();
    numbers.put("life/shape", fit.shape());
    numbers.put("life/scale_h", Math.exp(scale));
    List<double[]> slopes = new ArrayList<>();
    double[] shape = new double[p + 1];
    shape[p] = -1;
    slopes.add(shape);
    double[] logScale = new double[p + 1];
    System.arraycopy(x, 0, logScale, 0, p);
    slopes.add(logScale);
    int clean = study.settings.clean().map(fit.names()::indexOf).orElse(-1);
    if (clean >= 0 && b[clean] < 0) {
      numbers.put("exponent", -b[clean] / Math.log(2));
      double[] exponent = new double[p + 1];
      exponent[clean] = 1 / b[clean];
      slopes.add(exponent);
    }
    return new Life(numbers, List.copyOf(numbers.keySet()), covariance(slopes, fit.covariance()));
  }

  private double[] row(AftFit fit, Map<String, Object> at) {
    double[] x = new double[fit.names().size()];
    x[0] = 1;
    for (int j = 1; j < x.length; j++) {
      String name = fit.names().get(j);
      // Levels are told against the first, which is the typical one: theirs are 0.
      x[j] = at.get(name) instanceof Double d ? d : 0;
    }
    return x;
  }

  private static double[][] covariance(List<double[]> slopes, double[][] v) {
    int n = slopes.size();
    double[][] c = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = 0;
        for (int k = 0; k < v.length; k++) {
          for (int l = 0; l < v.length; l++) {
            sum += slopes.get(i)[k] * slopes.get(j)[l] * v[k][l];
          }
        }
        c[i][j] = sum;
        c[j][i] = sum;
      }
    }
    return c;
  }

  private static Revision revision(Machine m, Component c, Life life) {
    List<Revision.Value> values = new ArrayList<>();
    life.numbers().forEach((name, v) -> values.add(new Revision.Value(parameter(c, name), v)));
    List<MachineParameter> uncertain =
        life.uncertain().stream().map(name -> parameter(c, name)).toList();
    Distribution d =
        uncertain.size() == 1
            ? new Distribution.LogNormal(
                Math.max(1.001, Math.exp(Z * Math.sqrt(life.covariance()[0][0]))))
            : new Distribution.JointLogNormal(life.covariance());
    return new Revision(m.id(), values, Optional.of(new Uncertainty(uncertain, d)));
  }

  private static MachineParameter parameter(Component c, String number) {
    return new MachineParameter(MachineParameter.Group.COMPONENT, c.id(), number);
  }

  private void findings(Result.Builder result, int written, Life last) {
    result.finding(
        NOTE,
        "For "
            + written
            + " components of kind "
            + kind
            + ": "
            + Say.list(List.copyOf(last.numbers().keySet()))
            + ", with the uncertainty of "
            + Say.list(last.uncertain())
            + (last.uncertain().size() > 1 ? " together." : "."),
        kind);
    if (study.settings.histories()) {
      result.finding(
          NOTE,
          "The scale is hours at the reference code, by the histories; the exponent is left as it"
              + " was.",
          kind);
    } else if (study.settings.clean().isEmpty()) {
      result.finding(
          CAUTION,
          "The model takes this life as that at each component's reference code. The records were"
              + " not told their cleanliness (--clean-column), so this holds only if they come from"
              + " oil of about that code; the exponent is left as it was.",
          kind);
    } else if (!last.numbers().containsKey("exponent")) {
      result.finding(
          CAUTION,
          "In the records dirtier oil does not shorten life, so no exponent is written: the model"
              + " needs one above 0.",
          kind);
    } else {
      exponent(result);
    }
    List<String> words =
        study.settings.covariates().stream()
            .filter(n -> study.data.covariates().get(n) instanceof Covariate.Categorical)
            .map(n -> n + " " + study.typical().get(n))
            .toList();
    if (!words.isEmpty()) {
      result.finding(CAUTION, "The life written is that of " + Say.list(words) + ".", kind);
    }
    List<LifeFit> fits = study.fits;
    if (study.regressions.isEmpty() && fits.get(0).family() != LifeFamily.WEIBULL) {
      result.finding(
          NOTE,
          "The model's life is a Weibull; the records prefer the "
              + Laws.word(fits.get(0).family())
              + " law.",
          kind);
    }
  }

  private void exponent(Result.Builder result) {
    AftFit fit = study.regression(LifeFamily.WEIBULL).orElseThrow();
    if (fit.pValue(study.settings.clean().orElseThrow()) > 0.05) {
      result.finding(
          CAUTION,
          "The records hardly tell the exponent from 0; its lognormal uncertainty leaves 0 out.",
          kind);
    }
  }
}
