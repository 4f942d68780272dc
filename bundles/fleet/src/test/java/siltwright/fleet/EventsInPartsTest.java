package siltwright.fleet;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import siltwright.life.Covariate;
import siltwright.life.SignificanceTest;

/** Events in parts against the classes that have them in one place. */
class EventsInPartsTest {
  private static final double ROUNDING = 1e-10;

  private final Random random = new Random(11);
  private final List<String> machines = new ArrayList<>();
  private final List<Integer> group = new ArrayList<>();
  private final List<double[]> windows = new ArrayList<>();
  private final List<double[]> events = new ArrayList<>();

  private void machine(int in) {
    int m = machines.size();
    machines.add("M" + m);
    group.add(in);
    double from = random.nextInt(3) == 0 ? random.nextInt(500) : 0;
    double rate = (0.002 + 0.001 * in) * (0.5 + random.nextDouble());
    for (int w = 0; w < 1 + m % 2; w++) {
      double to = from + 100 + random.nextInt(2000);
      windows.add(new double[] {m, from, to});
      for (double h = from + 1; h <= to; h++) {
        if (random.nextDouble() < rate) {
          events.add(new double[] {m, h});
        }
      }
      from = to + random.nextInt(2) * 50;
    }
  }

  private EventData all() {
    return EventData.of(
        machines,
        windows.stream().mapToInt(w -> (int) w[0]).toArray(),
        windows.stream().mapToDouble(w -> w[1]).toArray(),
        windows.stream().mapToDouble(w -> w[2]).toArray(),
        events.stream().mapToInt(e -> (int) e[0]).toArray(),
        events.stream().mapToDouble(e -> e[1]).toArray(),
        null);
  }

  @Test
  void partsGiveWhatTheWholeGives() {
    for (int m = 0; m < 90; m++) {
      machine(m % 3);
    }
    EventData data = all();
    EventsInParts parts = new EventsInParts(1);
    for (int p = 0; p < 9; p++) {
      for (int g = 0; g < 3; g++) {
        parts.add(EventsInParts.look("g" + g, part(data, p, g), 1));
      }
    }
    EventsInParts.Tables tables = parts.tables(900);
    for (int p = 0; p < 9; p++) {
      for (int g = 0; g < 3; g++) {
        parts.add(EventsInParts.spread("g" + g, part(data, p, g), tables));
      }
    }
    assertEquals(List.of("g0", "g1", "g2"), parts.groups());
    for (int g = 0; g < 3; g++) {
      int of = g;
      EventData one = data.where(m -> group.get(m) == of);
      MeanCumulative mean = MeanCumulative.of(one);
      assertEquals(mean.meanAt(900), parts.mean("g" + g), ROUNDING * mean.meanAt(900));
      assertEquals(
          mean.varianceAt(900), parts.meanVariance("g" + g), ROUNDING * mean.varianceAt(900));
      assertEquals(
          PoissonRates.alike(one.countByMachine(), one.hoursByMachine()).dispersion(),
          parts.sums("g" + g).dispersion(),
          ROUNDING);
      assertEquals(one.events() / one.hoursH(), parts.sums("g" + g).ratePerH(), ROUNDING);
    }
    SignificanceTest alike =
        RateModel.compare(
            data,
            new Covariate.Categorical(
                List.of("g0", "g1", "g2"), group.stream().mapToInt(i -> i).toArray()),
            null);
    assertEquals(alike.chiSquare(), parts.alike().chiSquare(), 1e-8 * alike.chiSquare());
    assertEquals(alike.degreesOfFreedom(), parts.alike().degreesOfFreedom());
  }

  private EventData part(EventData data, int part, int of) {
    return data.where(m -> m / 10 == part && group.get(m) == of);
  }

  /** By hand: 4 events in 100 h and 6 in 100 h of two machines; rate 10/200, rest 1 each. */
  @Test
  void rateAndItsVarianceByHand() {
    EventData data =
        EventData.of(
            List.of("A", "B"),
            new int[] {0, 1},
            new double[] {0, 0},
            new double[] {100, 100},
            new int[] {0, 0, 0, 0, 1, 1, 1, 1, 1, 1},
            new double[] {1, 2, 3, 4, 1, 2, 3, 4, 5, 6},
            null);
    EventsInParts.Sums sums = EventsInParts.look("g", data, 1).sums();
    assertEquals(0.05, sums.ratePerH());
    assertEquals(2.0 * 2 / (200.0 * 200), sums.rateVariance(), 1e-18);
    // chi-square (4-5)²/5 + (6-5)²/5 over 1
    assertEquals(0.4, sums.dispersion(), 1e-12);
    assertEquals(10, Arrays.stream(EventsInParts.look("g", data, 1).counts()[2]).sum());
  }
}
