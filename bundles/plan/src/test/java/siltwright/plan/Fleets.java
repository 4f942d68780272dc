package siltwright.plan;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;

/** Invented fleets of any size. */
final class Fleets {
  /**
   * A fleet to plan.
   *
   * @param tasks machines
   * @param network sites
   * @param days days
   */
  record Case(List<Task> tasks, Network network, WorkDays days) {}

  private Fleets() {}

  /** Days from a Monday on. */
  static WorkDays days(int length) {
    return WorkDays.of(LocalDate.of(2026, 3, 2), length, WorkDays.Week.FIVE, Set.of());
  }

  /** A fleet with flat ranges as wide as tuned ones are, every number drawn. */
  static Case of(Random random, int machines, int sites, int days, double longestH) {
    WorkDays work = days(days);
    List<Network.Site> places = new ArrayList<>();
    int areas = Math.max(1, sites / 4);
    List<Network.Area> roads = new ArrayList<>();
    for (int a = 0; a < areas; a++) {
      roads.add(new Network.Area("area " + a, random.nextInt(3) * 45));
    }
    for (int s = 0; s < sites; s++) {
      places.add(new Network.Site("site " + s, s % areas, 20 + random.nextInt(100), 10));
    }
    int technicians = 1 + machines / 100;
    Network network = new Network(places, roads, technicians, 480, 70, 60);
    List<Task> tasks = new ArrayList<>();
    for (int i = 0; i < machines; i++) {
      double best = longestH * (0.25 + 0.75 * random.nextDouble());
      double low = best * (0.65 + 0.1 * random.nextDouble());
      double high = best * (1.3 + 0.4 * random.nextDouble());
      ExcessCost cost =
          ExcessCost.ofFlatRange(
              best, low, high, Double.POSITIVE_INFINITY, 0.3 + 2 * random.nextDouble());
      double perDay = 3 + 12 * random.nextDouble();
      Usage usage = new Usage(perDay, 0.05 * perDay, 3, new Season(0.1, -0.05), 1);
      Task.Start start =
          new Task.Start(
              work.start().toEpochDay() - random.nextInt(20), best * random.nextDouble(), 0);
      tasks.add(
          new Task(
              "m" + i,
              random.nextInt(sites),
              30 + random.nextInt(60),
              usage,
              cost,
              start,
              work,
              1.28));
    }
    return new Case(tasks, network, work);
  }
}
