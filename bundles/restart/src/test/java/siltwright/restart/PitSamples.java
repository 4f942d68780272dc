package siltwright.restart;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import siltwright.contamination.Circuit;
import siltwright.contamination.Trace;
import siltwright.model.Bands;
import siltwright.model.Fleet;
import siltwright.model.Ingress;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.model.json.FleetReader;
import siltwright.samples.CountError;

/**
 * Invents the demonstration records {@code demo-data/pit-samples.csv}: oil samples, readings,
 * indicator trips, changes and restart samples of eight machines of the invented fleet. Same seed,
 * same bytes.
 *
 * <p>Truth behind them: the contamination balance with each machine's ingress and field efficiency
 * times a factor of its own; a change releases what its procedure does, times a factor of the crew
 * (D2 sheds 2.5 times what others do) and a chance of its own; laboratory errors are the standard
 * ones. EX-12's breather is lost at 1900 h and its ingress into the tank is then fourfold; one
 * sample was reported per 100 mL, one with a code that contradicts its counts.
 */
final class PitSamples {
  static final Path FILE = Path.of("../../demo-data/pit-samples.csv");
  static final Path FLEET = Path.of("../../demo-data/three-pits.json");

  private static final List<String> MACHINES =
      List.of("EX-11", "EX-12", "EX-13", "WL-22", "WL-32", "HT-14", "HT-15", "DR-16");
  private static final double LAST_H = 3000;
  private static final double SAMPLE_EVERY_H = 125;
  private static final String WORK = "work";

  private final SplittableRandom random;
  private final List<String> rows = new ArrayList<>();
  private final CountError error = CountError.STANDARD;

  private PitSamples(long seed) {
    random = new SplittableRandom(seed);
  }

  static String text() {
    Fleet fleet = FleetReader.read(FLEET).fleet();
    PitSamples samples = new PitSamples(611);
    MACHINES.forEach(id -> samples.machine(fleet.machine(id).orElseThrow()));
    StringBuilder text =
        new StringBuilder(
            "machine,hours,date,event,minutes_after_restart,count4_per_mL,count6_per_mL,"
                + "count14_per_mL,code,volume_mL,deltaP_kPa,state,procedure,crew,depot,iron_ppm,"
                + "copper_ppm,silicon_ppm,water_ppm\n");
    samples.rows.forEach(r -> text.append(r).append('\n'));
    return text.toString();
  }

  private void machine(Machine said) {
    double in = Math.exp(0.25 * random.nextGaussian());
    double f = Math.exp(0.15 * random.nextGaussian());
    double calibration = error.all() * random.nextGaussian() * 0.5;
    Machine m =
        said.withIngress(
                new Ingress(
                    Ingress.scaled(said.ingress().reservoir(), in),
                    Ingress.scaled(said.ingress().returnLine(), in)))
            .withFieldEfficiency(Math.min(0.95, said.returnFilter().fieldEfficiency() * f));
    Machine holed =
        m.withIngress(
            new Ingress(Ingress.scaled(m.ingress().reservoir(), 4), m.ingress().returnLine()));
    Bands now = Circuit.of(m).steadyPerMl(0);
    double interval = m.today().intervalH();
    double wearG = 0;
    double oilAge = 0;
    List<String> crews =
        m.site().equals("dusthollow")
            ? List.of("D1", "D2", "D3")
            : m.site().equals("frostmarrow") ? List.of("F1", "F2") : List.of("L1", "L2");
    for (double start = 0; start < LAST_H; start += interval) {
      Machine then = m.id().equals("EX-12") && start >= 1900 ? holed : m;
      Circuit circuit = Circuit.of(then);
      List<Double> looks = new ArrayList<>();
      for (double h = 0; h <= interval; h += interval / 100) {
        looks.add(h);
      }
      double[] hours = looks.stream().mapToDouble(h -> h).toArray();
      Trace trace = Trace.of(circuit, now, hours);
      int work = then.indicatorStateIndex();
      double trips = then.returnFilter().indicatorKPa().orElse(Double.POSITIVE_INFINITY);
      boolean tripped = false;
      for (int i = 1; i < hours.length; i++) {
        double at = start + hours[i];
        if (at > LAST_H) {
          break;
        }
        double every = Math.min(SAMPLE_EVERY_H, interval / 3);
        wearG += 0.02 * (hours[i] - hours[i - 1]) * Math.sqrt(trace.perMl().get(i).get(1) / 500);
        oilAge += hours[i] - hours[i - 1];
        if (Math.floor(at / every) > Math.floor((start + hours[i - 1]) / every)
            && i < hours.length - 1) {
          sample(then, at, Double.NaN, trace.perMl().get(i), calibration, wearG, oilAge);
        }
        double reading = circuit.readingKPa(work, trace.massG()[i]);
        if (!tripped && reading >= trips) {
          tripped = true;
          row(then, at, "indicator", "", "", "", "", "");
        } else if (i == 30 || i == 60 || i == 85) {
          row(
              then,
              at,
              "reading",
              "",
              ",,,,",
              number(reading * Math.exp(0.03 * random.nextGaussian()), 1) + "," + WORK,
              "",
              "");
        }
      }
      double changed = start + interval;
      if (changed > LAST_H) {
        break;
      }
      String crew = crews.get((int) (random.nextDouble() * crews.size()));
      String procedure = random.nextDouble() < 0.7 ? m.today().procedure() : best(m);
      double share = m.procedure(procedure).orElseThrow().backFlushShare();
      double handling = m.procedure(procedure).orElseThrow().handlingDirtMg() / 1000;
      double mass = trace.massG()[hours.length - 1];
      double grams =
          (share * mass + handling)
              * (crew.equals("D2") ? 2.5 : 1)
              * Math.exp(0.5 * random.nextGaussian());
      grams = Math.min(grams, 0.6 * mass);
      row(then, changed, "change", "", "", "", procedure, crew);
      Bands dirty =
          trace
              .perMl()
              .get(hours.length - 1)
              .plus(
                  WashOut.of(then)
                      .particlesPerG()
                      .times(grams / (then.reservoir().volumeL() * 1000)));
      if (random.nextDouble() < 0.75) {
        double[] minutes = {4, 9, 22};
        Trace after =
            Trace.of(
                circuit,
                dirty,
                new double[] {0, minutes[0] / 60, minutes[1] / 60, minutes[2] / 60});
        for (int k = 0; k < minutes.length; k++) {
          sample(
              then,
              changed + minutes[k] / 60,
              minutes[k],
              after.perMl().get(k + 1),
              calibration,
              Double.NaN,
              Double.NaN);
        }
      }
      now = dirty;
    }
  }

  private static String best(Machine m) {
    return m.procedures().stream()
        .min((a, b) -> Double.compare(a.backFlushShare(), b.backFlushShare()))
        .orElseThrow()
        .id();
  }

  private void sample(
      Machine m,
      double at,
      double minute,
      Bands perMl,
      double calibration,
      double wearG,
      double oilAge) {
    double bottle = calibration + error.bottle() * random.nextGaussian();
    double[] bands = perMl.toArray();
    for (int j = 0; j < bands.length; j++) {
      double mean =
          bands[j] * error.volumeMl() * Math.exp(bottle + error.size() * random.nextGaussian());
      bands[j] =
          Math.max(0, Math.rint(mean + Math.sqrt(mean) * random.nextGaussian())) / error.volumeMl();
    }
    double[] cumulative = SizeBands.toCumulative(bands);
    boolean per100 = m.id().equals("HT-14") && at > 1400 && at < 1460 && Double.isNaN(minute);
    boolean wrongCode = m.id().equals("WL-22") && at > 1300 && at < 1400 && Double.isNaN(minute);
    double factor = per100 ? 100 : 1;
    StringBuilder counts = new StringBuilder();
    for (int i = 0; i < 3; i++) {
      counts.append(number(cumulative[i] * factor, 2)).append(',');
    }
    counts.append(wrongCode ? "15/13/10" : "").append(",25");
    String metals =
        Double.isNaN(wearG)
            ? ",,,"
            : number(2 + wearG * Math.exp(0.08 * random.nextGaussian()), 1)
                + ","
                + number(1 + 0.3 * wearG * Math.exp(0.1 * random.nextGaussian()), 1)
                + ","
                + number(3 + 0.002 * oilAge * Math.exp(0.1 * random.nextGaussian()), 1)
                + ","
                + number(120 * Math.exp(0.25 * random.nextGaussian()), 0);
    row(
        m,
        at,
        "sample",
        Double.isNaN(minute) ? "" : number(minute, 0),
        counts.toString(),
        ",",
        "",
        "",
        metals);
  }

  private void row(
      Machine m,
      double at,
      String event,
      String minute,
      String counts,
      String reading,
      String procedure,
      String crew) {
    row(m, at, event, minute, counts, reading, procedure, crew, ",,,");
  }

  private void row(
      Machine m,
      double at,
      String event,
      String minute,
      String counts,
      String reading,
      String procedure,
      String crew,
      String metals) {
    LocalDate date = LocalDate.of(2025, 1, 6).plusDays((long) (at / 9));
    rows.add(
        String.join(
            ",",
            Arrays.asList(
                m.id(),
                number(at, 2),
                date.toString(),
                event,
                minute,
                counts.isEmpty() ? ",,,," : counts,
                reading.isEmpty() ? "," : reading,
                procedure,
                crew,
                m.site(),
                metals)));
  }

  private static String number(double v, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", v);
    return text.contains(".") ? text.replaceFirst("\\.?0+$", "") : text;
  }
}
