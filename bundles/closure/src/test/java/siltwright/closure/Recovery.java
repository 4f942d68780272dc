package siltwright.closure;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import siltwright.analysis.Progress;
import siltwright.model.Machine;

/** How near the fit comes to numbers that are known, over classes of machines. */
final class Recovery {
  private final List<List<Double>> errors = new ArrayList<>();
  private final int[] covered = new int[4];
  private final double[] bias = new double[4];
  private int machines;
  private double worstRHat = 1;

  private static final List<ClassFit.Number> NUMBERS =
      List.of(
          ClosureModel::ingressMgPerH,
          ClosureModel::efficiency,
          ClosureModel::tankMgPerH,
          ClosureModel::returnMgPerH);

  static Recovery of(
      Machine said, int classes, int size, Errors truth, Errors assumed, double within, long seed) {
    return of(said, classes, size, truth, assumed, within, seed, new double[3], 1);
  }

  /** The same with numbers off the file's by a shift, and an instrument that counts too many. */
  static Recovery of(
      Machine said,
      int classes,
      int size,
      Errors truth,
      Errors assumed,
      double within,
      long seed,
      double[] shift,
      double instrument) {
    Recovery r = new Recovery();
    for (int k = 0; k < 4; k++) {
      r.errors.add(new ArrayList<>());
    }
    for (int c = 0; c < classes; c++) {
      MadeMachines made =
          MadeMachines.of(said, size, truth, 0.3, within, seed + c, shift, instrument);
      ClassFit fit = ClassFit.of(made.models, assumed, seed + c, Progress.NONE);
      r.worstRHat = Math.max(r.worstRHat, fit.rHat());
      for (int i = 0; i < size; i++) {
        for (int k = 0; k < 4; k++) {
          double t = NUMBERS.get(k).of(made.models.get(i), made.truth.get(i));
          ClassFit.Told told = fit.told(i, NUMBERS.get(k));
          r.errors.get(k).add(Math.abs(told.median() / t - 1));
          r.bias[k] += Math.log(told.median() / t);
          r.covered[k] += told.low() <= t && t <= told.high() ? 1 : 0;
        }
        r.machines++;
      }
    }
    return r;
  }

  /** Median relative error: 0 all ingress, 1 field efficiency, 2 into tank, 3 into return line. */
  double error(int k) {
    double[] sorted = errors.get(k).stream().mapToDouble(v -> v).sorted().toArray();
    return sorted[sorted.length / 2];
  }

  double cover(int k) {
    return covered[k] / (double) machines;
  }

  double rHat() {
    return worstRHat;
  }

  String line() {
    StringBuilder text = new StringBuilder();
    for (int k = 0; k < 4; k++) {
      text.append(
          String.format(
              Locale.ROOT,
              " %.1f %% (%.0f %%) %+.3f |",
              100 * error(k),
              100 * cover(k),
              bias[k] / machines));
    }
    return text + String.format(Locale.ROOT, " %.3f |", worstRHat);
  }
}
