package siltwright.life;

/** Cholesky factors of a small symmetric matrix in the leading rows of a row-major array. */
final class Cholesky {
  private final int n;
  private final double[] l;

  private Cholesky(int n, double[] l) {
    this.n = n;
    this.l = l;
  }

  /**
   * Factors sign * a + ridge * diag(|a|) for the leading n rows and columns.
   *
   * @param stride row length of {@code a}
   * @return the factors, or null if the matrix is not positive definite to working precision
   */
  static Cholesky of(double[] a, int stride, int n, double sign, double ridge) {
    double[] l = new double[n * n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double s = sign * a[i * stride + j];
        double scale = Math.abs(s);
        if (i == j) {
          s += ridge * Math.max(scale, 1e-12);
        }
        for (int k = 0; k < j; k++) {
          s -= l[i * n + k] * l[j * n + k];
        }
        if (i == j) {
          if (!(s > 1e-14 * scale)) {
            return null;
          }
          l[i * n + i] = Math.sqrt(s);
        } else {
          l[i * n + j] = s / l[j * n + j];
        }
      }
    }
    return new Cholesky(n, l);
  }

  /** Returns the solution for one right-hand side, whose leading n entries are read. */
  double[] solve(double[] rhs) {
    double[] v = new double[n];
    for (int i = 0; i < n; i++) {
      double s = rhs[i];
      for (int k = 0; k < i; k++) {
        s -= l[i * n + k] * v[k];
      }
      v[i] = s / l[i * n + i];
    }
    for (int i = n - 1; i >= 0; i--) {
      double s = v[i];
      for (int k = i + 1; k < n; k++) {
        s -= l[k * n + i] * v[k];
      }
      v[i] = s / l[i * n + i];
    }
    return v;
  }

  /** Returns the inverse. */
  double[][] inverse() {
    double[][] inverse = new double[n][];
    double[] unit = new double[n];
    for (int i = 0; i < n; i++) {
      unit[i] = 1;
      inverse[i] = solve(unit);
      unit[i] = 0;
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        double mean = 0.5 * (inverse[i][j] + inverse[j][i]);
        inverse[i][j] = mean;
        inverse[j][i] = mean;
      }
    }
    return inverse;
  }
}
