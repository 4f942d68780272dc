package siltwright.life;

import java.util.ArrayList;
import java.util.List;

/**
 * The columns of a regression: an intercept, each number as it is, each level but the reference as
 * 0 or 1; then all but the intercept centred and scaled, which keeps the climb well conditioned.
 */
final class Design {
  static final String INTERCEPT = "(Intercept)";

  final List<String> names = new ArrayList<>();
  final int columns;

  /** A column after another, centred and scaled. */
  final double[] x;

  final double[] mean;
  final double[] spread;

  private Design(LifeData data, List<String> covariates) {
    names.add(INTERCEPT);
    for (String name : covariates) {
      Covariate c = column(data, name);
      if (c instanceof Covariate.Categorical levels) {
        for (int k = 1; k < levels.levels().size(); k++) {
          names.add(levelName(name, levels.levels().get(k)));
        }
      } else {
        names.add(name);
      }
    }
    columns = names.size();
    int rows = data.rows();
    x = new double[rows * columns];
    mean = new double[columns];
    spread = new double[columns];
    fill(data, covariates, rows);
    standardise(data, rows);
  }

  static Design of(LifeData data, List<String> covariates) {
    return new Design(data, covariates);
  }

  static String levelName(String covariate, String level) {
    return covariate + "=" + level;
  }

  static Covariate column(LifeData data, String name) {
    Covariate c = data.covariates().get(name);
    if (c == null) {
      throw new IllegalArgumentException(
          "no covariate " + name + ", expected one of " + data.covariates().keySet());
    }
    return c;
  }

  private void fill(LifeData data, List<String> covariates, int rows) {
    for (int i = 0; i < rows; i++) {
      x[i] = 1;
    }
    int j = 1;
    for (String name : covariates) {
      Covariate c = column(data, name);
      if (c instanceof Covariate.Numeric numeric) {
        double[] v = numeric.values();
        System.arraycopy(v, 0, x, j * rows, rows);
        j++;
      } else if (c instanceof Covariate.Categorical levels) {
        int[] codes = levels.codes();
        for (int i = 0; i < rows; i++) {
          if (codes[i] > 0) {
            x[(j + codes[i] - 1) * rows + i] = 1;
          }
        }
        j += levels.levels().size() - 1;
      }
    }
  }

  private void standardise(LifeData data, int rows) {
    double total = data.components();
    spread[0] = 1;
    for (int j = 1; j < columns; j++) {
      double m = 0;
      for (int i = 0; i < rows; i++) {
        m += data.countAt(i) * x[j * rows + i];
      }
      m /= total;
      double square = 0;
      double largest = 0;
      for (int i = 0; i < rows; i++) {
        double d = x[j * rows + i] - m;
        largest = Math.max(largest, Math.abs(x[j * rows + i]));
        square += data.countAt(i) * d * d;
      }
      double s = Math.sqrt(square / total);
      mean[j] = m;
      spread[j] = s > 1e-12 * largest ? s : 0;
      for (int i = 0; i < rows; i++) {
        x[j * rows + i] = spread[j] == 0 ? 0 : (x[j * rows + i] - m) / s;
      }
    }
  }

  /** Returns a sentence on columns that others determine, or null if none is. */
  String collinearity(LifeData data) {
    int p = columns;
    double[] gram = new double[p * p];
    int rows = data.rows();
    for (int a = 1; a < p; a++) {
      for (int b = 1; b <= a; b++) {
        double sum = 0;
        for (int i = 0; i < rows; i++) {
          sum += data.countAt(i) * x[a * rows + i] * x[b * rows + i];
        }
        gram[a * p + b] = sum;
      }
    }
    double total = data.components();
    for (int a = 1; a < p; a++) {
      if (spread[a] == 0) {
        return names.get(a) + " is the same in every row.";
      }
      double[] onto = new double[a - 1];
      double rest = gram[a * p + a] / total;
      if (a > 1) {
        double[] block = new double[(a - 1) * (a - 1)];
        for (int r = 1; r < a; r++) {
          onto[r - 1] = gram[a * p + r] / total;
          for (int c = 1; c < a; c++) {
            block[(r - 1) * (a - 1) + c - 1] = gram[Math.max(r, c) * p + Math.min(r, c)] / total;
          }
        }
        double[] coefficients = Cholesky.of(block, a - 1, a - 1, 1, 0).solve(onto);
        for (int r = 0; r < a - 1; r++) {
          rest -= coefficients[r] * onto[r];
        }
        if (rest < 1e-9) {
          List<String> others = new ArrayList<>();
          for (int r = 0; r < a - 1; r++) {
            if (Math.abs(coefficients[r]) > 1e-6) {
              others.add(names.get(r + 1));
            }
          }
          return names.get(a) + " is determined by " + String.join(", ", others) + ".";
        }
      }
    }
    return null;
  }
}
