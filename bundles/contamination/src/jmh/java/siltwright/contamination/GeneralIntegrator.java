package siltwright.contamination;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.ode.FirstOrderDifferentialEquations;
import org.apache.commons.math3.ode.FirstOrderIntegrator;
import org.apache.commons.math3.ode.nonstiff.DormandPrince853Integrator;
import siltwright.model.SizeBands;

/** One cycle by a general-purpose integrator of another library. */
final class GeneralIntegrator implements FirstOrderDifferentialEquations {
  private static final int J = SizeBands.COUNT;
  private static final double RELATIVE = 1e-10;

  private final Circuit c;
  private final List<Wear> wear;
  private final double[] met = new double[2];
  private final double[] n = new double[J];

  GeneralIntegrator(Circuit c, List<Wear> wear) {
    this.c = c;
    this.wear = wear;
  }

  @Override
  public int getDimension() {
    return 3 * J + wear.size();
  }

  // counts, retained particles, integrals of the counts, exposures
  @Override
  public void computeDerivatives(double t, double[] y, double[] dy) {
    double mass = 0;
    for (int j = 0; j < J; j++) {
      n[j] = y[j];
      mass += c.loadingG(j) * y[J + j];
    }
    c.met(Math.max(0, mass), met);
    for (int j = 0; j < J; j++) {
      double caught = (1 - c.pressureCapture[j]) * c.capture[j] * met[1] * n[j];
      dy[j] = c.supplyPerMlH(j, met[0]) - c.relaxationPerH(j, met[1]) * n[j];
      dy[J + j] = c.returnPerH[j] * c.capture[j] * met[0] + caught;
      dy[2 * J + j] = n[j];
    }
    for (int i = 0; i < wear.size(); i++) {
      dy[3 * J + i] = wear.get(i).relative(n);
    }
  }

  /** Runs a cycle; counts, retained particles, integrals, exposures at its end. */
  double[] cycle(double[] startPerMl, double intervalH) {
    double[] y = new double[getDimension()];
    System.arraycopy(startPerMl, 0, y, 0, J);
    double[] absolute = new double[y.length];
    for (int j = 0; j < J; j++) {
      double in = (c.reservoirPerH[j] + c.returnPerH[j]) * intervalH + c.volumeMl * startPerMl[j];
      absolute[j] = 1e-12 * in / c.volumeMl + 1e-15;
      absolute[J + j] = 1e-12 * in + 1e-9;
      absolute[2 * J + j] = 1e-12 * in / c.volumeMl * intervalH + 1e-15;
    }
    Arrays.fill(absolute, 3 * J, y.length, 1e-12 * intervalH);
    double[] relative = new double[y.length];
    Arrays.fill(relative, RELATIVE);
    FirstOrderIntegrator integrator =
        new DormandPrince853Integrator(1e-14, intervalH, absolute, relative);
    integrator.integrate(this, 0, y, intervalH, y);
    return y;
  }
}
