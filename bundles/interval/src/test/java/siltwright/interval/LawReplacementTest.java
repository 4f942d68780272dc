package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.distribution.LogNormalDistribution;
import org.apache.commons.math3.special.Gamma;
import org.junit.jupiter.api.Test;
import siltwright.model.BasicLife;
import siltwright.model.ComponentLife;
import siltwright.model.NamedLife;
import siltwright.model.Survival;

/** Age replacement of parts whose life has another law than Weibull. */
class LawReplacementTest {
  private static final NamedLife LOGNORMAL =
      new NamedLife(BasicLife.LOGNORMAL.id(), Optional.empty());

  /** Weibull by the general way against the closed form. */
  @Test
  void weibullByPointsIsWeibull() {
    for (double shape : new double[] {0.7, 1, 1.8, 4}) {
      LawReplacement law = new LawReplacement(Survival.sampled(u -> Math.pow(u, shape)));
      assertEquals(1, law.meanLife() / Gamma.gamma(1 + 1 / shape), 3e-4, "mean at " + shape);
      for (double acutePerH : new double[] {0, 2e-5}) {
        AgeReplacement own = new AgeReplacement(shape, 9000, acutePerH, 2000, 15000);
        for (double age : new double[] {40, 3000, 9000, 30000}) {
          double cost = law.costPerH(9000, acutePerH, 2000, 15000, OptionalDouble.of(age));
          assertEquals(1, cost / own.costPerH(age), 1e-3, shape + " at " + age);
        }
        OptionalDouble best = own.bestAgeH();
        double least =
            best.isPresent() ? own.costPerH(best.getAsDouble()) : own.costAtFailurePerH();
        double found = law.costPerH(9000, acutePerH, 2000, 15000, OptionalDouble.empty());
        assertEquals(1, found / least, 5e-4, "least at " + shape);
      }
    }
  }

  /** Reference: Apache Commons Math; mean exp(σ²/2) of a median of 1. */
  @Test
  void lognormalIsLognormal() {
    for (double shape : new double[] {0.8, 1.5, 4}) {
      ComponentLife stated = new ComponentLife(2, 5000).withLaw(LOGNORMAL).withShape(shape);
      Survival life = stated.survival();
      LogNormalDistribution reference = new LogNormalDistribution(0, 1 / shape);
      for (double u : new double[] {0.01, 0.2, 0.7, 1, 1.6, 5, 20}) {
        double left = 1 - reference.cumulativeProbability(u);
        assertEquals(left, Math.exp(-life.cumulativeHazard(u)), 2e-4, shape + " at " + u);
      }
      double mean = Math.exp(1 / (2 * shape * shape));
      assertEquals(1, new LawReplacement(life).meanLife() / mean, 2e-3, "mean at " + shape);
    }
  }

  @Test
  void whatIsNoLifeIsRefused() {
    for (DoubleUnaryOperator wrong :
        List.<DoubleUnaryOperator>of(
            u -> -u,
            u -> Double.NaN,
            u -> Math.min(u, 3), // some live for ever
            u -> u < 2 ? u : Math.max(1, u - 2), // falls
            u -> Math.log1p(Math.sqrt(u)))) { // no mean
      assertThrows(IllegalArgumentException.class, () -> Survival.sampled(wrong));
    }
  }
}
