package siltwright.fleet;

import java.util.Arrays;
import siltwright.life.TimeOrder;

/**
 * One pass over the events in the order of their hours, with the sums over those at risk that the
 * likelihood of {@link RateModel} needs.
 */
final class RateSweep {
  private final EventData data;
  private final double[][] x;
  private final int p;
  private final TimeOrder events;
  private final TimeOrder starts;
  private final TimeOrder ends;

  RateSweep(EventData data, double[][] x) {
    this.data = data;
    this.x = x;
    p = x.length == 0 ? 0 : x[0].length;
    events = TimeOrder.of(data.times(), identity(data.events()));
    starts = TimeOrder.of(data.starts(), identity(data.windows()));
    ends = TimeOrder.of(data.ends(), identity(data.windows()));
  }

  private static int[] identity(int n) {
    int[] all = new int[n];
    Arrays.setAll(all, i -> i);
    return all;
  }

  /**
   * What a pass gives at coefficients b.
   *
   * @param logLikelihood log of the partial likelihood, ties by Breslow
   * @param score its slope
   * @param information less its curvature
   * @param residuals each machine's part of the score, at the baseline of greatest likelihood
   * @param shares each machine's part of the information, p by p in one row
   */
  record Sums(
      double logLikelihood,
      double[] score,
      double[][] information,
      double[][] residuals,
      double[][] shares) {}

  Sums at(double[] b) {
    return new Pass(b).run();
  }

  private final class Pass {
    private final double[] weight;
    private final double[] logWeight;
    private final double[][] residuals;
    private double s0;
    private final double[] s1 = new double[p];
    private final double[][] s2 = new double[p][p];
    private double hazard;
    private final double[] meanHazard = new double[p];
    private final double[][] squareHazard = new double[p][p];
    private final double[][] shares;

    Pass(double[] b) {
      int machines = x.length;
      weight = new double[machines];
      logWeight = new double[machines];
      residuals = new double[machines][p];
      shares = new double[machines][p * p];
      for (int m = 0; m < machines; m++) {
        for (int j = 0; j < p; j++) {
          logWeight[m] += b[j] * x[m][j];
        }
        weight[m] = Math.exp(logWeight[m]);
      }
    }

    Sums run() {
      double logLikelihood = 0;
      double[] score = new double[p];
      double[][] information = new double[p][p];
      double[] mean = new double[p];
      int start = 0;
      int end = 0;
      int n = events.times.length;
      for (int e = 0; e < n; ) {
        double t = events.times[e];
        while (start < starts.times.length && starts.times[start] < t) {
          if (ends.times[end] <= starts.times[start]) {
            turn(data.windowMachine(ends.payloads[end++]), -1);
          } else {
            turn(data.windowMachine(starts.payloads[start++]), 1);
          }
        }
        while (ends.times[end] < t) {
          turn(data.windowMachine(ends.payloads[end++]), -1);
        }
        for (int j = 0; j < p; j++) {
          mean[j] = s1[j] / s0;
        }
        int d = 0;
        for (; e < n && events.times[e] == t; e++, d++) {
          int m = data.eventMachine(events.payloads[e]);
          logLikelihood += logWeight[m];
          for (int j = 0; j < p; j++) {
            double off = x[m][j] - mean[j];
            score[j] += off;
            residuals[m][j] += off;
          }
        }
        logLikelihood -= d * Math.log(s0);
        hazard += d / s0;
        for (int j = 0; j < p; j++) {
          meanHazard[j] += mean[j] * d / s0;
          for (int i = 0; i <= j; i++) {
            information[j][i] += d * (s2[j][i] / s0 - mean[j] * mean[i]);
            squareHazard[j][i] += mean[j] * mean[i] * d / s0;
          }
        }
      }
      while (end < ends.times.length) {
        // Windows that begin after the last event hold no hazard.
        int w = ends.payloads[end++];
        if (n > 0 && data.fromH(w) < events.times[n - 1]) {
          turn(data.windowMachine(w), -1);
        }
      }
      for (int j = 0; j < p; j++) {
        for (int i = 0; i < j; i++) {
          information[i][j] = information[j][i];
        }
      }
      return new Sums(logLikelihood, score, information, residuals, shares);
    }

    /** Takes a machine in among those at risk (1) or out (-1). */
    private void turn(int m, int sign) {
      double w = sign * weight[m];
      s0 += w;
      for (int j = 0; j < p; j++) {
        double wx = w * x[m][j];
        s1[j] += wx;
        for (int i = 0; i <= j; i++) {
          s2[j][i] += wx * x[m][i];
        }
        residuals[m][j] += w * (x[m][j] * hazard - meanHazard[j]);
        // Less what had gathered at its begin, plus what has at its end.
        for (int i = 0; i < p; i++) {
          double square = i <= j ? squareHazard[j][i] : squareHazard[i][j];
          shares[m][j * p + i] -=
              w
                  * (x[m][j] * x[m][i] * hazard
                      - x[m][j] * meanHazard[i]
                      - meanHazard[j] * x[m][i]
                      + square);
        }
      }
    }
  }
}
