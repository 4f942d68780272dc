package siltwright.interval;

import java.util.OptionalDouble;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.special.Gamma;

/**
 * Replacement of a part at an age, or at failure if that comes first.
 *
 * <pre>
 *   C(τ) = [c_p R(τ) + c_f (1 - R(τ))] / ∫_0^τ R dt,   R(t) = exp(-(t/η)^β - α t)
 * </pre>
 *
 * <p>c_f is the whole cost of a replacement at failure. Wear is Weibull with scale η; α is a
 * constant hazard beside it. Where C has a finite minimum it lies at h(τ) ∫ R - (1 - R(τ)) =
 * c_p/(c_f - c_p) with the hazard h = R's own; for β &gt; 1 the left side rises from 0 without
 * bound, so there is one, though perhaps so late that it is the same as running to failure.
 *
 * <p>Source: Barlow and Proschan, Mathematical Theory of Reliability (1965), age replacement.
 *
 * @param shape β, above 0
 * @param scaleH η, h, above 0
 * @param acutePerH α, 1/h, at least 0
 * @param plannedMoney c_p, above 0
 * @param failureMoney c_f
 */
public record AgeReplacement(
    double shape, double scaleH, double acutePerH, double plannedMoney, double failureMoney) {
  private static final GaussIntegrator UNIT = new GaussIntegratorFactory().legendre(20, 0, 1);

  /** Exponents of R at which a piece of its integral ends. */
  private static final double[] PIECE_ENDS = {3, 15, 1e300};

  private static final int MOST_STEPS = 200;

  /** Last step of the search, relative, after which the next would be lost in rounding. */
  private static final double CLOSE = 1e-9;

  /** Returns the chance of outliving an age. */
  public double reliability(double ageH) {
    return Math.exp(-Math.pow(ageH / scaleH, shape) - acutePerH * ageH);
  }

  /** Returns the mean hours that a part serves when it is replaced at an age, ∫ R, h. */
  public double serviceH(double ageH) {
    double z = Math.pow(ageH / scaleH, shape);
    if (acutePerH == 0) {
      return meanWearLifeH() * Gamma.regularizedGammaP(1 / shape, z);
    }
    // s = t^(1/power) takes the root of a shape below 1 out of the integrand at 0; the third of its
    // power is as smooth as what ds then brings in
    double power = shape < 1 ? 3 / shape : 1;
    double end = Math.pow(ageH, 1 / power);
    UnivariateFunction served =
        power == 1
            ? s -> reliability(s * ageH) * ageH
            : s -> {
              double t = Math.pow(s * end, power);
              return reliability(t) * power * Math.pow(s * end, power - 1) * end;
            };
    double sum = 0;
    double from = 0;
    for (int i = 0; i < PIECE_ENDS.length && from < 1; i++) {
      double low = from;
      double byWear = Math.pow(PIECE_ENDS[i] / z, 1 / (shape * power));
      double byAcute = Math.pow(PIECE_ENDS[i] / (acutePerH * ageH), 1 / power);
      double high = Math.min(1, Math.max(low, Math.min(byWear, byAcute)));
      sum += (high - low) * UNIT.integrate(x -> served.value(low + (high - low) * x));
      from = high;
    }
    return sum;
  }

  /** Returns the mean life without planned replacement and without the constant hazard, h. */
  public double meanWearLifeH() {
    return scaleH * Gamma.gamma(1 + 1 / shape);
  }

  /** Returns the cost per hour when the part is replaced at an age. */
  public double costPerH(double ageH) {
    double r = reliability(ageH);
    return (plannedMoney * r + failureMoney * (1 - r)) / serviceH(ageH);
  }

  /** Returns the cost per hour when the part is replaced at failure only. */
  public double costAtFailurePerH() {
    return failureMoney / serviceH(oldH());
  }

  /**
   * Returns the age at which replacement costs least.
   *
   * @return age, h; empty where running to failure costs no more
   */
  public OptionalDouble bestAgeH() {
    if (!(shape > 1) || failureMoney <= plannedMoney) {
      return OptionalDouble.empty();
    }
    double wanted = plannedMoney / (failureMoney - plannedMoney);
    double old = oldH();
    double low = 0;
    double high = old;
    double age = scaleH;
    for (int i = 0; i < MOST_STEPS; i++) {
      double service = serviceH(age);
      double wear = shape / age * Math.pow(age / scaleH, shape);
      // h ∫ R - (1 - R), of which the derivative is h' ∫ R
      double miss = (wear + acutePerH) * service - (1 - reliability(age)) - wanted;
      if (miss > 0) {
        high = age;
      } else {
        low = age;
      }
      double next = age - miss * age / (service * (shape - 1) * wear);
      double before = age;
      age = next > low && next < high ? next : (low + high) / 2;
      if (Math.abs(age - before) <= CLOSE * age) {
        break;
      }
    }
    return age < old * (1 - CLOSE) ? OptionalDouble.of(age) : OptionalDouble.empty();
  }

  /** An age that no part lives to see: R below e^-60. */
  private double oldH() {
    double age = scaleH;
    while (reliability(age) > 8.8e-27) {
      age *= 2;
    }
    return age;
  }
}
