package siltwright.closure;

/** Small positive definite matrices. */
final class Small {
  private Small() {}

  /** Lower factor L of A = L L'. */
  static double[][] cholesky(double[][] a) {
    int n = a.length;
    double[][] l = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = a[i][j];
        for (int k = 0; k < j; k++) {
          sum -= l[i][k] * l[j][k];
        }
        l[i][j] = i == j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / l[j][j];
      }
    }
    return l;
  }

  /** Solves A x = b. */
  static double[] solve(double[][] a, double[] b) {
    double[][] l = cholesky(a);
    return backward(l, forward(l, b));
  }

  /** Solves L x = b. */
  static double[] forward(double[][] l, double[] b) {
    double[] x = b.clone();
    for (int i = 0; i < x.length; i++) {
      for (int k = 0; k < i; k++) {
        x[i] -= l[i][k] * x[k];
      }
      x[i] /= l[i][i];
    }
    return x;
  }

  /** Solves L' x = b, which turns independent normals into ones of precision L L'. */
  static double[] backward(double[][] l, double[] b) {
    double[] x = b.clone();
    for (int i = x.length - 1; i >= 0; i--) {
      for (int k = i + 1; k < x.length; k++) {
        x[i] -= l[k][i] * x[k];
      }
      x[i] /= l[i][i];
    }
    return x;
  }
}
