package siltwright.closure;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import siltwright.contamination.Circuit;
import siltwright.contamination.Trace;
import siltwright.model.Bands;
import siltwright.model.Ingress;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.model.json.FleetReader;
import siltwright.samples.BandCounts;

/**
 * Classes of machines whose three numbers are known, with records drawn from them: six samples in
 * running and three elements that reached their indicator.
 */
final class MadeMachines {
  final List<ClosureModel> models = new ArrayList<>();
  final List<double[]> truth = new ArrayList<>();

  static Machine machine(String id) {
    Path here = Path.of("demo-data/three-pits.json");
    return FleetReader.read(Files.exists(here) ? here : Path.of("../..").resolve(here))
        .fleet()
        .machine(id)
        .orElseThrow();
  }

  static MadeMachines of(
      Machine said, int machines, Errors errors, double classSd, double within, long seed) {
    return of(said, machines, errors, classSd, within, seed, new double[3], 1);
  }

  /**
   * The same with numbers that are off the file's by a shift, and an instrument that counts so many
   * times too many.
   */
  static MadeMachines of(
      Machine said,
      int machines,
      Errors errors,
      double classSd,
      double within,
      long seed,
      double[] shift,
      double instrument) {
    MadeMachines made = new MadeMachines();
    SplittableRandom random = new SplittableRandom(seed);
    double calibration = Math.log(instrument) + errors.count().all() * random.nextGaussian();
    double capacity = errors.capacity() * random.nextGaussian();
    double[] mean = new double[3];
    Arrays.setAll(mean, k -> shift[k] + classSd * random.nextGaussian());
    for (int i = 0; i < machines; i++) {
      double[] off = new double[3];
      Arrays.setAll(off, k -> mean[k] + within * random.nextGaussian());
      ClosureModel empty = new ClosureModel(said, List.of());
      Machine m = empty.with(off);
      made.models.add(new ClosureModel(said, lives(m, errors, calibration, capacity, random)));
      made.truth.add(off);
    }
    return made;
  }

  private static List<ElementLife> lives(
      Machine m, Errors errors, double calibration, double capacity, SplittableRandom random) {
    Circuit circuit = Circuit.of(m);
    double trips =
        circuit.massAtReadingG(
            m.indicatorStateIndex(), m.returnFilter().indicatorKPa().getAsDouble());
    Bands in =
        Ingress.particlesPerH(m.ingress().reservoir())
            .plus(Ingress.particlesPerH(m.ingress().returnLine()));
    Bands perG = in.times(1 / SizeBands.massG(in.toArray()));
    List<ElementLife> lives = new ArrayList<>();
    Bands start = circuit.steadyPerMl(0);
    for (int e = 0; e < 3; e++) {
      double target = trips * Math.exp(capacity + errors.life() * random.nextGaussian());
      double toTrip = hoursTo(circuit, start, target);
      double[] hours = {0, 0.3 * toTrip, 0.75 * toTrip, toTrip};
      Trace trace = Trace.of(circuit, start, hours);
      List<ElementLife.Sample> samples = new ArrayList<>();
      for (int s = 1; s <= 2; s++) {
        samples.add(
            new ElementLife.Sample(
                hours[s], count(trace.perMl().get(s), errors, calibration, random)));
      }
      double share = 0.05;
      double grams = share * trace.massG()[3] * (1 - m.returnFilter().element().finesShare());
      lives.add(
          new ElementLife(toTrip, true, OptionalDouble.of(toTrip), share, 0, samples, List.of()));
      start = trace.perMl().get(3).plus(perG.times(grams / (m.reservoir().volumeL() * 1000)));
    }
    return lives;
  }

  /** Hours until the element holds a mass, by the balance. */
  private static double hoursTo(Circuit circuit, Bands start, double massG) {
    double end = 200;
    while (true) {
      double[] hours = new double[400];
      double to = end;
      Arrays.setAll(hours, i -> to * i / 399);
      double[] mass = Trace.of(circuit, start, hours).massG();
      for (int i = 1; i < hours.length; i++) {
        if (mass[i] >= massG) {
          double t = (massG - mass[i - 1]) / (mass[i] - mass[i - 1]);
          return Math.max(5, hours[i - 1] + Math.max(0, t) * (hours[i] - hours[i - 1]));
        }
      }
      end *= 3;
    }
  }

  private static BandCounts count(
      Bands perMl, Errors errors, double calibration, SplittableRandom random) {
    double bottle = calibration + errors.count().bottle() * random.nextGaussian();
    double volume = errors.count().volumeMl();
    double[] cumulative = SizeBands.toCumulative(perMl.toArray());
    for (int i = 3; i < cumulative.length; i++) {
      cumulative[i] = Double.NaN;
    }
    BandCounts exact = BandCounts.of(cumulative, volume, false);
    double[] counted = exact.perMl().clone();
    for (int k = 0; k < counted.length; k++) {
      double mean =
          counted[k] * volume * Math.exp(bottle + errors.count().size() * random.nextGaussian());
      counted[k] = Math.max(0, Math.rint(mean + Math.sqrt(mean) * random.nextGaussian())) / volume;
    }
    return new BandCounts(exact.first(), exact.last(), counted, volume, false);
  }
}
