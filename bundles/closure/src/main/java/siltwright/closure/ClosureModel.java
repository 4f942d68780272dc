package siltwright.closure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import siltwright.contamination.Circuit;
import siltwright.contamination.Trace;
import siltwright.model.Bands;
import siltwright.model.Ingress;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/**
 * What a machine's record would show with given ingress and field efficiency, by the contamination
 * balance.
 *
 * <p>Three numbers, each as what it is off the fleet file's: ln of all ingress, logit of the share
 * that goes straight into the tank, logit of the field efficiency factor. Of them the first is what
 * elements fill by and the last what counts hang on; the split is told by neither alone.
 */
public final class ClosureModel {
  /** Number of unknown numbers. */
  public static final int UNKNOWNS = 3;

  private static final int LOOKS = 10;
  private static final double MG_PER_G = 1000;

  private final Machine machine;
  private final List<ElementLife> lives;
  private final double logIngress;
  private final double logitTank;
  private final double logitEfficiency;

  /**
   * What is compared, as logarithms.
   *
   * @param logBands band counts of every sample
   * @param logReadings readings
   * @param readingsShed share of the element's mass at each reading that the change before had let
   *     go and that it caught again
   * @param logIndicatorH hours to the indicator of each element
   * @param indicatorShed the same share at the indicator
   */
  record Shown(
      List<double[]> logBands,
      double[] logReadings,
      double[] readingsShed,
      double[] logIndicatorH,
      double[] indicatorShed) {}

  /**
   * Prepares the model of a machine.
   *
   * @param machine the machine as the fleet file has it
   * @param lives its elements, earliest first
   * @throws IllegalArgumentException if nothing comes into the machine
   */
  public ClosureModel(Machine machine, List<ElementLife> lives) {
    this.machine = machine;
    this.lives = List.copyOf(lives);
    double tank = Ingress.rateMgPerH(machine.ingress().reservoir());
    double back = Ingress.rateMgPerH(machine.ingress().returnLine());
    if (!(tank + back > 0)) {
      throw new IllegalArgumentException("no ingress in the fleet file");
    }
    logIngress = Math.log(tank + back);
    double share = Math.min(0.98, Math.max(0.02, tank / (tank + back)));
    logitTank = logit(share);
    logitEfficiency = logit(Math.min(0.98, machine.returnFilter().fieldEfficiency()));
  }

  static double logit(double p) {
    return Math.log(p / (1 - p));
  }

  private static double share(double logit) {
    return 1 / (1 + Math.exp(-logit));
  }

  /** Returns the machine. */
  public Machine machine() {
    return machine;
  }

  /** Returns its elements. */
  public List<ElementLife> lives() {
    return lives;
  }

  /** Returns ingress straight into the tank, mg/h. */
  public double tankMgPerH(double[] off) {
    return ingressMgPerH(off) * tankShare(off);
  }

  /** Returns ingress into the return line, mg/h. */
  public double returnMgPerH(double[] off) {
    return ingressMgPerH(off) * (1 - tankShare(off));
  }

  /** Returns all ingress, mg/h. */
  public double ingressMgPerH(double[] off) {
    return Math.exp(logIngress + off[0]);
  }

  private double tankShare(double[] off) {
    if (machine.ingress().reservoir().isEmpty()) {
      return 0;
    }
    return machine.ingress().returnLine().isEmpty() ? 1 : share(logitTank + off[1]);
  }

  /** Returns the field efficiency factor. */
  public double efficiency(double[] off) {
    return share(logitEfficiency + off[2]);
  }

  /** Returns the machine with other numbers. */
  public Machine with(double[] off) {
    Ingress in = machine.ingress();
    double tank = Ingress.rateMgPerH(in.reservoir());
    double back = Ingress.rateMgPerH(in.returnLine());
    return machine
        .withIngress(
            new Ingress(
                Ingress.scaled(in.reservoir(), tank > 0 ? tankMgPerH(off) / tank : 1),
                Ingress.scaled(in.returnLine(), back > 0 ? returnMgPerH(off) / back : 1)))
        .withFieldEfficiency(efficiency(off));
  }

  /** Returns what the record would show. */
  Shown shown(double[] off) {
    Machine m = with(off);
    Circuit circuit = Circuit.of(m);
    int state = m.indicatorStateIndex();
    double trips = m.returnFilter().indicatorKPa().orElse(Double.POSITIVE_INFINITY);
    double tripsAtG = state < 0 ? Double.POSITIVE_INFINITY : circuit.massAtReadingG(state, trips);
    Bands settled = circuit.steadyPerMl(0);
    Bands perG = released(m);
    double withinBands = 1 - m.returnFilter().element().finesShare();
    Bands start = settled;
    List<double[]> logBands = new ArrayList<>();
    List<Double> readings = new ArrayList<>();
    List<Double> indicator = new ArrayList<>();
    List<Double> readingsShed = new ArrayList<>();
    List<Double> indicatorShed = new ArrayList<>();
    double shedG = 0;
    for (ElementLife life : lives) {
      double[] hours = hours(life);
      Trace trace = Trace.of(circuit, start, hours);
      for (ElementLife.Sample s : life.samples()) {
        logBands.add(bands(s, trace.perMl().get(Arrays.binarySearch(hours, s.hours()))));
      }
      for (ElementLife.Reading r : life.readings()) {
        double mass = trace.massG()[Arrays.binarySearch(hours, r.hours())];
        readings.add(Math.log(circuit.readingKPa(r.state(), Math.max(0, mass))));
        readingsShed.add(mass > 0 ? Math.min(1, shedG / mass) : 0);
      }
      indicator.add(logHoursTo(tripsAtG, hours, trace.massG()));
      indicatorShed.add(tripsAtG > 0 ? Math.min(1, shedG / tripsAtG) : 0);
      int last = Arrays.binarySearch(hours, life.endH());
      double grams =
          life.backFlush() * withinBands * Math.max(0, trace.massG()[last])
              + life.handlingMg() / MG_PER_G;
      shedG = grams / withinBands;
      start = trace.perMl().get(last).plus(perG.times(grams / (m.reservoir().volumeL() * 1000)));
    }
    return new Shown(
        logBands,
        readings.stream().mapToDouble(v -> v).toArray(),
        readingsShed.stream().mapToDouble(v -> v).toArray(),
        indicator.stream().mapToDouble(v -> v).toArray(),
        indicatorShed.stream().mapToDouble(v -> v).toArray());
  }

  /** Particles of a gram of what comes in, which is what elements hold. */
  private static Bands released(Machine m) {
    Bands in =
        Ingress.particlesPerH(m.ingress().reservoir())
            .plus(Ingress.particlesPerH(m.ingress().returnLine()));
    return in.times(1 / SizeBands.massG(in.toArray()));
  }

  /** Hours of a life to look at, rising from 0: those of the record, and evenly to its end. */
  private static double[] hours(ElementLife life) {
    List<Double> all = new ArrayList<>();
    double end = Math.max(life.endH(), life.indicatorH().orElse(0));
    for (int i = 0; i <= LOOKS; i++) {
      all.add(end * i / LOOKS);
    }
    all.add(life.endH());
    life.samples().forEach(s -> all.add(s.hours()));
    life.readings().forEach(r -> all.add(r.hours()));
    return all.stream().mapToDouble(h -> h).distinct().sorted().toArray();
  }

  private static double[] bands(ElementLife.Sample s, Bands perMl) {
    double[] out = new double[s.counts().bands()];
    for (int k = 0; k < out.length; k++) {
      double sum = 0;
      for (int j = s.counts().first()[k]; j <= s.counts().last()[k]; j++) {
        sum += Math.max(0, perMl.get(j));
      }
      out[k] = s.counts().log(sum);
    }
    return out;
  }

  /** Hours to a mass; beyond the last look the mass goes on growing as in the second half. */
  private static double logHoursTo(double massG, double[] hours, double[] mass) {
    int n = hours.length;
    if (Double.isInfinite(massG)) {
      return Double.POSITIVE_INFINITY;
    }
    for (int i = 1; i < n; i++) {
      if (mass[i] >= massG) {
        double t = (massG - mass[i - 1]) / Math.max(1e-12, mass[i] - mass[i - 1]);
        return Math.log(Math.max(1e-3, hours[i - 1] + Math.max(0, t) * (hours[i] - hours[i - 1])));
      }
    }
    int half = n / 2;
    double rate = (mass[n - 1] - mass[half]) / (hours[n - 1] - hours[half]);
    return rate <= 0
        ? Double.POSITIVE_INFINITY
        : Math.log(hours[n - 1] + (massG - mass[n - 1]) / rate);
  }
}
