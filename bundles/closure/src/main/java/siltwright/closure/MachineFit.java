package siltwright.closure;

import java.util.List;
import siltwright.samples.BandCounts;

/**
 * What one machine's record says of its three numbers: a normal likelihood round where it fits
 * best, by Gauss and Newton's method, and what a wrong calibration or capacity would move.
 */
final class MachineFit {
  private static final int P = ClosureModel.UNKNOWNS;
  private static final int STEPS = 25;
  private static final double SLOPE_STEP = 1e-3;
  private static final double FARTHEST = 6;

  /** How unsure it is what a change let go, of ln g: the next element catches it again. */
  private static final double SHED = 0.8;

  /** Precision of the likelihood. */
  final double[][] precision = new double[P][P];

  /** Precision times the likelihood's mean, so that a flat direction needs none. */
  final double[] linear = new double[P];

  /** Pull of ln counts that are all off by 1, and of ln capacity off by 1, on the numbers. */
  final double[] calibration = new double[P];

  final double[] capacity = new double[P];

  /** Mean squared residual in the residuals' own variances. */
  double misfit;

  int observations;

  /** Where it fits best, with the prior it was given. */
  final double[] at = new double[P];

  /** Rounds it took. */
  int rounds;

  static MachineFit of(ClosureModel model, Errors errors, double[] mean, double[] sd) {
    MachineFit fit = new MachineFit();
    double[] t = mean.clone();
    double damping = 1e-3;
    double cost = fit.add(model, errors, t, mean, sd);
    for (int step = 0; step < STEPS; step++) {
      fit.rounds = step + 1;
      double[][] h = new double[P][P];
      double[] g = new double[P];
      for (int k = 0; k < P; k++) {
        for (int l = 0; l < P; l++) {
          h[k][l] = fit.precision[k][l];
        }
        h[k][k] = (h[k][k] + 1 / (sd[k] * sd[k])) * (1 + damping);
        g[k] = fit.linear[k] + (mean[k] - t[k]) / (sd[k] * sd[k]);
      }
      double[] move = Small.solve(h, g);
      double[] tried = t.clone();
      double largest = 0;
      for (int k = 0; k < P; k++) {
        double m = Math.max(-0.8, Math.min(0.8, move[k]));
        tried[k] = Math.max(-FARTHEST, Math.min(FARTHEST, t[k] + m));
        largest = Math.max(largest, Math.abs(m));
      }
      MachineFit next = new MachineFit();
      double now = next.add(model, errors, tried, mean, sd);
      if (now <= cost + 1e-12) {
        t = tried;
        cost = now;
        fit.take(next);
        damping = Math.max(1e-9, damping / 4);
        if (largest < 1e-3) {
          break;
        }
      } else {
        damping *= 8;
        if (damping > 1e8) {
          break;
        }
      }
    }
    System.arraycopy(t, 0, fit.at, 0, P);
    // The gradient was about t: make it about zero.
    for (int k = 0; k < P; k++) {
      for (int l = 0; l < P; l++) {
        fit.linear[k] += fit.precision[k][l] * t[l];
      }
    }
    return fit;
  }

  private void take(MachineFit other) {
    for (int k = 0; k < P; k++) {
      System.arraycopy(other.precision[k], 0, precision[k], 0, P);
    }
    System.arraycopy(other.linear, 0, linear, 0, P);
    System.arraycopy(other.calibration, 0, calibration, 0, P);
    System.arraycopy(other.capacity, 0, capacity, 0, P);
    misfit = other.misfit;
    observations = other.observations;
  }

  /** Fills precision and gradient at a point; returns twice the negative log posterior. */
  private double add(ClosureModel model, Errors errors, double[] t, double[] mean, double[] sd) {
    ClosureModel.Shown here = model.shown(t);
    ClosureModel.Shown[] moved = new ClosureModel.Shown[P];
    for (int k = 0; k < P; k++) {
      double[] m = t.clone();
      m[k] += SLOPE_STEP;
      moved[k] = model.shown(m);
    }
    double squares = 0;
    int sample = 0;
    int reading = 0;
    int life = 0;
    for (ElementLife l : model.lives()) {
      for (ElementLife.Sample s : l.samples()) {
        squares += bottle(s.counts(), here, moved, sample++, errors);
      }
      for (ElementLife.Reading r : l.readings()) {
        double[] slope = new double[P];
        for (int k = 0; k < P; k++) {
          slope[k] = (moved[k].logReadings()[reading] - here.logReadings()[reading]) / SLOPE_STEP;
        }
        double shed = SHED * here.readingsShed()[reading] * slope[0];
        double variance = errors.reading() * errors.reading() + shed * shed;
        double e = Math.log(r.kPa()) - here.logReadings()[reading++];
        // A larger element reads as one with less in it.
        squares += one(e, slope, 1 / variance, -slope[0]);
      }
      double expected = here.logIndicatorH()[life];
      double shed = SHED * here.indicatorShed()[life];
      double w = 1 / (errors.life() * errors.life() + shed * shed);
      if (Double.isFinite(expected)) {
        double[] slope = new double[P];
        for (int k = 0; k < P; k++) {
          double m = moved[k].logIndicatorH()[life];
          slope[k] = Double.isFinite(m) ? (m - expected) / SLOPE_STEP : 0;
        }
        if (l.indicatorH().isPresent()) {
          squares += one(Math.log(l.indicatorH().getAsDouble()) - expected, slope, w, 1);
        } else if (expected < Math.log(l.endH())
            && model.machine().indicatorStateIndex() >= 0
            && model.machine().returnFilter().indicatorKPa().isPresent()) {
          // It had not tripped by then: counts only if it should have.
          squares += one(Math.log(l.endH()) - expected, slope, w, 1);
        }
      } else if (l.indicatorH().isPresent()) {
        squares += 25; // tripped though the bypass should have kept it from tripping
      }
      life++;
    }
    misfit = observations == 0 ? 0 : squares / observations;
    double cost = squares;
    for (int k = 0; k < P; k++) {
      cost += (t[k] - mean[k]) * (t[k] - mean[k]) / (sd[k] * sd[k]);
    }
    return cost;
  }

  private double one(double e, double[] slope, double w, double byCapacity) {
    observations++;
    for (int k = 0; k < P; k++) {
      linear[k] += w * slope[k] * e;
      capacity[k] += w * slope[k] * byCapacity;
      for (int l = 0; l < P; l++) {
        precision[k][l] += w * slope[k] * slope[l];
      }
    }
    return w * e * e;
  }

  /** C = diag + bottle² 11', as bands of one bottle are wrong together. */
  private double bottle(
      BandCounts counts,
      ClosureModel.Shown here,
      ClosureModel.Shown[] moved,
      int sample,
      Errors errors) {
    int n = counts.bands();
    double[] model = here.logBands().get(sample);
    double[] w = new double[n];
    double[] e = new double[n];
    double[][] slope = new double[n][P];
    double sumW = 0;
    double sumE = 0;
    double squares = 0;
    double[] sums = new double[P];
    for (int k = 0; k < n; k++) {
      e[k] = counts.log(k) - model[k];
      w[k] = 1 / counts.variance(k, Math.exp(model[k]), errors.count());
      sumW += w[k];
      sumE += w[k] * e[k];
      squares += w[k] * e[k] * e[k];
      for (int p = 0; p < P; p++) {
        slope[k][p] = (moved[p].logBands().get(sample)[k] - model[k]) / SLOPE_STEP;
        sums[p] += w[k] * slope[k][p];
      }
      observations++;
    }
    double common = errors.count().bottle() * errors.count().bottle();
    double shrink = common / (1 + common * sumW);
    for (int p = 0; p < P; p++) {
      for (int k = 0; k < n; k++) {
        linear[p] += w[k] * slope[k][p] * e[k];
        calibration[p] += w[k] * slope[k][p];
        for (int q = 0; q < P; q++) {
          precision[p][q] += w[k] * slope[k][p] * slope[k][q];
        }
      }
      linear[p] -= shrink * sums[p] * sumE;
      calibration[p] -= shrink * sums[p] * sumW;
      for (int q = 0; q < P; q++) {
        precision[p][q] -= shrink * sums[p] * sums[q];
      }
    }
    return squares - shrink * sumE * sumE;
  }

  /** Returns the numbers that a record says something of, for messages. */
  static List<String> names() {
    return List.of("all ingress", "share of it into the tank", "field efficiency");
  }
}
