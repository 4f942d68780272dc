package siltwright.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import siltwright.plan.FleetPlan.Member;
import siltwright.plan.FleetPlan.Visit;

/**
 * Says who goes where: splits a day's changes into trips and gives them to technicians, the longest
 * first to whoever has least to do (Graham, SIAM J. Appl. Math. 17 (1969) 416).
 */
final class Roster {
  private final List<Member> members;
  private final Network network;
  private final WorkDays days;

  Roster(List<Member> members, Network network, WorkDays days) {
    this.members = members;
    this.network = network;
    this.days = days;
  }

  /** Something that takes time. */
  private interface Load {
    int minutes();
  }

  /** A change. */
  private record Job(int member, int minutes) implements Load {}

  /** One technician's stay at a site. */
  private record Stay(int site, List<Job> jobs, int minutes) implements Load {}

  /** One technician's way through an area. */
  private record Tour(int area, List<Stay> stays, int minutes) implements Load {}

  /** Returns the visits of chains, by day, technician and site. */
  List<Visit> visits(int[][] chains) {
    Map<Integer, Map<Integer, List<Job>>> byDay = new TreeMap<>();
    for (int i = 0; i < chains.length; i++) {
      Task t = members.get(i).task();
      for (int k : chains[i]) {
        byDay
            .computeIfAbsent(k, d -> new TreeMap<>())
            .computeIfAbsent(t.site(), s -> new ArrayList<>())
            .add(new Job(i, t.workMin()));
      }
    }
    List<Visit> visits = new ArrayList<>();
    byDay.forEach((day, sites) -> addDay(day, sites, visits));
    return visits;
  }

  private void addDay(int day, Map<Integer, List<Job>> sites, List<Visit> visits) {
    Map<Integer, List<Stay>> byArea = new TreeMap<>();
    Map<Integer, Integer> longStays = new TreeMap<>();
    sites.forEach(
        (site, jobs) -> {
          longStays.merge(
              network.sites().get(site).area(), network.longStays(site, sum(jobs)), Integer::sum);
          int own = network.sites().get(site).ownMin();
          for (List<Job> part : split(jobs, network.trips(site, sum(jobs)))) {
            byArea
                .computeIfAbsent(network.sites().get(site).area(), a -> new ArrayList<>())
                .add(new Stay(site, part, sum(part) + own));
          }
        });
    List<Tour> tours = new ArrayList<>();
    byArea.forEach(
        (area, stays) -> {
          for (List<Stay> part :
              split(stays, network.areaTrips(area, sum(stays), longStays.get(area)))) {
            tours.add(new Tour(area, part, sum(part) + network.areas().get(area).sharedMin()));
          }
        });
    int technician = 0;
    for (List<Tour> of : split(tours, network.technicians())) {
      technician++;
      for (Tour tour : of) {
        int shared = network.areas().get(tour.area()).sharedMin();
        for (Stay stay : tour.stays()) {
          visits.add(
              new Visit(
                  day,
                  days.date(day),
                  technician,
                  stay.site(),
                  stay.jobs().stream().map(Job::member).sorted().toList(),
                  sum(stay.jobs()) / 60.0,
                  (network.sites().get(stay.site()).ownMin() + shared) / 60.0));
          shared = 0;
        }
      }
    }
  }

  private static int sum(List<? extends Load> loads) {
    return loads.stream().mapToInt(Load::minutes).sum();
  }

  /** Splits loads into so many parts of about the same length; empty ones are left out. */
  private static <T extends Load> List<List<T>> split(List<T> loads, int parts) {
    List<List<T>> split = new ArrayList<>();
    for (int p = 0; p < parts; p++) {
      split.add(new ArrayList<>());
    }
    loads.stream()
        .sorted(Comparator.comparingInt((T l) -> l.minutes()).reversed())
        .forEach(
            l -> split.stream().min(Comparator.comparingInt(Roster::sum)).orElseThrow().add(l));
    split.removeIf(List::isEmpty);
    return split;
  }
}
