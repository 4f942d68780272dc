package siltwright.interval;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import siltwright.model.Distribution;
import siltwright.model.Machine;
import siltwright.model.MachineParameter;
import siltwright.model.Uncertainty;

/**
 * One draw of a machine's uncertain numbers.
 *
 * <p>A number is drawn round its value today and carried as a factor on it, so that the same draw
 * serves every option: an alternative element's capacity moves in proportion to that of the element
 * fitted. The same seed and index give the same draw whatever else is computed.
 */
final class ParameterDraw {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);
  private static final double Z_975 = 1.959963984540054;

  private record Drawn(MachineParameter parameter, double today, double value) {}

  private final List<Drawn> drawn;

  private ParameterDraw(List<Drawn> drawn) {
    this.drawn = drawn;
  }

  /**
   * Draws the uncertain numbers of a machine.
   *
   * @param machine the machine as it is today
   * @param seed seed
   * @param index which draw
   */
  static ParameterDraw of(Machine machine, long seed, int index) {
    // Two rounds of the golden-ratio mix keep neighbouring indices apart.
    SplittableRandom random =
        new SplittableRandom(new SplittableRandom(seed).nextLong() + index * 0x9E3779B97F4A7C15L);
    List<Drawn> drawn = new ArrayList<>();
    for (Uncertainty u : machine.uncertainty()) {
      int n = u.parameters().size();
      double[] today = new double[n];
      for (int i = 0; i < n; i++) {
        today[i] = u.parameters().get(i).get(machine).orElseThrow();
      }
      double[] value = draw(u.distribution(), today, random);
      for (int i = 0; i < n; i++) {
        drawn.add(new Drawn(u.parameters().get(i), today[i], value[i]));
      }
    }
    return new ParameterDraw(drawn);
  }

  private static double[] draw(Distribution d, double[] today, SplittableRandom random) {
    if (d instanceof Distribution.LogNormal l) {
      double sigma = Math.log(l.factor95()) / Z_975;
      return new double[] {today[0] * Math.exp(sigma * normal(random))};
    }
    if (d instanceof Distribution.Uniform u) {
      return new double[] {u.low() + (u.high() - u.low()) * random.nextDouble()};
    }
    if (d instanceof Distribution.Triangular t) {
      return new double[] {triangular(t.low(), today[0], t.high(), random.nextDouble())};
    }
    Distribution.JointLogNormal joint = (Distribution.JointLogNormal) d;
    // The reader has refused what is not positive definite; how small it may be is not for here.
    RealMatrix covariance = MatrixUtils.createRealMatrix(joint.logCovariance());
    RealMatrix root = new CholeskyDecomposition(covariance, 1e-9, 0).getL();
    double[] z = new double[today.length];
    for (int i = 0; i < z.length; i++) {
      z[i] = normal(random);
    }
    double[] log = root.operate(z);
    for (int i = 0; i < log.length; i++) {
      log[i] = today[i] * Math.exp(log[i]);
    }
    return log;
  }

  private static double normal(SplittableRandom random) {
    // (0, 1): neither end has a finite quantile
    return NORMAL.inverseCumulativeProbability((random.nextInt(1 << 30) + 0.5) / (1 << 30));
  }

  private static double triangular(double low, double mode, double high, double p) {
    double left = high == low ? 0 : (mode - low) / (high - low);
    return p < left
        ? low + Math.sqrt(p * (high - low) * (mode - low))
        : high - Math.sqrt((1 - p) * (high - low) * (high - mode));
  }

  /** Returns a machine, today's or one with another option fitted, with the numbers drawn. */
  Machine applied(Machine machine) {
    Machine m = machine;
    for (Drawn d : drawn) {
      double now = d.parameter().get(m).orElseThrow();
      m = d.parameter().with(m, d.today() == 0 ? d.value() : now * d.value() / d.today());
    }
    return m;
  }
}
