package siltwright.life;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The share of components that a failure mode takes by an age, other modes at work too: Aalen and
 * Johansen's estimate, without a law.
 *
 * <pre>
 *   F_k(t) = sum S(t_j-) d_kj/n_j
 *   Var F_k(t) = sum (F_k(t) - F_k(t_j))² d_j/(n_j (n_j - d_j))
 *              + sum S(t_j-)² d_kj (n_j - d_kj)/n_j³
 *              - 2 sum (F_k(t) - F_k(t_j)) S(t_j-) d_kj/n_j²
 * </pre>
 *
 * <p>Sources: O. Aalen, S. Johansen, Scandinavian Journal of Statistics 5 (1978) 141-150; the
 * variance by the delta method as in E. Marubini, M. G. Valsecchi, Analysing Survival Data, 1995
 * (from memory); with one mode it is Greenwood's.
 *
 * <p>The arrays are handed out as they are, not copied: read them, don't write to them.
 *
 * @param modes names
 * @param timesH distinct failure times, h
 * @param incidence share taken by each mode (first index) up to each time
 * @param standardErrors of the shares
 */
public record CumulativeIncidence(
    List<String> modes, double[] timesH, double[][] incidence, double[][] standardErrors) {
  /**
   * Estimates the shares.
   *
   * @throws IllegalStateException if the records have no modes
   * @throws IllegalArgumentException if a failure is known only within an interval
   */
  public static CumulativeIncidence of(LifeData data) {
    Covariate.Categorical column = data.modeColumn();
    KaplanMeier km = KaplanMeier.of(data);
    double[] times = km.timesH();
    double[][] died = new double[column.levels().size()][times.length];
    for (int i = 0; i < data.rows(); i++) {
      if (data.failed(i)) {
        int at = Arrays.binarySearch(times, data.lowerH(i));
        died[column.codes()[i]][at] += data.countAt(i);
      }
    }
    List<String> modes = new ArrayList<>();
    List<double[]> shares = new ArrayList<>();
    List<double[]> errors = new ArrayList<>();
    for (int k = 0; k < died.length; k++) {
      if (!column.levels().get(k).isEmpty()) {
        double[] share = new double[times.length];
        double[] error = new double[times.length];
        mode(km, died[k], share, error);
        modes.add(column.levels().get(k));
        shares.add(share);
        errors.add(error);
      }
    }
    return new CumulativeIncidence(
        List.copyOf(modes),
        times,
        shares.toArray(double[][]::new),
        errors.toArray(double[][]::new));
  }

  private static void mode(KaplanMeier km, double[] died, double[] share, double[] error) {
    double[] n = km.atRisk();
    double[] d = km.failed();
    double[] s = km.survival();
    double f = 0;
    double before = 1;
    // The squares multiplied out, so that one pass carries their sums.
    double a0 = 0;
    double a1 = 0;
    double a2 = 0;
    double b = 0;
    double c0 = 0;
    double c1 = 0;
    for (int j = 0; j < share.length; j++) {
      f += before * died[j] / n[j];
      double rest = n[j] - d[j];
      if (rest > 0) {
        double a = d[j] / (n[j] * rest);
        a0 += a;
        a1 += a * f;
        a2 += a * f * f;
      }
      b += before * before * died[j] * (n[j] - died[j]) / (n[j] * n[j] * n[j]);
      double c = before * died[j] / (n[j] * n[j]);
      c0 += c;
      c1 += c * f;
      share[j] = f;
      double variance = f * f * a0 - 2 * f * a1 + a2 + b - 2 * (f * c0 - c1);
      error[j] = Math.sqrt(Math.max(0, variance));
      before = s[j];
    }
  }
}
