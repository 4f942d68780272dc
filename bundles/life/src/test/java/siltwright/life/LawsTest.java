package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.differentiation.DerivativeStructure;
import org.apache.commons.math3.analysis.differentiation.FiniteDifferencesDifferentiator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import siltwright.life.ReferenceCases.Recipe;

/** What must hold for any records. */
class LawsTest {
  /** Every kind of row; seed 31. */
  private static LifeData mixed(double factor) {
    Random random = new Random(31);
    LifeData.Builder b = LifeData.builder();
    for (int i = 0; i < 120; i++) {
      double life = factor * 1000 * Math.pow(-Math.log(random.nextDouble()), 1 / 1.6);
      double entry = i % 5 == 0 ? 0.3 * life : 0;
      switch (i % 4) {
        case 0 -> b.failedAt(life);
        case 1 -> b.runningAt(0.7 * life);
        case 2 -> b.failedBetween(0.8 * life, 1.3 * life);
        default -> b.failedBetween(0, 1.5 * life);
      }
      b.enteredAt(i % 4 == 3 ? 0 : entry).times(1 + i % 3);
    }
    return b.build();
  }

  @ParameterizedTest
  @EnumSource(LifeFamily.class)
  void aChangeOfTimeUnitOnlyMovesTheScale(LifeFamily family) {
    LifeFit a = LifeFitting.fit(mixed(1), family).get();
    LifeFit b = LifeFitting.fit(mixed(60), family).get();
    assertEquals(60, b.scaleH() / a.scaleH(), 1e-7);
    assertEquals(a.shape(), b.shape(), 1e-7);
    assertEquals(
        a.estimate(Quantity.SCALE, 0.95).logStandardError(),
        b.estimate(Quantity.SCALE, 0.95).logStandardError(),
        1e-7);
    assertEquals(a.reliability(500), b.reliability(30000), 1e-8);
    Interval pa = a.profileInterval(Quantity.MEAN_LIFE, 0.9);
    Interval pb = b.profileInterval(Quantity.MEAN_LIFE, 0.9);
    assertEquals(60, pb.lower() / pa.lower(), 1e-6);
    assertEquals(60, pb.upper() / pa.upper(), 1e-6);
  }

  @ParameterizedTest
  @EnumSource(LifeFamily.class)
  void countsAreRepetition(LifeFamily family) {
    LifeData counted = mixed(1);
    LifeData.Builder b = LifeData.builder();
    for (int i = 0; i < counted.rows(); i++) {
      for (int k = 0; k < counted.countAt(i); k++) {
        b.failedBetween(counted.lowerH(i), counted.upperH(i)).enteredAt(counted.entryH(i));
      }
    }
    LifeFit a = LifeFitting.fit(counted, family).get();
    LifeFit c = LifeFitting.fit(b.build(), family).get();
    assertEquals(a.logLikelihood(), c.logLikelihood(), 1e-8);
    assertEquals(a.mu(), c.mu(), 1e-9);
    assertArrayEquals(a.covariance()[0], c.covariance()[0], 1e-9);
  }

  @ParameterizedTest
  @EnumSource(LifeFamily.class)
  void profileEndsLieAtTheDrop(LifeFamily family) {
    LifeFit fit = LifeFitting.fit(mixed(1), family).get();
    double drop = 0.5 * 3.841458820694124; // chi-square quantile, 0.95, 1 degree of freedom
    Quantity[] quantities = {
      Quantity.SCALE,
      Quantity.MU,
      Quantity.SHAPE,
      Quantity.SIGMA,
      Quantity.MEAN_LIFE,
      new Quantity.BLife(0.01),
      new Quantity.Reliability(400)
    };
    for (Quantity q : quantities) {
      boolean held =
          family == LifeFamily.EXPONENTIAL && (q == Quantity.SHAPE || q == Quantity.SIGMA);
      if (!held) {
        Interval i = fit.profileInterval(q, 0.95);
        double value = fit.estimate(q, 0.95).value();
        assertTrue(i.lower() < value && value < i.upper(), q + " " + i);
        for (double l : fit.profileLogLikelihood(q, new double[] {i.lower(), i.upper()})) {
          assertEquals(fit.logLikelihood() - drop, l, 1e-7, q.toString());
        }
      }
    }
  }

  /** Each interval of a life is the same statement as that of the reliability at it. */
  @Test
  void lifeAndReliabilityAreTwoSidesOfOneProfile() {
    LifeFit fit = LifeFitting.fit(mixed(1), LifeFamily.WEIBULL).get();
    double b10Low = fit.profileInterval(new Quantity.BLife(0.1), 0.9).lower();
    Interval r = fit.profileInterval(new Quantity.Reliability(b10Low), 0.9);
    assertEquals(0.9, r.lower(), 1e-7);
    assertEquals(
        fit.hazardPerH(300),
        -(Math.log(fit.reliability(300.01)) - Math.log(fit.reliability(299.99))) / 0.02,
        1e-9);
  }

  /** Analytic derivatives against those of the values, for every kind of row and a covariate. */
  @ParameterizedTest
  @CsvSource({"WEIBULL, 6.9, -0.5, 0.2", "LOGNORMAL, 6.6, -0.3, -0.3", "LOGNORMAL, 9, 0.7, 0.1"})
  void derivativesAreThoseOfTheLikelihood(LifeFamily family, double mu, double tau, double slope) {
    LifeData data = mixed(1);
    double[] x = new double[2 * data.rows()];
    Random random = new Random(17);
    for (int i = 0; i < data.rows(); i++) {
      x[i] = 1;
      x[data.rows() + i] = random.nextGaussian();
    }
    LogTimeLikelihood likelihood = LogTimeLikelihood.of(family, data, null, x, 2, 0);
    double[] theta = {mu, slope, tau};
    double[] g = new double[3];
    double[] h = new double[9];
    likelihood.at(theta, g, h);
    for (int i = 0; i < 3; i++) {
      int at = i;
      double scale = Math.abs(h[4 * i]);
      assertEquals(
          derivative(v -> shifted(likelihood, theta, at, v, -1), theta[i]), g[i], 1e-7 * scale);
      for (int j = 0; j < 3; j++) {
        int of = j;
        assertEquals(
            derivative(v -> shifted(likelihood, theta, at, v, of), theta[i]),
            h[3 * i + j],
            1e-7 * scale);
      }
    }
  }

  private static double shifted(
      LogTimeLikelihood likelihood, double[] theta, int at, double value, int gradient) {
    double[] t = theta.clone();
    t[at] = value;
    double[] g = new double[3];
    double l = likelihood.at(t, g, new double[9]);
    return gradient < 0 ? l : g[gradient];
  }

  private static double derivative(DoubleUnaryOperator f, double at) {
    return new FiniteDifferencesDifferentiator(5, 1e-3)
        .differentiate((double v) -> f.applyAsDouble(v))
        .value(new DerivativeStructure(1, 1, 0, at))
        .getPartialDerivative(1);
  }

  /** An interval closing on a point has the likelihood of the point times its width. */
  @ParameterizedTest
  @EnumSource(LifeFamily.class)
  void aNarrowIntervalIsAFailureSeen(LifeFamily family) {
    LifeData seen = Recipe.weibull(50, 21, 1.5, 1000, 300, 2000);
    for (double width : new double[] {1e-2, 1e-6}) {
      LifeData.Builder b = LifeData.builder();
      double logWidth = 0;
      for (int i = 0; i < seen.rows(); i++) {
        double t = seen.lowerH(i);
        if (seen.failed(i)) {
          b.failedBetween(t - width / 2, t + width / 2);
          logWidth += Math.log(width);
        } else {
          b.runningAt(t);
        }
      }
      LifeFit points = LifeFitting.fit(seen, family).get();
      LifeFit intervals = LifeFitting.fit(b.build(), family).get();
      assertEquals(points.mu(), intervals.mu(), 1e-6);
      assertEquals(points.sigma(), intervals.sigma(), 1e-6);
      assertEquals(points.logLikelihood() + logWidth, intervals.logLikelihood(), 1e-4);
    }
  }

  /**
   * Wald and profile intervals of 2000 components differ by little; both shrink with confidence.
   */
  @Test
  void intervalsNestAndAgreeInLargeSamples() {
    LifeFit fit =
        LifeFitting.fit(Recipe.weibull(2000, 5, 2, 1000, 500, 1500), LifeFamily.WEIBULL).get();
    Interval narrow = fit.profileInterval(Quantity.SHAPE, 0.5);
    Interval wide = fit.profileInterval(Quantity.SHAPE, 0.99);
    Interval wald = fit.estimate(Quantity.SHAPE, 0.99).wald();
    assertTrue(wide.lower() < narrow.lower() && narrow.upper() < wide.upper());
    assertEquals(wald.lower(), wide.lower(), 0.01);
    assertEquals(wald.upper(), wide.upper(), 0.01);
  }

  /**
   * A failure-free time of components that came under watch late lies at a maximum of its
   * likelihood, written out here from the density and the survivals.
   */
  @Test
  void aFailureFreeTimeWithLateEntryIsAMaximum() {
    Random random = new Random(8);
    LifeData.Builder b = LifeData.builder();
    double[][] rows = new double[150][];
    for (int i = 0; i < rows.length; i++) {
      double life = 1000 + 800 * Math.pow(-Math.log(random.nextDouble()), 1 / 2.2);
      rows[i] = new double[] {life, i % 3 == 0 ? 0 : 0.85 * life, i % 4 == 0 ? 0 : 1};
      (rows[i][2] == 1 ? b.failedAt(life) : b.runningAt(life)).enteredAt(rows[i][1]);
    }
    ThreeParameterWeibull fit = ThreeParameterWeibull.fit(b.build()).get();
    DoubleUnaryOperator likelihood =
        location -> {
          double sum = 0;
          for (double[] row : rows) {
            double u = (row[0] - location) / fit.scaleH();
            double e = Math.max(0, row[1] - location) / fit.scaleH();
            sum += Math.pow(e, fit.shape()) - Math.pow(u, fit.shape());
            sum += row[2] * Math.log(fit.shape() / fit.scaleH() * Math.pow(u, fit.shape() - 1));
          }
          return sum;
        };
    double at = fit.locationH();
    assertEquals(likelihood.applyAsDouble(at), fit.logLikelihood(), 1e-8);
    double slope =
        (likelihood.applyAsDouble(at + 0.01) - likelihood.applyAsDouble(at - 0.01)) / 0.02;
    assertEquals(0, slope, 1e-6);
  }
}
