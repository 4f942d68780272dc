package siltwright.closure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import siltwright.contamination.Circuit;
import siltwright.model.Bands;
import siltwright.model.Ingress;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.samples.BandCounts;

/**
 * How well records can tell ingress straight into the tank at best: the information in them, with
 * every spread known that the draws of the recovery study have, and in measurements that could be
 * added.
 *
 * <pre>
 *   J = Σ a a'/σ² over records and priors,  var(ln R_T) >= g' J⁻¹ g,  median error = 0.6745 sd
 * </pre>
 *
 * <p>a is the slope of an expected logarithm by the unknown numbers: three a machine, their class's
 * means, laboratory calibration and capacity; slopes are those at the fleet file's numbers. What is
 * wrong alike in all bands of a look is integrated out. Source: van Trees' form of the Cramér-Rao
 * bound (R. D. Gill, B. Y. Levit, Bernoulli 1 (1995) 59-79, from memory).
 */
final class TankShareStudy {
  private static final int P = ClosureModel.UNKNOWNS;
  private static final double STEP = 1e-4;
  private static final double MEDIAN = 0.6744897501960817;
  private static final double CLASS_SD = 0.3;
  private static final double WITHIN = 0.2;
  private static final double ML_PER_H = 60_000;

  /** A counter in the line over a spell: its calibration, and how well a spell's mean repeats. */
  private static final double COUNTER_CALIBRATION = 0.2;

  private static final double WANTED = 0.10;
  private static final int MOST = 100_000;

  private final Errors errors = Errors.STANDARD;
  private final ClosureModel model;

  /** Slopes of a band's logarithm, and the variance that it has of its own. */
  private record Band(double[] slope, double variance) {}

  /** Information on the three numbers and on the laboratory's calibration. */
  private record Look(double[][] information) {
    Look and(Look other) {
      double[][] all = times(1).information;
      for (int a = 0; a <= P; a++) {
        for (int b = 0; b <= P; b++) {
          all[a][b] += other.information[a][b];
        }
      }
      return new Look(all);
    }

    Look times(double n) {
      double[][] all = new double[P + 1][P + 1];
      for (int a = 0; a <= P; a++) {
        for (int b = 0; b <= P; b++) {
          all[a][b] = n * information[a][b];
        }
      }
      return new Look(all);
    }
  }

  private TankShareStudy(Machine machine) {
    model = MadeMachines.of(machine, 1, errors.times(1e-3), 0, 0, 1).models.get(0);
  }

  static void print(Machine machine) {
    new TankShareStudy(machine).tables();
  }

  private void tables() {
    Look bottle = bottle(bands(this::open, 3));
    Look shut = bottle(bands(this::shut, 3));
    Look upstream = bottle(bands(this::upstream, 3));
    Look six = bottle.times(6);
    System.out.println("| record | alone | class of 5 | class known |");
    row("six samples, three elements", 3, six);
    row("the same counted to 70 µm(c)", 3, bottle(bands(this::open, 6)).times(6));
    row("24 samples, twelve elements", 12, bottle.times(24));
    row("100 samples, fifty elements", 50, bottle.times(100));
    row("six and 12 bottles upstream of the filter", 3, six, upstream.times(12));
    row("six and 100 upstream", 3, six, upstream.times(100));
    row("six and 12 with the tank shut to dust", 3, six, shut.times(12));
    row("six and 100 with the tank shut", 3, six, shut.times(100));
    for (double repeats : new double[] {0.05, 0.03, 0.02, 0.01}) {
      String what = String.format(Locale.ROOT, ", counter to %.0f %%", 100 * repeats);
      Look open = counter(repeats, this::open, this::shut);
      row("six, tank open and shut" + what, 3, six, open);
      row("six, tank and upstream" + what, 3, six, counter(repeats, this::open, this::upstream));
    }
    System.out.println("bottles that it takes to 10 %, alone and in a class of 5:");
    Look pair = bottle.and(shut);
    System.out.println("upstream " + needed(six, upstream, 1) + ", " + needed(six, upstream, 5));
    System.out.println(
        "pairs, tank open and shut " + needed(six, pair, 1) + ", " + needed(six, pair, 5));
  }

  /** Returns the fewest bottles beside the six that bring the error to 10 %, or that none do. */
  private String needed(Look six, Look more, int machines) {
    int low = 1;
    int high = MOST;
    if (spread(3, machines, CLASS_SD, six, more.times(MOST)) * MEDIAN > WANTED) {
      return "none";
    }
    while (low < high) {
      int middle = (low + high) / 2;
      if (spread(3, machines, CLASS_SD, six, more.times(middle)) * MEDIAN <= WANTED) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low + "";
  }

  private void row(String name, int elements, Look... looks) {
    System.out.printf(
        Locale.ROOT,
        "| %s | %.1f %% | %.1f %% | %.1f %% |%n",
        name,
        100 * MEDIAN * spread(elements, 1, CLASS_SD, looks),
        100 * MEDIAN * spread(elements, 5, CLASS_SD, looks),
        100 * MEDIAN * spread(elements, 1, 1e-6, looks));
  }

  /** Standard deviation of ln ingress into the tank of a machine of a class of so many. */
  private double spread(int elements, int machines, double classSd, Look... looks) {
    int common = machines * P;
    int calibration = common + P;
    int capacity = calibration + 1;
    double[][] j = new double[capacity + 1][capacity + 1];
    add(j, new int[] {calibration}, new double[] {1}, 1 / square(errors.count().all()));
    add(j, new int[] {capacity}, new double[] {1}, 1 / square(errors.capacity()));
    for (int k = 0; k < P; k++) {
      add(j, new int[] {common + k}, new double[] {1}, 1 / square(classSd));
    }
    double[] life = lifeSlope();
    for (int m = 0; m < machines; m++) {
      int[] at = {m * P, m * P + 1, m * P + 2};
      for (int k = 0; k < P; k++) {
        add(j, new int[] {at[k], common + k}, new double[] {1, -1}, 1 / square(WITHIN));
      }
      add(
          j,
          new int[] {at[0], at[1], at[2], capacity},
          new double[] {life[0], life[1], life[2], 1},
          elements / square(errors.life()));
      int[] all = {at[0], at[1], at[2], calibration};
      for (Look look : looks) {
        for (int a = 0; a <= P; a++) {
          for (int b = 0; b <= P; b++) {
            j[all[a]][all[b]] += look.information[a][b];
          }
        }
      }
    }
    double[][] inverse =
        new CholeskyDecomposition(new Array2DRowRealMatrix(j), 1e-6, 0)
            .getSolver()
            .getInverse()
            .getData();
    double[] g = gradient(ClosureModel::tankMgPerH);
    double sum = 0;
    for (int a = 0; a < P; a++) {
      for (int b = 0; b < P; b++) {
        sum += g[a] * inverse[a][b] * g[b];
      }
    }
    return Math.sqrt(sum);
  }

  private static double square(double sd) {
    return sd * sd;
  }

  private static void add(double[][] j, int[] at, double[] slope, double weight) {
    for (int a = 0; a < at.length; a++) {
      for (int b = 0; b < at.length; b++) {
        j[at[a]][at[b]] += weight * slope[a] * slope[b];
      }
    }
  }

  private double[] gradient(ClassFit.Number number) {
    double[] g = new double[P];
    double here = Math.log(number.of(model, new double[P]));
    for (int k = 0; k < P; k++) {
      g[k] = (Math.log(number.of(model, unit(k))) - here) / STEP;
    }
    return g;
  }

  private static double[] unit(int k) {
    double[] off = new double[P];
    off[k] = STEP;
    return off;
  }

  private double[] lifeSlope() {
    double[] slope = new double[P];
    double here = model.shown(new double[P]).logIndicatorH()[1];
    for (int k = 0; k < P; k++) {
      slope[k] = (model.shown(unit(k)).logIndicatorH()[1] - here) / STEP;
    }
    return slope;
  }

  /** A bottle: its bands are wrong together, and with all of the laboratory. */
  private Look bottle(List<Band> bands) {
    return look(bands, errors.count().bottle(), 1);
  }

  /** A spell here and a spell there by one counter, whose calibration is wrong in both alike. */
  private Look counter(double repeats, Counts here, Counts there) {
    List<Band> bands = new ArrayList<>();
    for (Counts counts : List.of(here, there)) {
      bands(counts, 3).forEach(b -> bands.add(new Band(b.slope, square(repeats))));
    }
    return look(bands, COUNTER_CALIBRATION, 0);
  }

  private static Look look(List<Band> bands, double commonSd, double calibration) {
    double[][] information = new double[P + 1][P + 1];
    double[] sum = new double[P + 1];
    double weights = 0;
    int[] all = {0, 1, 2, 3};
    for (Band band : bands) {
      double[] a = {band.slope[0], band.slope[1], band.slope[2], calibration};
      add(information, all, a, 1 / band.variance);
      for (int k = 0; k <= P; k++) {
        sum[k] += a[k] / band.variance;
      }
      weights += 1 / band.variance;
    }
    add(information, all, sum, -square(commonSd) / (1 + square(commonSd) * weights));
    return new Look(information);
  }

  private interface Counts {
    Bands at(Machine machine);
  }

  private Bands open(Machine m) {
    return Circuit.of(m).steadyPerMl(0);
  }

  /** With the tank shut to dust only what comes back through the filter is left. */
  private Bands shut(Machine m) {
    return Circuit.of(m.withIngress(new Ingress(List.of(), m.ingress().returnLine())))
        .steadyPerMl(0);
  }

  /** In the return line before the filter: the tank's counts, and what came in on the way. */
  private Bands upstream(Machine m) {
    return open(m)
        .plus(
            Ingress.particlesPerH(m.ingress().returnLine())
                .times(1 / (Circuit.of(m).meanFlowLPerMin() * ML_PER_H)));
  }

  private List<Band> bands(Counts counts, int sizes) {
    BandCounts here = counted(counts, new double[P], sizes);
    List<Band> bands = new ArrayList<>();
    BandCounts[] moved = new BandCounts[P];
    Arrays.setAll(moved, k -> counted(counts, unit(k), sizes));
    for (int b = 0; b < here.bands(); b++) {
      double[] slope = new double[P];
      for (int k = 0; k < P; k++) {
        slope[k] = Math.log(moved[k].perMl()[b] / here.perMl()[b]) / STEP;
      }
      bands.add(new Band(slope, here.variance(b, here.perMl()[b], errors.count())));
    }
    return bands;
  }

  private BandCounts counted(Counts counts, double[] off, int sizes) {
    double[] cumulative = SizeBands.toCumulative(counts.at(model.with(off)).toArray());
    for (int i = sizes; i < cumulative.length; i++) {
      cumulative[i] = Double.NaN;
    }
    return BandCounts.of(cumulative, errors.count().volumeMl(), false);
  }
}
