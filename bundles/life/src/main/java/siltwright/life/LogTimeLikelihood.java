package siltwright.life;

import java.util.Arrays;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.ForkJoinTask;

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
  /** Rows worked on at once: their scratch stays in the nearest cache. */
  private static final int BLOCK = 512;

  /**
   * Above so many rows two threads share them; fixed, so that sums do not depend on the machine.
   */
  private static final int MANY_ROWS = 20_000;

  /** Below this width in z an interval is its middle, to within its square over 24. */
  private static final double NARROW = 1e-4;

  final LifeFamily family;
  final int columns;
  private final int failedEnd;
  private final int survivedEnd;
  private final int foundEnd;
  private final int end;
  private final double[] y;
  private final double[] yWidth;
  private final double[] weight;
  private final double[] x;
  private final double[] sums;
  private final double[] eta;
  private final double[] first;
  private final double[] second;
  private final double[] cross;
  private double logLikelihood;
  private double tauFirst;
  private double tauSecond;

  /** Takes every other block of very many rows; else null. */
  private LogTimeLikelihood beside;

  private LogTimeLikelihood(
      LifeFamily family,
      int columns,
      int[] ends,
      double[] y,
      double[] yWidth,
      double[] weight,
      double[] x) {
    this.family = family;
    this.columns = columns;
    this.failedEnd = ends[0];
    this.survivedEnd = ends[1];
    this.foundEnd = ends[2];
    this.end = ends[3];
    this.y = y;
    this.yWidth = yWidth;
    this.weight = weight;
    this.x = x;
    this.sums = new double[columns + columns * (columns + 1) / 2 + columns];
    int block = Math.min(BLOCK, end);
    this.eta = new double[block];
    this.first = new double[block];
    this.second = new double[block];
    this.cross = new double[block];
  }

  /**
   * Prepares rows.
   *
   * @param data records
   * @param counts counts to use instead of the data's own, 0 leaves a row out; or null
   * @param design covariates, a column after another, {@code columns} of them, intercept included;
   *     or null for an intercept alone
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
    double[] yWidth = new double[size[3]];
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
          yWidth[r - intervals] = Math.log1p((upper - lower) / lower);
        }
        copy(design, i, n, x, r, columns, rows);
      }
      if (data.entryH(i) > shiftH) {
        int r = next[1]++;
        y[r] = Math.log(data.entryH(i) - shiftH);
        w[r] = -c;
        copy(design, i, n, x, r, columns, rows);
      }
    }
    return new LogTimeLikelihood(family, columns, next, y, yWidth, w, x);
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

  /** Copies a row to another place in columns of another length. */
  private static void copy(
      double[] from, int row, int fromRows, double[] to, int r, int columns, int rows) {
    if (from != null) {
      for (int j = 0; j < columns; j++) {
        to[j * rows + r] = from[j * fromRows + row];
      }
    }
  }

  /** Returns this likelihood for another thread: the rows are shared, the scratch space is not. */
  LogTimeLikelihood fork() {
    int[] ends = {failedEnd, survivedEnd, foundEnd, end};
    return new LogTimeLikelihood(family, columns, ends, y, yWidth, weight, x);
  }

  /** Returns the number of rows. */
  int rows() {
    return end;
  }

  /** Returns the likelihood of every so-many-th row of each kind. */
  LogTimeLikelihood every(int step) {
    int[] from = {0, failedEnd, survivedEnd, foundEnd};
    int[] to = {failedEnd, survivedEnd, foundEnd, end};
    int[] ends = new int[4];
    int n = 0;
    for (int kind = 0; kind < 4; kind++) {
      n += (to[kind] - from[kind] + step - 1) / step;
      ends[kind] = n;
    }
    double[] someY = new double[n];
    double[] someWeight = new double[n];
    double[] someWidth = new double[n - ends[2]];
    double[] someX = x == null ? null : new double[n * columns];
    int r = 0;
    for (int kind = 0; kind < 4; kind++) {
      for (int i = from[kind]; i < to[kind]; i += step) {
        someY[r] = y[i];
        someWeight[r] = weight[i];
        if (kind == 3) {
          someWidth[r - ends[2]] = yWidth[i - foundEnd];
        }
        for (int j = 0; x != null && j < columns; j++) {
          someX[j * n + r] = x[j * end + i];
        }
        r++;
      }
    }
    return new LogTimeLikelihood(family, columns, ends, someY, someWidth, someWeight, someX);
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
    if (end <= MANY_ROWS) {
      addBlocks(theta, 0, 1);
    } else {
      if (beside == null) {
        beside = fork();
      }
      ForkJoinTask<?> others =
          ForkJoinPool.commonPool().submit(() -> beside.addBlocks(theta, 1, 2));
      addBlocks(theta, 0, 2);
      others.join();
      addSums(beside);
    }
    fill(Math.exp(-theta[columns]), gradient, hessian);
    return logLikelihood;
  }

  /** Sums over every so-many-th block of rows, beginning with the given one. */
  private void addBlocks(double[] theta, int firstBlock, int step) {
    double tau = theta[columns];
    double invSigma = Math.exp(-tau);
    Arrays.fill(sums, 0);
    logLikelihood = 0;
    tauFirst = 0;
    tauSecond = 0;
    int[] ends = {failedEnd, survivedEnd, foundEnd, end};
    int start = 0;
    for (int kind = 0; kind < 4; kind++) {
      for (int from = start + firstBlock * BLOCK; from < ends[kind]; from += step * BLOCK) {
        int n = Math.min(BLOCK, ends[kind] - from);
        predict(theta, from, n);
        if (kind == 3) {
          intervals(from, n, invSigma);
        } else if (family.extremeValue()) {
          extremeValues(kind, from, n, tau, invSigma);
        } else {
          normals(kind, from, n, tau, invSigma);
        }
        addBlock(from, n);
      }
      start = ends[kind];
    }
  }

  private void addSums(LogTimeLikelihood other) {
    for (int k = 0; k < sums.length; k++) {
      sums[k] += other.sums[k];
    }
    logLikelihood += other.logLikelihood;
    tauFirst += other.tauFirst;
    tauSecond += other.tauSecond;
  }

  private void predict(double[] theta, int from, int n) {
    Arrays.fill(eta, 0, n, theta[0]);
    for (int j = 1; j < columns; j++) {
      double bj = theta[j];
      int at = j * end + from;
      for (int i = 0; i < n; i++) {
        eta[i] += bj * x[at + i];
      }
    }
  }

  private void extremeValues(int kind, int from, int n, double tau, double invSigma) {
    double l = 0;
    double m1 = 0;
    double m2 = 0;
    if (kind < 2) {
      double seen = kind == 0 ? 1 : 0;
      for (int i = 0; i < n; i++) {
        double yi = y[from + i];
        double w = weight[from + i];
        double z = (yi - eta[i]) * invSigma;
        double wu = w * Math.exp(z);
        double d = seen * w;
        double h1 = d - wu;
        l += d * (z - tau - yi) - wu;
        m1 += h1 * z + d;
        m2 += h1 * z - wu * z * z;
        first[i] = h1;
        second[i] = -wu;
        cross[i] = h1 - wu * z;
      }
    } else {
      for (int i = 0; i < n; i++) {
        double w = weight[from + i];
        double z = (y[from + i] - eta[i]) * invSigma;
        double u = Math.exp(z);
        double q = u < 1e-300 ? 1 : u / Math.expm1(u);
        double h1 = w * q;
        double h2 = h1 == 0 ? 0 : h1 * (1 - u - q);
        l += w * (u < 1e-300 ? z : Math.log(-Math.expm1(-u)));
        m1 += h1 * z;
        m2 += h2 * z * z + h1 * z;
        first[i] = h1;
        second[i] = h2;
        cross[i] = h1 + h2 * z;
      }
    }
    logLikelihood += l;
    tauFirst += m1;
    tauSecond += m2;
  }

  private void normals(int kind, int from, int n, double tau, double invSigma) {
    double l = 0;
    double m1 = 0;
    double m2 = 0;
    for (int i = 0; i < n; i++) {
      double yi = y[from + i];
      double w = weight[from + i];
      double z = (yi - eta[i]) * invSigma;
      double h1;
      double h2;
      if (kind == 0) {
        h1 = -w * z;
        h2 = -w;
        l += w * (-0.5 * z * z - NormalTail.LOG_SQRT_2PI - tau - yi);
        m1 += w;
      } else {
        double out = kind == 1 ? z : -z; // found failed is survived, seen in the mirror
        double r = NormalTail.hazard(out);
        h1 = kind == 1 ? -w * r : w * r;
        h2 = -w * r * (r - out);
        l += w * NormalTail.logUpper(out);
      }
      m1 += h1 * z;
      m2 += h2 * z * z + h1 * z;
      first[i] = h1;
      second[i] = h2;
      cross[i] = h1 + h2 * z;
    }
    logLikelihood += l;
    tauFirst += m1;
    tauSecond += m2;
  }

  /** Adds ln(F(upper) - F(lower)); both ends move with the parameters. */
  private void intervals(int from, int n, double invSigma) {
    boolean extreme = family.extremeValue();
    for (int i = 0; i < n; i++) {
      double zl = (y[from + i] - eta[i]) * invSigma;
      double width = yWidth[from + i - foundEnd] * invSigma;
      double zu = zl + width;
      double w = weight[from + i];
      if (width < NARROW) {
        narrow(i, zl + 0.5 * width, Math.log(width), w);
        continue;
      }
      double logShare;
      double gl; // first derivatives by the two ends
      double gu;
      double cl; // f' over the share at the ends, with their signs
      double cu;
      if (extreme) {
        double ul = Math.exp(zl);
        double uu = Math.exp(zu);
        double share = -Math.expm1(ul - uu); // of those that reached the lower end
        double rest = Math.exp(ul - uu);
        logShare = -ul + Math.log(share);
        gl = -ul / share;
        gu = rest == 0 ? 0 : uu * rest / share;
        cl = gl * (1 - ul);
        cu = rest == 0 ? 0 : gu * (1 - uu);
      } else {
        logShare = logNormalShare(zl, zu);
        gl = -Math.exp(-0.5 * zl * zl - NormalTail.LOG_SQRT_2PI - logShare);
        gu = Math.exp(-0.5 * zu * zu - NormalTail.LOG_SQRT_2PI - logShare);
        cl = -zl * gl;
        cu = -zu * gu;
      }
      // The squares of the ends' derivatives are summed before squaring: they nearly cancel.
      double sum = gl + gu;
      double moment = gl * zl + gu * zu;
      first[i] = w * sum;
      second[i] = w * (cl + cu - sum * sum);
      cross[i] = w * (cl * zl + cu * zu - sum * moment + sum);
      logLikelihood += w * logShare;
      tauFirst += w * moment;
      tauSecond += w * (cl * zl * zl + cu * zu * zu - moment * moment + moment);
    }
  }

  /** Adds an interval as its middle's density times its width, whose differences would be lost. */
  private void narrow(int i, double z, double logWidth, double w) {
    double u = family.extremeValue() ? Math.exp(z) : 0;
    double h1 = w * (family.extremeValue() ? 1 - u : -z);
    double h2 = w * (family.extremeValue() ? -u : -1);
    double logDensity = family.extremeValue() ? z - u : -0.5 * z * z - NormalTail.LOG_SQRT_2PI;
    first[i] = h1;
    second[i] = h2;
    cross[i] = h1 + h2 * z;
    logLikelihood += w * (logDensity + logWidth);
    tauFirst += h1 * z + w;
    tauSecond += h2 * z * z + h1 * z;
  }

  /** Returns ln of the normal share between two ends, from the tail in which it is not rounded. */
  private static double logNormalShare(double zl, double zu) {
    double mid = 0.5 * (zu + zl);
    double near = NormalTail.logUpper(mid > 0 ? zl : -zu);
    double far = NormalTail.logUpper(mid > 0 ? zu : -zl);
    return near + Math.log(-Math.expm1(far - near));
  }

  /** Adds a block to the sums of h' x, h'' x x' (lower triangle) and the cross terms with tau. */
  private void addBlock(int from, int n) {
    int p = columns;
    int k = p;
    int crossAt = sums.length - p;
    sums[0] += sum(first, n);
    sums[k++] += sum(second, n);
    sums[crossAt] += sum(cross, n);
    for (int j = 1; j < p; j++) {
      int at = j * end + from;
      sums[j] += dot(first, x, at, n);
      sums[crossAt + j] += dot(cross, x, at, n);
      sums[k++] += dot(second, x, at, n);
      for (int i = 0; i < n; i++) {
        eta[i] = second[i] * x[at + i]; // the predictions have served
      }
      for (int m = 1; m <= j; m++) {
        sums[k++] += dot(eta, x, m * end + from, n);
      }
    }
  }

  private static double sum(double[] a, int n) {
    double s = 0;
    for (int i = 0; i < n; i++) {
      s += a[i];
    }
    return s;
  }

  /** Returns a dot product; four sums, so that additions need not wait for each other. */
  private static double dot(double[] a, double[] b, int at, int n) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    int i = 0;
    for (; i + 3 < n; i += 4) {
      s0 += a[i] * b[at + i];
      s1 += a[i + 1] * b[at + i + 1];
      s2 += a[i + 2] * b[at + i + 2];
      s3 += a[i + 3] * b[at + i + 3];
    }
    for (; i < n; i++) {
      s0 += a[i] * b[at + i];
    }
    return s0 + s1 + (s2 + s3);
  }

  private void fill(double invSigma, double[] gradient, double[] hessian) {
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
    gradient[p] = -tauFirst;
    hessian[p * size + p] = tauSecond;
  }
}
