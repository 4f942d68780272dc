package siltwright.life;

import java.util.Arrays;

/**
 * The log likelihood of ln T = x'b + sigma Z with its first and second derivatives.
 *
 * <p>Parameters are b and, last, tau = ln sigma. Rows lie in segments by kind (failure seen,
 * survived, found failed, interval), so that the inner loops don't branch; a late entry is one more
 * survived row of negative count. With z = (ln t - x'b)/sigma and a row's contribution h(z):
 *
 * <pre>
 *   dl/db = -h' x/sigma              dl/dtau = -h' z
 *   d²l/db² = h'' x x'/sigma²        d²l/db dtau = (h'' z + h') x/sigma     d²l/dtau² = h'' z² + h' z
 * </pre>
 *
 * <p>A failure seen adds -tau - ln t, so the likelihood is that of T itself.
 */
final class LogTimeLikelihood {
  final LifeFamily family;
  final int columns;
  private final int failedEnd;
  private final int survivedEnd;
  private final int foundEnd;
  private final int end;
  private final double[] y;
  private final double[] yUpper;
  private final double[] weight;
  private final double[] x;
  private final double[] sums;
  private final double[] b;

  private LogTimeLikelihood(
      LifeFamily family,
      int columns,
      int[] ends,
      double[] y,
      double[] yUpper,
      double[] weight,
      double[] x) {
    this.family = family;
    this.columns = columns;
    this.failedEnd = ends[0];
    this.survivedEnd = ends[1];
    this.foundEnd = ends[2];
    this.end = ends[3];
    this.y = y;
    this.yUpper = yUpper;
    this.weight = weight;
    this.x = x;
    this.sums = new double[columns + columns * (columns + 1) / 2 + columns];
    this.b = new double[columns];
  }

  /**
   * Prepares rows.
   *
   * @param data records
   * @param counts counts to use instead of the data's own, 0 leaves a row out; or null
   * @param design covariates a row, row-major, {@code columns} wide, intercept included; or null
   *     for an intercept alone
   * @param shiftH hours taken off every time, below every failure
   */
  static LogTimeLikelihood of(
      LifeFamily family,
      LifeData data,
      double[] counts,
      double[] design,
      int columns,
      double shiftH) {
    int n = data.rows();
    int[] size = new int[4];
    for (int i = 0; i < n; i++) {
      if (counts != null && counts[i] == 0) {
        continue;
      }
      double lower = data.lowerH(i) - shiftH;
      int kind = kind(lower, data.upperH(i) - shiftH);
      if (kind >= 0) {
        size[kind]++;
      }
      if (data.entryH(i) > shiftH) {
        size[1]++;
      }
    }
    int[] next = new int[4];
    for (int k = 1; k < 4; k++) {
      next[k] = next[k - 1] + size[k - 1];
    }
    int rows = next[3] + size[3];
    double[] y = new double[rows];
    double[] w = new double[rows];
    double[] yUpper = new double[size[3]];
    double[] x = design == null ? null : new double[rows * columns];
    int intervals = next[3];
    for (int i = 0; i < n; i++) {
      double c = counts == null ? data.countAt(i) : counts[i];
      if (c == 0) {
        continue;
      }
      double lower = data.lowerH(i) - shiftH;
      double upper = data.upperH(i) - shiftH;
      int kind = kind(lower, upper);
      if (kind >= 0) {
        int r = next[kind]++;
        y[r] = Math.log(kind == 2 ? upper : lower);
        w[r] = c;
        if (kind == 3) {
          yUpper[r - intervals] = Math.log(upper);
        }
        copy(design, i, x, r, columns);
      }
      if (data.entryH(i) > shiftH) {
        int r = next[1]++;
        y[r] = Math.log(data.entryH(i) - shiftH);
        w[r] = -c;
        copy(design, i, x, r, columns);
      }
    }
    return new LogTimeLikelihood(family, columns, next, y, yUpper, w, x);
  }

  /** Returns the segment of a row: 0 failed, 1 survived, 2 found failed, 3 interval, -1 nothing. */
  private static int kind(double lower, double upper) {
    if (upper == Double.POSITIVE_INFINITY) {
      return lower > 0 ? 1 : -1;
    }
    if (lower == upper) {
      return 0;
    }
    return lower > 0 ? 3 : 2;
  }

  private static void copy(double[] from, int row, double[] to, int r, int columns) {
    if (from != null) {
      System.arraycopy(from, row * columns, to, r * columns, columns);
    }
  }

  /** Returns this likelihood for another thread: the rows are shared, the scratch space is not. */
  LogTimeLikelihood fork() {
    int[] ends = {failedEnd, survivedEnd, foundEnd, end};
    return new LogTimeLikelihood(family, columns, ends, y, yUpper, weight, x);
  }

  /**
   * Evaluates at parameters.
   *
   * @param theta b, then ln sigma
   * @param gradient receives the first derivatives, length {@code columns + 1}
   * @param hessian receives the second derivatives, row-major
   * @return the log likelihood; not finite where it underflows
   */
  double at(double[] theta, double[] gradient, double[] hessian) {
    int p = columns;
    double tau = theta[p];
    double invSigma = Math.exp(-tau);
    System.arraycopy(theta, 0, b, 0, p);
    Arrays.fill(sums, 0);
    double[] total = new double[5]; // log likelihood, h' , h'', and the tau terms
    if (family.extremeValue()) {
      extremeValueRows(tau, invSigma, total);
    } else {
      normalRows(tau, invSigma, total);
    }
    intervalRows(invSigma, total);
    fill(invSigma, total, gradient, hessian);
    return total[0];
  }

  /** Adds the failed, survived and found-failed rows of the extreme-value family. */
  private void extremeValueRows(double tau, double invSigma, double[] total) {
    double l = 0;
    double s1 = 0;
    double s2 = 0;
    double m1 = 0;
    double m2 = 0;
    boolean plain = x == null;
    double mu = b[0];
    for (int i = 0; i < survivedEnd; i++) {
      double z = (y[i] - (plain ? mu : eta(i))) * invSigma;
      double u = Math.exp(z);
      double w = weight[i];
      double seen = i < failedEnd ? w : 0;
      double wu = w * u;
      double h1 = seen - wu;
      l += seen * (z - tau - y[i]) - wu;
      m1 += h1 * z + seen;
      m2 += h1 * z - wu * z * z;
      if (plain) {
        s1 += h1;
        s2 -= wu;
        sums[2] += h1 - wu * z;
      } else {
        addRow(i, h1, -wu, h1 - wu * z);
      }
    }
    for (int i = survivedEnd; i < foundEnd; i++) {
      double z = (y[i] - (plain ? mu : eta(i))) * invSigma;
      double u = Math.exp(z);
      double w = weight[i];
      double e = Math.expm1(u);
      double q = u < 1e-300 ? 1 : u / e;
      double h1 = w * q;
      double h2 = h1 == 0 ? 0 : h1 * (1 - u - q);
      l += w * (u < 1e-300 ? z : Math.log(-Math.expm1(-u)));
      m1 += h1 * z;
      m2 += h2 * z * z + h1 * z;
      if (plain) {
        s1 += h1;
        s2 += h2;
        sums[2] += h2 * z + h1;
      } else {
        addRow(i, h1, h2, h2 * z + h1);
      }
    }
    finish(total, l, s1, s2, m1, m2);
  }

  private void normalRows(double tau, double invSigma, double[] total) {
    double l = 0;
    double s1 = 0;
    double s2 = 0;
    double m1 = 0;
    double m2 = 0;
    boolean plain = x == null;
    double mu = b[0];
    for (int i = 0; i < foundEnd; i++) {
      double z = (y[i] - (plain ? mu : eta(i))) * invSigma;
      double w = weight[i];
      double h1;
      double h2;
      if (i < failedEnd) {
        h1 = -w * z;
        h2 = -w;
        l += w * (-0.5 * z * z - NormalTail.LOG_SQRT_2PI - tau - y[i]);
        m1 += w;
      } else if (i < survivedEnd) {
        double r = NormalTail.hazard(z);
        h1 = -w * r;
        h2 = -w * r * (r - z);
        l += w * NormalTail.logUpper(z);
      } else {
        double r = NormalTail.hazard(-z);
        h1 = w * r;
        h2 = -w * r * (r + z);
        l += w * NormalTail.logUpper(-z);
      }
      m1 += h1 * z;
      m2 += h2 * z * z + h1 * z;
      if (plain) {
        s1 += h1;
        s2 += h2;
        sums[2] += h2 * z + h1;
      } else {
        addRow(i, h1, h2, h2 * z + h1);
      }
    }
    finish(total, l, s1, s2, m1, m2);
  }

  /** Adds ln(F(upper) - F(lower)); both ends move with the parameters. */
  private void intervalRows(double invSigma, double[] total) {
    double l = 0;
    double s1 = 0;
    double s2 = 0;
    double m1 = 0;
    double m2 = 0;
    boolean plain = x == null;
    boolean extreme = family.extremeValue();
    for (int i = foundEnd; i < end; i++) {
      double eta = plain ? b[0] : eta(i);
      double zl = (y[i] - eta) * invSigma;
      double zu = (yUpper[i - foundEnd] - eta) * invSigma;
      double w = weight[i];
      double logShare;
      double gl; // first derivatives by the two ends
      double gu;
      double cl; // f'/(F(u) - F(l)) at the ends, with their signs
      double cu;
      if (extreme) {
        double ul = Math.exp(zl);
        double uu = Math.exp(zu);
        double e = -Math.expm1(ul - uu);
        logShare = -ul + Math.log(e);
        gl = -ul / e;
        double tail = Math.exp(ul - uu);
        gu = tail == 0 ? 0 : uu * tail / e;
        cl = gl * (1 - ul);
        cu = tail == 0 ? 0 : gu * (1 - uu);
      } else {
        double width = zu - zl;
        double mid = 0.5 * (zu + zl);
        if (width < 1e-5) {
          logShare =
              -0.5 * mid * mid
                  - NormalTail.LOG_SQRT_2PI
                  + Math.log(width)
                  + Math.log1p((mid * mid - 1) * width * width / 24);
        } else if (mid > 0) {
          double a = NormalTail.logUpper(zl);
          logShare = a + Math.log(-Math.expm1(NormalTail.logUpper(zu) - a));
        } else {
          double a = NormalTail.logUpper(-zu);
          logShare = a + Math.log(-Math.expm1(NormalTail.logUpper(-zl) - a));
        }
        gl = -Math.exp(-0.5 * zl * zl - NormalTail.LOG_SQRT_2PI - logShare);
        gu = Math.exp(-0.5 * zu * zu - NormalTail.LOG_SQRT_2PI - logShare);
        cl = -zl * gl;
        cu = -zu * gu;
      }
      double hll = cl - gl * gl;
      double huu = cu - gu * gu;
      double hlu = -gl * gu;
      double h1 = w * (gl + gu);
      double h2 = w * (hll + 2 * hlu + huu);
      double t1 = w * (gl * zl + gu * zu);
      double cross = w * (huu * zu + hlu * (zu + zl) + hll * zl) + h1;
      l += w * logShare;
      m1 += t1;
      m2 += w * (huu * zu * zu + 2 * hlu * zu * zl + hll * zl * zl) + t1;
      if (plain) {
        s1 += h1;
        s2 += h2;
        sums[2] += cross;
      } else {
        addRow(i, h1, h2, cross);
      }
    }
    finish(total, l, s1, s2, m1, m2);
  }

  private void finish(double[] total, double l, double s1, double s2, double m1, double m2) {
    total[0] += l;
    total[1] += m1;
    total[2] += m2;
    if (x == null) {
      sums[0] += s1;
      sums[1] += s2;
    }
  }

  private double eta(int row) {
    double eta = 0;
    for (int j = 0, at = row * columns; j < columns; j++) {
      eta += b[j] * x[at + j];
    }
    return eta;
  }

  /** Adds one row to the sums of h' x, h'' x x' (lower triangle) and the cross terms with tau. */
  private void addRow(int row, double h1, double h2, double cross) {
    int p = columns;
    int base = row * p;
    int k = p;
    int crossAt = sums.length - p;
    for (int j = 0; j < p; j++) {
      double xj = x[base + j];
      sums[j] += h1 * xj;
      sums[crossAt + j] += cross * xj;
      double hx = h2 * xj;
      for (int m = 0; m <= j; m++) {
        sums[k++] += hx * x[base + m];
      }
    }
  }

  private void fill(double invSigma, double[] total, double[] gradient, double[] hessian) {
    int p = columns;
    int size = p + 1;
    int k = p;
    int crossAt = sums.length - p;
    for (int j = 0; j < p; j++) {
      gradient[j] = -sums[j] * invSigma;
      for (int m = 0; m <= j; m++) {
        double v = sums[k++] * invSigma * invSigma;
        hessian[j * size + m] = v;
        hessian[m * size + j] = v;
      }
      double c = sums[crossAt + j] * invSigma;
      hessian[j * size + p] = c;
      hessian[p * size + j] = c;
    }
    gradient[p] = -total[1];
    hessian[p * size + p] = total[2];
  }
}
