package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.distribution.TriangularDistribution;
import org.apache.commons.math3.stat.correlation.Covariance;
import org.apache.commons.math3.stat.inference.KolmogorovSmirnovTest;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import siltwright.model.Distribution;
import siltwright.model.Machine;

@DisplayName("Draws against the distributions of Commons Math 3.6.1")
class ParameterDrawTest {
  private static final int N = 4000;

  private static double[] sample(Machine m, ToDoubleFunction<Machine> number) {
    double[] values = new double[N];
    for (int i = 0; i < N; i++) {
      values[i] = number.applyAsDouble(ParameterDraw.of(m, 42, i).applied(m));
    }
    return values;
  }

  @Test
  void lognormalHas95PercentWithinItsFactor() {
    Machine m =
        Machines.uncertain(
            Machines.small(), new Distribution.LogNormal(2), "components/pump/life/scale_h");
    double[] x = sample(m, d -> d.components().get(0).life().scaleH());
    int within = 0;
    int below = 0;
    for (double v : x) {
      within += v >= 4500 && v <= 18_000 ? 1 : 0;
      below += v < 9000 ? 1 : 0;
    }
    // 4 standard errors of a binomial share
    assertEquals(0.95, within / (double) N, 4 * Math.sqrt(0.95 * 0.05 / N));
    assertEquals(0.5, below / (double) N, 4 * Math.sqrt(0.25 / N));
  }

  @Test
  void triangularFollowsItsDistribution() {
    Machine m =
        Machines.uncertain(
            Machines.small(),
            new Distribution.Triangular(0.4, 0.9),
            "returnFilter/fieldEfficiency");
    double[] x = sample(m, d -> d.returnFilter().fieldEfficiency());
    double p =
        new KolmogorovSmirnovTest()
            .kolmogorovSmirnovTest(new TriangularDistribution(0.4, 0.6, 0.9), x);
    assertTrue(p > 0.01, "p = " + p);
  }

  @Test
  void uniformStaysWithinItsEnds() {
    Machine m =
        Machines.uncertain(
            Machines.small(),
            new Distribution.Uniform(0.1, 0.4),
            "procedures/short/backFlushShare");
    double mean = 0;
    for (double v : sample(m, d -> d.procedure("short").orElseThrow().backFlushShare())) {
      assertTrue(v >= 0.1 && v <= 0.4);
      mean += v / N;
    }
    assertEquals(0.25, mean, 4 * 0.3 / Math.sqrt(12.0 * N));
  }

  @Test
  void jointDrawsKeepTheirCovariance() {
    double[][] covariance = {{0.04, -0.012}, {-0.012, 0.09}};
    Machine m =
        Machines.uncertain(
            Machines.small(),
            new Distribution.JointLogNormal(covariance),
            "components/pump/life/shape",
            "components/pump/life/scale_h");
    double[] shape = sample(m, d -> Math.log(d.components().get(0).life().shape()));
    double[] scale = sample(m, d -> Math.log(d.components().get(0).life().scaleH()));
    Covariance found = new Covariance();
    assertEquals(0.04, found.covariance(shape, shape), 0.004);
    assertEquals(0.09, found.covariance(scale, scale), 0.009);
    assertEquals(-0.012, found.covariance(shape, scale), 0.005);
  }

  @Test
  void anIndexGivesTheSameDrawWhateverElseIsDrawn() {
    Machine m =
        Machines.uncertain(Machines.small(), new Distribution.LogNormal(3), "ingress/returnLine");
    double first = ParameterDraw.of(m, 1, 5).applied(m).ingress().returnLine().get(0).rateMgPerH();
    ParameterDraw.of(m, 1, 6);
    double again = ParameterDraw.of(m, 1, 5).applied(m).ingress().returnLine().get(0).rateMgPerH();
    assertEquals(first, again);
  }

  /** An element that could be fitted holds more or less by the factor by which today's does. */
  @Test
  void aDrawIsAFactorOnTodaysNumberOrANumberWhereThatIsNone() {
    Machine m =
        Machines.uncertain(Machines.small(), new Distribution.LogNormal(2), "element/capacity_g");
    m =
        Machines.uncertain(
            m, new Distribution.Uniform(0.1, 0.2), "procedures/right/backFlushShare");
    ParameterDraw draw = ParameterDraw.of(m, 1, 3);
    double today = draw.applied(m).returnFilter().element().capacityG();
    double other = draw.applied(Machines.holding(m, 90)).returnFilter().element().capacityG();
    assertTrue(today != 40);
    assertEquals(today / 40, other / 90, 1e-12);
    double share = Machines.first(draw.applied(m)).backFlushShare();
    assertTrue(share >= 0.1 && share <= 0.2, share + " where it was 0");
  }
}
