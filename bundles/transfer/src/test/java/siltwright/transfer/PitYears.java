package siltwright.transfer;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import siltwright.contamination.Circuit;
import siltwright.contamination.Trace;
import siltwright.contamination.Wear;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.Component;
import siltwright.model.Fleet;
import siltwright.model.Ingress;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.model.json.FleetReader;
import siltwright.restart.WashOut;
import siltwright.samples.CountError;

/**
 * Invents what happened to the machines of the invented fleet in five years, 2021 to 2025. Same
 * seed, same years.
 *
 * <p>Truth behind it: hours a day by site and season with a day's own chance; the contamination
 * balance with each machine's ingress (spread 0.25 in the logarithm) and field efficiency (0.15);
 * elements changed at today's interval give or take 8 %, three times in four in today's way, else
 * in the gentlest one; at Dusthollow the gentlest way four times in five from 2024 on, when crews
 * were taught; a change lets go what its way does times a chance of its own (0.5); laboratory
 * errors are the standard ones, a gauge errs by 3 %; components are renewed when their wear, by
 * relative wear as the program computes it, has used up a life drawn from the fleet file.
 */
final class PitYears {
  static final Path FLEET = Path.of("../../demo-data/three-pits.json");
  static final LocalDate FIRST = LocalDate.of(2021, 1, 4);
  static final LocalDate LAST = LocalDate.of(2025, 12, 31);
  static final LocalDate TAUGHT = LocalDate.of(2024, 1, 1);

  private static final int LOOKS = 40;
  private static final int DAYS = (int) ChronoUnit.DAYS.between(FIRST, LAST) + 1;

  private final SplittableRandom random;
  private final CountError error = CountError.STANDARD;
  final List<Year> machines = new ArrayList<>();

  /** What happened to a machine. */
  record Year(
      Machine machine,
      double[] hours,
      double firstMeterH,
      List<Change> changes,
      List<Sample> samples,
      List<Drop> drops,
      List<Renewal> renewals) {
    /** Returns the hours since the first day at the end of a day. */
    double hoursAt(int day) {
      return hours[day];
    }

    /** Returns the day on which so many hours are reached. */
    int dayOf(double h) {
      int day = 0;
      while (day < hours.length - 1 && hours[day] < h) {
        day++;
      }
      return day;
    }
  }

  /** A change of the element; the pressure drop is the one before it. */
  record Change(double h, int day, String procedure, double dropKPa, boolean indicator) {}

  /** A sample; counts at or above 4, 6, 14, 21 µm(c). */
  record Sample(
      double h,
      int day,
      double oilH,
      double[] countsPerMl,
      double ironPpm,
      double siliconPpm,
      double waterPpm,
      double viscosity) {}

  /** A pressure drop read in between. */
  record Drop(double h, int day, double dropKPa, double oilC, double flowLPerMin) {}

  /** A component renewed. */
  record Renewal(double h, int day, String component) {}

  PitYears(long seed) {
    random = new SplittableRandom(seed);
    Fleet fleet = FleetReader.read(FLEET).fleet();
    fleet.machines().forEach(m -> machines.add(years(m)));
  }

  Year of(String id) {
    return machines.stream().filter(y -> y.machine().id().equals(id)).findFirst().orElseThrow();
  }

  private double chance(double spread) {
    return Math.exp(spread * random.nextGaussian());
  }

  /** Hours a week: trucks most, drill rigs least. */
  private static double perWeekH(Machine m) {
    return switch (m.id().substring(0, 2)) {
      case "HT" -> 72;
      case "EX" -> 58;
      case "WL" -> 50;
      default -> 40;
    };
  }

  private double[] hours(Machine m) {
    double swing = m.site().equals("frostmarrow") ? 0.35 : 0.12;
    double daily = perWeekH(m) / 6 * chance(0.1);
    double[] hours = new double[DAYS];
    double sum = 0;
    for (int d = 0; d < DAYS; d++) {
      LocalDate date = FIRST.plusDays(d);
      double season = 1 - swing * Math.cos(2 * Math.PI * (date.getDayOfYear() - 20) / 365.25);
      if (date.getDayOfWeek().getValue() < 7) {
        sum += Math.min(22, daily * season * chance(0.25));
      }
      hours[d] = sum;
    }
    return hours;
  }

  private Year years(Machine said) {
    Machine m =
        said.withIngress(
                new Ingress(
                    Ingress.scaled(said.ingress().reservoir(), chance(0.25)),
                    Ingress.scaled(said.ingress().returnLine(), chance(0.25))))
            .withFieldEfficiency(
                Math.min(0.95, said.returnFilter().fieldEfficiency() * chance(0.15)));
    double firstMeterH = Math.rint(10 * (500 + 8000 * random.nextDouble())) / 10;
    Year year =
        new Year(
            said,
            hours(m),
            firstMeterH,
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>());
    live(m, year);
    return year;
  }

  /** The wear of the components of a machine, and when each is used up. */
  private final class Lives {
    final List<Component> components;
    final List<Wear> wear;
    final double[] used;
    final double[] last;

    Lives(Machine m) {
      components = m.components();
      wear = Wear.of(m);
      used = new double[components.size()];
      last = new double[components.size()];
      for (int i = 0; i < used.length; i++) {
        last[i] = draw(components.get(i));
        used[i] = 0.6 * random.nextDouble() * last[i];
      }
    }

    private double draw(Component c) {
      double u = -Math.log(1 - random.nextDouble());
      return c.life().scaleH() * Math.pow(u, 1 / c.life().shape());
    }

    void pass(double h, Bands perMl, double at, Year year) {
      for (int i = 0; i < used.length; i++) {
        used[i] += h * wear.get(i).relative(perMl.toArray());
        if (used[i] > last[i]) {
          year.renewals().add(new Renewal(at, year.dayOf(at), components.get(i).id()));
          used[i] = 0;
          last[i] = draw(components.get(i));
        }
      }
    }
  }

  private void live(Machine m, Year year) {
    Circuit circuit = Circuit.of(m);
    int work = m.indicatorStateIndex();
    double trips = m.returnFilter().indicatorKPa().orElse(Double.POSITIVE_INFINITY);
    double end = year.hoursAt(DAYS - 1);
    Lives lives = new Lives(m);
    double calibration = error.all() * random.nextGaussian() * 0.5;
    double every = m.sampling().map(s -> s.intervalH()).orElse(Double.POSITIVE_INFINITY);
    double nextSample = every * random.nextDouble();
    double oilChange = m.oilChange().map(o -> o.intervalH()).orElse(4000.0);
    double oilH = oilChange * random.nextDouble();
    double wearG = oilH / 100;
    Bands now = circuit.steadyPerMl(0);
    for (double start = 0; start < end; ) {
      double interval = m.today().intervalH() * chance(0.08);
      double[] looks = new double[LOOKS + 1];
      for (int i = 0; i <= LOOKS; i++) {
        looks[i] = interval * i / LOOKS;
      }
      Trace trace = Trace.of(circuit, now, looks);
      boolean tripped = false;
      for (int i = 1; i <= LOOKS && start + looks[i] < end; i++) {
        double step = looks[i] - looks[i - 1];
        double at = start + looks[i];
        Bands perMl = trace.perMl().get(i);
        oilH += step;
        wearG += 0.01 * step * Math.sqrt(perMl.get(1) / 500);
        if (oilH > oilChange) {
          oilH = step;
          wearG *= 0.1;
        }
        lives.pass(step, perMl, at, year);
        if (at >= nextSample) {
          nextSample += every;
          year.samples().add(sample(year, at, oilH, perMl, calibration, wearG));
        }
        double reading = circuit.readingKPa(work, trace.massG()[i]);
        tripped |= reading >= trips;
        if (i == LOOKS / 2) {
          var state = m.duty().get(work);
          double oilC = state.oilDegC() + 3 * random.nextGaussian();
          year.drops()
              .add(new Drop(at, year.dayOf(at), reading * chance(0.03), oilC, state.flowLPerMin()));
        }
      }
      start += interval;
      if (start < end) {
        double mass = trace.massG()[LOOKS];
        int day = year.dayOf(start);
        ChangeProcedure way = way(m, FIRST.plusDays(day));
        double drop = circuit.readingKPa(work, mass) * chance(0.03);
        year.changes().add(new Change(start, day, way.id(), drop, tripped));
        double grams = (way.backFlushShare() * mass + way.handlingDirtMg() / 1000) * chance(0.5);
        now =
            trace
                .perMl()
                .get(LOOKS)
                .plus(
                    WashOut.of(m)
                        .particlesPerG()
                        .times(Math.min(grams, 0.6 * mass) / (m.reservoir().volumeL() * 1000)));
      }
    }
  }

  private ChangeProcedure way(Machine m, LocalDate on) {
    boolean taught = m.site().equals("dusthollow") && !on.isBefore(TAUGHT);
    ChangeProcedure gentlest =
        m.procedures().stream()
            .min((a, b) -> Double.compare(a.backFlushShare(), b.backFlushShare()))
            .orElseThrow();
    return random.nextDouble() < (taught ? 0.8 : 0.25)
        ? gentlest
        : m.procedure(m.today().procedure()).orElseThrow();
  }

  private Sample sample(
      Year year, double at, double oilH, Bands perMl, double calibration, double wearG) {
    double bottle = calibration + error.bottle() * random.nextGaussian();
    double[] bands = perMl.toArray();
    for (int j = 0; j < bands.length; j++) {
      double mean =
          bands[j] * error.volumeMl() * Math.exp(bottle + error.size() * random.nextGaussian());
      bands[j] =
          Math.max(0, Math.rint(mean + Math.sqrt(mean) * random.nextGaussian())) / error.volumeMl();
    }
    return new Sample(
        at,
        year.dayOf(at),
        oilH,
        SizeBands.toCumulative(bands),
        2 + wearG * chance(0.08),
        3 + 0.002 * oilH * chance(0.1),
        120 * chance(0.25),
        46 * (1 - 0.00001 * oilH) * chance(0.01));
  }
}
