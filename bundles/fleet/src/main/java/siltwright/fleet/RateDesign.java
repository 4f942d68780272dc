package siltwright.fleet;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import siltwright.life.Covariate;

/** What may explain the rate of a machine, as columns of numbers: centred and scaled. */
final class RateDesign {
  final List<String> names = new ArrayList<>();

  /** A row a machine. */
  final double[][] x;

  final double[] spread;

  private RateDesign(int machines, Map<String, Covariate> covariates) {
    List<double[]> columns = new ArrayList<>();
    covariates.forEach(
        (name, c) -> {
          if (c instanceof Covariate.Categorical levels) {
            for (int k = 1; k < levels.levels().size(); k++) {
              double[] column = new double[machines];
              for (int m = 0; m < machines; m++) {
                column[m] = levels.codes()[m] == k ? 1 : 0;
              }
              names.add(name + "=" + levels.levels().get(k));
              columns.add(column);
            }
          } else {
            names.add(name);
            columns.add(((Covariate.Numeric) c).values());
          }
        });
    int p = names.size();
    x = new double[machines][p];
    spread = new double[p];
    for (int j = 0; j < p; j++) {
      double mean = 0;
      for (double v : columns.get(j)) {
        mean += v / machines;
      }
      double square = 0;
      double largest = 0;
      for (double v : columns.get(j)) {
        square += (v - mean) * (v - mean) / machines;
        largest = Math.max(largest, Math.abs(v));
      }
      spread[j] = Math.sqrt(square) > 1e-12 * largest ? Math.sqrt(square) : 0;
      for (int m = 0; m < machines; m++) {
        x[m][j] = spread[j] == 0 ? 0 : (columns.get(j)[m] - mean) / spread[j];
      }
    }
  }

  static RateDesign of(int machines, Map<String, Covariate> covariates) {
    return new RateDesign(machines, covariates);
  }
}
