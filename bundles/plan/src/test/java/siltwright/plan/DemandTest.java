package siltwright.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.distribution.PascalDistribution;
import org.apache.commons.math3.distribution.PoissonDistribution;
import org.junit.jupiter.api.Test;

class DemandTest {
  /** Batches of one are Poisson. */
  @Test
  void batchesOfOne() {
    Demand d = Demand.compound(7.3, new double[] {0, 1});
    PoissonDistribution law = new PoissonDistribution(7.3);
    for (int n = 0; n < 30; n++) {
      assertEquals(law.probability(n), d.probability(n), 1e-14);
      assertEquals(1 - law.cumulativeProbability(n), d.stockOut(n), 1e-12);
    }
  }

  /**
   * Logarithmic batches are negative binomial (Quenouille, Biometrics 5 (1949) 162), here against
   * Commons Math: r = 3, success 0.4, so λ = −r ln 0.4 and f_n = −0.6ⁿ/(n ln 0.4).
   */
  @Test
  void logarithmicBatchesAreNegativeBinomial() {
    double[] batch = new double[200];
    for (int n = 1; n < batch.length; n++) {
      batch[n] = -Math.pow(0.6, n) / (n * Math.log(0.4));
    }
    Demand d = Demand.compound(-3 * Math.log(0.4), batch);
    PascalDistribution law = new PascalDistribution(3, 0.4);
    for (int n = 0; n < 60; n++) {
      assertEquals(law.probability(n), d.probability(n), 1e-13);
    }
    assertEquals(4.5, d.mean(), 1e-9);
  }

  @Test
  void manyVisitsDoNotVanish() {
    Demand d = Demand.compound(1400, new double[] {0, 0.5, 0.5});
    assertEquals(2100, d.mean(), 1e-6);
    assertEquals(0.5, d.stockOut(2100), 0.02);
  }

  @Test
  void batchesNeedMoreStock() {
    Demand single = Demand.poisson(6);
    Demand batched = Demand.compound(2, new double[] {0, 0, 0, 1});
    assertEquals(single.mean(), batched.mean(), 1e-9);
    assertTrue(batched.stock(0.95) > single.stock(0.95));
    // Poisson tables: P(N ≤ 10 | 6) = 0.957, P(N ≤ 9 | 6) = 0.916 (from memory, any table).
    assertEquals(10, single.stock(0.95));
    assertEquals(1 - 0.957, single.stockOut(10), 5e-4);
  }

  @Test
  void sumOfTwo() {
    assertEquals(
        Demand.poisson(5).probability(4),
        Demand.poisson(2).plus(Demand.poisson(3)).probability(4),
        1e-12);
    assertEquals(1, Demand.poisson(0).probability(0));
    assertEquals(0, Demand.compound(0, new double[] {1}).stock(0.99));
  }

  @Test
  void mostInAStretch() {
    assertEquals(3, Demand.peak(new int[] {0, 5, 9, 10, 30}, 10));
    assertEquals(4, Demand.peak(new int[] {0, 5, 9, 10, 30}, 11));
    assertEquals(0, Demand.peak(new int[0], 10));
  }
}
