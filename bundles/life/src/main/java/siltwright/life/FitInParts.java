package siltwright.life;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A law of life fitted to records that are never all in one place: each part of them gives sums,
 * and the climb needs no more.
 *
 * <p>First each part gives a {@link Look}; then, as long as {@link #wanted} names parameters, the
 * {@link Sums} of each part there. Sums are added in the order they come in; in the same order they
 * give the same fit to the last bit. The fit of {@link LifeFitting} sums in another order, so that
 * it is the same but for rounding. A few rows of each part tell where to climb from, so that the
 * whole is summed three or four times.
 */
public final class FitInParts {
  /** Rows of all parts together, about, that tell where to climb from. */
  public static final int SAMPLE = 20_000;

  private final LifeFamily family;
  private final Existence existence = new Existence();
  private final List<double[]> sample = new ArrayList<>();
  private double components;
  private Climb climb;
  private boolean again;
  private double logLikelihood;
  private double[] gradient;
  private double[] hessian;

  /**
   * What a part says before the climb.
   *
   * @param components components in it
   * @param existence whether there is a maximum
   * @param sample columns of some of its rows: lower, upper, entry hours, counts
   */
  public record Look(double components, Serializable existence, double[][] sample)
      implements Serializable {}

  /**
   * The likelihood of a part.
   *
   * @param logLikelihood its logarithm
   * @param gradient first derivatives by mu and ln sigma
   * @param hessian second derivatives, row-major
   */
  public record Sums(double logLikelihood, double[] gradient, double[] hessian)
      implements Serializable {}

  /** Prepares a fit. */
  public FitInParts(LifeFamily family) {
    this.family = family;
  }

  /**
   * Looks at a part.
   *
   * @param every one in so many rows goes into the sample, at least 1
   */
  public static Look look(LifeData part, int every) {
    Existence existence = new Existence();
    existence.add(part, null);
    int n = (part.rows() + every - 1) / every;
    double[][] sample = new double[4][n];
    for (int k = 0; k < n; k++) {
      int i = k * every;
      sample[0][k] = part.lowerH(i);
      sample[1][k] = part.upperH(i);
      sample[2][k] = part.entryH(i);
      sample[3][k] = part.countAt(i);
    }
    return new Look(part.components(), existence, sample);
  }

  /** Returns the likelihood of a part at mu and ln sigma. */
  public static Sums sums(LifeData part, LifeFamily family, double[] theta) {
    double[] gradient = new double[2];
    double[] hessian = new double[4];
    double l = LogTimeLikelihood.of(family, part, null, null, 1, 0).at(theta, gradient, hessian);
    return new Sums(l, gradient, hessian);
  }

  /** Adds what a part says before the climb. */
  public void add(Look look) {
    components += look.components();
    existence.add((Existence) look.existence());
    for (int k = 0; k < look.sample()[0].length; k++) {
      int row = k;
      sample.add(Arrays.stream(look.sample()).mapToDouble(c -> c[row]).toArray());
    }
  }

  /**
   * Returns mu and ln sigma at which the sums of all parts are wanted; empty once the fit is there,
   * or cannot be.
   */
  public Optional<double[]> wanted() {
    if (climb == null) {
      if (existence.refusal(family, isHeld()) != null) {
        return Optional.empty();
      }
      climb = new Climb(start(), !isHeld());
      clear();
    }
    return Optional.ofNullable(climb.wanted()).map(double[]::clone);
  }

  private boolean isHeld() {
    return family == LifeFamily.EXPONENTIAL;
  }

  private double[] start() {
    if (isHeld() || sample.isEmpty()) {
      return new double[] {existence.logMean(), 0};
    }
    double[][] c = new double[4][sample.size()];
    for (int i = 0; i < sample.size(); i++) {
      for (int j = 0; j < c.length; j++) {
        c[j][i] = sample.get(i)[j];
      }
    }
    Estimate<LifeFit> some = LifeFitting.fit(LifeData.ofColumns(c[0], c[1], c[2], c[3]), family);
    return some.exists()
        ? new double[] {some.get().mu(), Math.log(some.get().sigma())}
        : new double[] {existence.logMean(), 0};
  }

  private void clear() {
    logLikelihood = 0;
    gradient = new double[2];
    hessian = new double[4];
  }

  /** Adds the sums of a part where they are wanted. */
  public void add(Sums sums) {
    logLikelihood += sums.logLikelihood();
    for (int j = 0; j < gradient.length; j++) {
      gradient[j] += sums.gradient()[j];
    }
    for (int j = 0; j < hessian.length; j++) {
      hessian[j] += sums.hessian()[j];
    }
  }

  /** Goes on when the sums of all parts were added. */
  public void step() {
    climb.tell(logLikelihood, gradient, hessian);
    clear();
    if (climb.wanted() == null && climb.maximum() == null && !again && !isHeld()) {
      again = true; // as from an exponential law
      climb = new Climb(new double[] {existence.logMean(), 0}, true);
    }
  }

  /**
   * Tests whether groups have one law: twice what the likelihood gains by a fit for each.
   *
   * @param all fit of all together
   * @param each fit of each, of the same law
   */
  public static SignificanceTest alike(LifeFit all, List<LifeFit> each) {
    double gain = each.stream().mapToDouble(LifeFit::logLikelihood).sum() - all.logLikelihood();
    int more = all.family().parameters() * (each.size() - 1);
    return SignificanceTest.of(2 * gain, more);
  }

  /** Returns the components of all parts. */
  public double components() {
    return components;
  }

  /** Returns those of them that failed. */
  public double failures() {
    return existence.failures();
  }

  /** Returns the fit, or why the records carry none; without profiles. */
  public Estimate<LifeFit> fit() {
    Refusal refusal = existence.refusal(family, isHeld());
    if (refusal != null) {
      return new Estimate.Refused<>(refusal);
    }
    Maximum maximum = climb.maximum();
    return maximum == null
        ? LifeFitting.unbounded()
        : Estimate.found(
            new LifeFit(family, isHeld(), components, existence.failures(), maximum, null));
  }
}
