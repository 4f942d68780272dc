package siltwright.life;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.SingularValueDecomposition;

/**
 * Whether groups live alike, without a law: the log-rank family of tests.
 *
 * <p>Failures in each group against those expected if all shared one risk, weighted by S(t-)^rho of
 * the pooled survival; hypergeometric variance; strata summed. Source: D. P. Harrington, T. R.
 * Fleming, Biometrika 69 (1982) 553-566 (from memory).
 *
 * <p>The arrays are handed out as they are, not copied: read them, don't write to them.
 *
 * @param groups levels of the covariate
 * @param components in each group
 * @param observed weighted failures
 * @param expected weighted failures expected
 * @param variance covariance of observed less expected
 * @param test chi-square with groups - 1 degrees of freedom
 */
public record LogRank(
    List<String> groups,
    double[] components,
    double[] observed,
    double[] expected,
    double[][] variance,
    SignificanceTest test) {
  /**
   * Tests.
   *
   * @param group categorical covariate to compare
   * @param rho 0 weights all failures alike, 1 early ones more
   * @param stratum categorical covariate within which to compare, or null
   * @throws IllegalArgumentException if a covariate is not categorical, or a failure is known only
   *     within an interval
   */
  public static LogRank of(LifeData data, String group, double rho, String stratum) {
    Covariate.Categorical groups = categorical(data, group);
    int g = groups.levels().size();
    double[] n = new double[g];
    double[] observed = new double[g];
    double[] expected = new double[g];
    double[][] variance = new double[g][g];
    for (int i = 0; i < data.rows(); i++) {
      n[groups.codes()[i]] += data.countAt(i);
    }
    if (stratum == null) {
      add(data, group, rho, observed, expected, variance);
    } else {
      Covariate.Categorical strata = categorical(data, stratum);
      for (int s = 0; s < strata.levels().size(); s++) {
        int code = s;
        LifeData part = data.where(i -> strata.codes()[i] == code);
        add(part, group, rho, observed, expected, variance);
      }
    }
    double[] difference = new double[g];
    Arrays.setAll(difference, k -> observed[k] - expected[k]);
    // The groups' differences sum to zero, so the variance lacks one rank: its pseudo-inverse.
    SingularValueDecomposition svd =
        new SingularValueDecomposition(new Array2DRowRealMatrix(variance));
    double[] solved = svd.getSolver().solve(new Array2DRowRealMatrix(difference)).getColumn(0);
    double chiSquare = 0;
    for (int k = 0; k < g; k++) {
      chiSquare += difference[k] * solved[k];
    }
    return new LogRank(
        groups.levels(), n, observed, expected, variance, SignificanceTest.of(chiSquare, g - 1));
  }

  private static Covariate.Categorical categorical(LifeData data, String name) {
    if (Design.column(data, name) instanceof Covariate.Categorical c) {
      return c;
    }
    throw new IllegalArgumentException(name + " holds numbers, expected levels to compare");
  }

  private static void add(
      LifeData data,
      String group,
      double rho,
      double[] observed,
      double[] expected,
      double[][] variance) {
    int g = observed.length;
    KaplanMeier pooled = KaplanMeier.of(data);
    double[] times = pooled.timesH();
    double[] survival = pooled.survival();
    int[] codes = categorical(data, group).codes();
    double[][] died = new double[times.length][g];
    double[][] risk = new double[times.length][g];
    for (int i = 0; i < data.rows(); i++) {
      double c = data.countAt(i);
      int leaves = Arrays.binarySearch(times, data.lowerH(i));
      if (data.failed(i)) {
        died[leaves][codes[i]] += c;
      }
      int last = leaves >= 0 ? leaves : -leaves - 2;
      if (last >= 0) {
        risk[last][codes[i]] += c; // cumulated backwards below
      }
      if (data.entryH(i) > 0) {
        int enters = Arrays.binarySearch(times, data.entryH(i));
        int before = enters >= 0 ? enters : -enters - 2;
        if (before >= 0) {
          risk[before][codes[i]] -= c;
        }
      }
    }
    for (int j = times.length - 2; j >= 0; j--) {
      for (int k = 0; k < g; k++) {
        risk[j][k] += risk[j + 1][k];
      }
    }
    for (int j = 0; j < times.length; j++) {
      double w = rho == 0 ? 1 : Math.pow(j == 0 ? 1 : survival[j - 1], rho);
      double n = Arrays.stream(risk[j]).sum();
      double d = Arrays.stream(died[j]).sum();
      double spread = n > 1 ? w * w * d * (n - d) / (n - 1) : 0;
      for (int k = 0; k < g; k++) {
        double share = risk[j][k] / n;
        observed[k] += w * died[j][k];
        expected[k] += w * d * share;
        for (int m = 0; m < g; m++) {
          variance[k][m] += spread * share * ((k == m ? 1 : 0) - risk[j][m] / n);
        }
      }
    }
  }
}
