package siltwright.fleet.internal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * Invents the demonstration records {@code demo-data/pit-events.csv} and {@code
 * pit-compliance.csv}: 48 machines of three pits, no real machine, site or cost among them.
 *
 * <p>Truth behind the events (hydraulic repairs): a power law of shape 1.2 with 1.2 events in the
 * first 1000 h; Dusthollow has 1.8 times the rate of the other two, which are alike; haul trucks
 * 0.7 times that of the others; machines differ by a gamma factor of shape 6; desiccant breathers,
 * fitted to two machines of three at Dusthollow and Loamquell at an hour of their own, take the
 * rate to 0.6 of itself. An event costs 1800 on average, lognormal. Machines work 3000 h a year
 * from a date of their own; one in six was old when watching began.
 *
 * <p>Truth behind the samples: oil is within 18/16/13 for 60 % of the time at Dusthollow and 80 %
 * elsewhere, in spells of about 500 h; where it is dirty it is sampled twice as often. Of ten seeds
 * tried this one shows a clear, a doubtful and a before-and-after answer.
 */
final class PitRecords {
  static final Path EVENTS = Path.of("../../demo-data/pit-events.csv");
  static final Path SAMPLES = Path.of("../../demo-data/pit-compliance.csv");
  static final double WORSE = 1.8;
  static final double SHAPE = 1.2;
  static final double BREATHER = 0.6;
  private static final long SEED = 10;
  private static final int MACHINES = 48;
  private static final double HOURS_A_DAY = 3000 / 365.25;
  private static final List<String> PITS = List.of("Dusthollow", "Frostmarrow", "Loamquell");
  private static final List<String> CLASSES =
      List.of("excavator", "wheel loader", "haul truck", "drill rig");

  private PitRecords() {}

  private static double normal(SplittableRandom random) {
    double u = Math.sqrt(-2 * Math.log(1 - random.nextDouble()));
    return u * Math.cos(2 * Math.PI * random.nextDouble());
  }

  /** Returns a gamma number of a whole shape and mean 1. */
  private static double gamma(SplittableRandom random, int shape) {
    double sum = 0;
    for (int i = 0; i < shape; i++) {
      sum -= Math.log(1 - random.nextDouble());
    }
    return sum / shape;
  }

  private static String name(int i) {
    return PITS.get(i % 3).charAt(0) + String.format(Locale.ROOT, "%02d", i / 3 + 1);
  }

  /** Returns the text of the events. */
  static String events() {
    SplittableRandom random = new SplittableRandom(SEED);
    StringBuilder csv =
        new StringBuilder(
            "machine,hours,event,entry_hours,cost,date,pit,class,duty,breather_hours\n");
    for (int i = 0; i < MACHINES; i++) {
      int pit = i % 3;
      String kind = CLASSES.get(random.nextInt(CLASSES.size()));
      boolean heavy = random.nextDouble() < (pit == 0 ? 0.6 : 0.4);
      long entry = random.nextDouble() < 1.0 / 6 ? 500 + random.nextInt(1500) : 0;
      long end = entry + 3500 + random.nextInt(4500);
      boolean fitted = pit != 1 && random.nextDouble() < 2.0 / 3;
      long breather =
          fitted ? Math.round(entry + (end - entry) * (0.3 + 0.4 * random.nextDouble())) : 0;
      LocalDate start = LocalDate.of(2022, 1, 1).plusDays(random.nextInt(365));
      double factor =
          gamma(random, 6) * (pit == 0 ? WORSE : 1) * (kind.equals("haul truck") ? 0.7 : 1);
      String group =
          PITS.get(pit)
              + ","
              + kind
              + ","
              + (heavy ? "heavy" : "normal")
              + ","
              + (fitted ? breather : "");
      double clock = Math.pow(entry / 1000.0, SHAPE) * 1.2;
      List<Long> at = new ArrayList<>();
      double t = entry;
      while (true) {
        clock -= Math.log(1 - random.nextDouble()) / factor;
        t = 1000 * Math.pow(clock / 1.2, 1 / SHAPE);
        if (t > end) {
          break;
        }
        boolean happens = !fitted || t <= breather || random.nextDouble() < BREATHER;
        long hour = Math.round(t);
        if (happens && hour > entry && hour < end) {
          at.add(hour);
        }
      }
      for (long hour : at) {
        long cost = Math.round(1800 * Math.exp(0.8 * normal(random) - 0.32));
        row(csv, name(i), hour, 1, entry, Long.toString(cost), start, group);
      }
      row(csv, name(i), end, 0, entry, "", start, group);
    }
    return csv.toString();
  }

  private static void row(
      StringBuilder csv,
      String machine,
      long hour,
      int event,
      long entry,
      String cost,
      LocalDate start,
      String group) {
    LocalDate date = start.plusDays(Math.round((hour - entry) / HOURS_A_DAY));
    csv.append(machine).append(',').append(hour).append(',').append(event).append(',');
    csv.append(entry > 0 ? Long.toString(entry) : "").append(',').append(cost).append(',');
    csv.append(date).append(',').append(group).append('\n');
  }

  /** Returns the text of the samples. */
  static String samples() {
    SplittableRandom random = new SplittableRandom(SEED + 1);
    StringBuilder csv = new StringBuilder("machine,hours,code,pit\n");
    for (int i = 0; i < MACHINES; i++) {
      int pit = i % 3;
      double within = pit == 0 ? 0.6 : 0.8;
      boolean good = random.nextDouble() < within;
      double change = -500 * (good ? within : 1 - within) * 2 * Math.log(1 - random.nextDouble());
      double t = 100 + random.nextInt(200);
      double end = 3500 + random.nextInt(4500);
      while (t < end) {
        while (change < t) {
          good = !good;
          change += -500 * (good ? within : 1 - within) * 2 * Math.log(1 - random.nextDouble());
        }
        int at6 = good ? 14 + random.nextInt(3) : 17 + random.nextInt(2);
        String code = (at6 + 2) + "/" + at6 + "/" + (at6 - 3);
        csv.append(name(i)).append(',').append(Math.round(t)).append(',');
        csv.append(code).append(',').append(PITS.get(pit)).append('\n');
        t += (good ? 500 : 250) * (0.6 + 0.8 * random.nextDouble());
      }
    }
    return csv.toString();
  }

  /** Writes the files anew. */
  public static void main(String[] args) throws IOException {
    Files.writeString(EVENTS, events());
    Files.writeString(SAMPLES, samples());
  }
}
