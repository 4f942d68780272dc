package siltwright.plan;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Progress;

class PlannerTest {
  private static final Planner.Settings SETTINGS = new Planner.Settings(2, 60, 1);

  /** Every combination of chains, priced as the plan is: nothing of the planner's search in it. */
  @Test
  void smallFleetsAgainstEveryPlanThereIs() {
    Random random = new Random(20261128);
    int exact = 0;
    int cases = 40;
    double gap = 0;
    for (int c = 0; c < cases; c++) {
      Fleets.Case small;
      do {
        small = Fleets.of(random, 2 + random.nextInt(4), 1 + random.nextInt(5), 19, 90);
      } while (small.tasks().stream().mapToDouble(t -> chains(t).size()).reduce(1, (a, b) -> a * b)
          > 20_000);
      double least = least(small);
      Planner.Answer answer =
          Planner.plan(small.tasks(), small.network(), small.days(), SETTINGS, Progress.NONE);
      String which = "case " + c + ": ";
      assertTrue(answer.plan().money() >= least - 1e-6, which + "undercuts every plan");
      assertTrue(answer.boundMoney() <= least + 1e-6, which + "bound above the least");
      assertTrue(answer.plan().money() <= answer.dueDates().money() + 1e-9, which);
      assertTrue(answer.plan().money() <= 1.02 * least, which + "far from the least");
      exact += answer.plan().money() <= least * (1 + 1e-6) ? 1 : 0;
      gap += least / Math.max(answer.boundMoney(), 1e-9) - 1;
    }
    assertTrue(gap / cases < 0.03, "bound below the least by " + gap / cases);
    assertTrue(exact >= 0.9 * cases, exact + " of " + cases + " found exactly");
  }

  private static double least(Fleets.Case c) {
    List<List<int[]>> chains = c.tasks().stream().map(PlannerTest::chains).toList();
    return least(c, chains, new int[chains.size()][], 0, Double.POSITIVE_INFINITY);
  }

  private static double least(
      Fleets.Case c, List<List<int[]>> chains, int[][] chosen, int at, double best) {
    if (at == chosen.length) {
      return Math.min(best, money(c, chosen));
    }
    double least = best;
    for (int[] chain : chains.get(at)) {
      chosen[at] = chain;
      least = least(c, chains, chosen, at + 1, least);
    }
    return least;
  }

  private static double money(Fleets.Case c, int[][] chosen) {
    double money = 0;
    int[][] site = new int[c.network().sites().size()][c.days().count()];
    for (int i = 0; i < chosen.length; i++) {
      Task t = c.tasks().get(i);
      money += t.money(chosen[i]);
      for (int k : chosen[i]) {
        site[t.site()][k] += t.workMin();
      }
    }
    for (int k = 0; k < c.days().count(); k++) {
      int load = 0;
      int[] area = new int[c.network().areas().size()];
      int[] halfDays = new int[area.length];
      for (int s = 0; s < site.length; s++) {
        Network.Site place = c.network().sites().get(s);
        double road = c.network().areas().get(place.area()).sharedMin();
        int trips = (int) Math.ceil(site[s][k] / (480.0 - place.ownMin() - road));
        money += trips * (place.ownMin() / 60.0 * 70 + 10);
        area[place.area()] += site[s][k] + trips * place.ownMin();
        if (trips > 0 && (double) site[s][k] / trips + place.ownMin() > (480 - road) / 2) {
          halfDays[place.area()] += trips;
        }
      }
      for (int a = 0; a < area.length; a++) {
        int road = c.network().areas().get(a).sharedMin();
        int trips = Math.max(halfDays[a], (int) Math.ceil(area[a] / (480.0 - road)));
        money += trips * road / 60.0 * 70;
        load += area[a] + trips * road;
      }
      money += Math.max(0, load - 480 * c.network().technicians()) / 60.0 * 60;
    }
    return money;
  }

  private static List<int[]> chains(Task t) {
    List<int[]> all = new ArrayList<>();
    extend(t, new int[0], all);
    return all;
  }

  private static void extend(Task t, int[] chain, List<int[]> all) {
    int at = chain.length == 0 ? -1 : chain[chain.length - 1];
    if (t.mayEnd(at)) {
      all.add(chain);
    }
    for (int k = t.windowLow(at); k <= t.windowHigh(at); k++) {
      int[] longer = Arrays.copyOf(chain, chain.length + 1);
      longer[chain.length] = k;
      extend(t, longer, all);
    }
  }

  @Test
  void neverWorseThanTheDueDatesAndNeverBelowTheBound() {
    Random random = new Random(7);
    for (int c = 0; c < 8; c++) {
      Fleets.Case fleet = Fleets.of(random, 40, 6, 250, 900);
      Planner.Answer answer =
          Planner.plan(
              fleet.tasks(),
              fleet.network(),
              fleet.days(),
              new Planner.Settings(c, 20, c),
              Progress.NONE);
      assertTrue(answer.plan().money() <= answer.dueDates().money());
      assertTrue(answer.boundMoney() <= answer.plan().money());
      assertEquals(money(fleet, answer.plan().chains()), answer.plan().money(), 1e-6);
      for (int i = 0; i < 40; i++) {
        int at = -1;
        for (int k : answer.plan().chains()[i]) {
          assertTrue(k >= fleet.tasks().get(i).windowLow(at));
          assertTrue(k <= fleet.tasks().get(i).windowHigh(at));
          at = k;
        }
      }
    }
  }

  @Test
  void sameSeedSamePlan() {
    Fleets.Case fleet = Fleets.of(new Random(3), 60, 5, 200, 700);
    Planner.Settings settings = new Planner.Settings(5, 10, 9);
    Planner.Answer a =
        Planner.plan(fleet.tasks(), fleet.network(), fleet.days(), settings, Progress.NONE);
    Planner.Answer b =
        Planner.plan(fleet.tasks(), fleet.network(), fleet.days(), settings, Progress.NONE);
    assertArrayEquals(a.plan().chains(), b.plan().chains());
    assertEquals(a.boundMoney(), b.boundMoney());
  }

  @Test
  void stopsWhenAsked() {
    Fleets.Case fleet = Fleets.of(new Random(3), 60, 5, 200, 700);
    assertThrows(
        CancellationException.class,
        () ->
            Planner.plan(
                fleet.tasks(),
                fleet.network(),
                fleet.days(),
                new Planner.Settings(50, 10, 9),
                (share, doing) -> share < 0.3));
  }

  /** Two machines due three days apart at one site, 100 of driving: one visit, by hand. */
  @Test
  void twoMachinesShareAVisit() {
    WorkDays days = Fleets.days(28);
    Network network =
        new Network(
            List.of(new Network.Site("s", 0, 60, 0)),
            List.of(new Network.Area("s", 0)),
            1,
            480,
            100,
            0);
    ExcessCost cost = ExcessCost.ofFlatRange(500, 300, 800, Double.POSITIVE_INFINITY, 1);
    Usage usage = new Usage(10, 0.01, 0.001, Season.NONE, 1);
    long start = days.start().toEpochDay();
    // Due on days 8 (a Tuesday) and 11 (a Friday).
    Task a = new Task("a", 0, 60, usage, cost, new Task.Start(start, 420, 0), days, 1.28);
    Task b = new Task("b", 0, 60, usage, cost, new Task.Start(start, 390, 0), days, 1.28);
    Planner.Answer answer = Planner.plan(List.of(a, b), network, days, SETTINGS, Progress.NONE);
    assertArrayEquals(new int[] {6}, answer.dueDates().chains()[0]);
    assertArrayEquals(new int[] {9}, answer.dueDates().chains()[1]);
    assertEquals(200, answer.dueDates().travelMoney());
    assertEquals(100, answer.plan().travelMoney());
    assertEquals(1, answer.plan().visits());
    assertTrue(answer.plan().timingMoney() < 5);
  }

  /** As large as the plan is asked for; how long it takes stands in docs/plan.md. */
  @Test
  void twoThousandMachinesOverAYear() {
    Fleets.Case fleet = Fleets.of(new Random(11), 2000, 40, 365, 1200);
    Planner.Answer answer =
        Planner.plan(
            fleet.tasks(),
            fleet.network(),
            fleet.days(),
            new Planner.Settings(1, 20, 1),
            Progress.NONE);
    assertTrue(answer.plan().money() < 0.5 * answer.dueDates().money());
    assertTrue(answer.plan().money() < 1.5 * answer.boundMoney());
  }
}
