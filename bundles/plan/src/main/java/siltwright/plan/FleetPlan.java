package siltwright.plan;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;
import siltwright.analysis.Context;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Values;
import siltwright.interval.Best;
import siltwright.interval.Tuning;
import siltwright.model.ChangeProcedure;
import siltwright.model.Fleet;
import siltwright.model.Machine;

/**
 * The plan of a fleet.
 *
 * @param fleet the fleet
 * @param days its days
 * @param network its sites and technicians
 * @param members machines that are planned, in the file's order
 * @param unplanned machines without a best interval, with the reason
 * @param answer the visits' days, the due-date plan and the bound; chains in the order of members
 * @param visits visits by day, technician and site
 * @param parts elements
 * @param strangers machines of the readings that the fleet does not have
 * @param farSites sites that the table of sites does not name, where there is one
 */
public record FleetPlan(
    Fleet fleet,
    WorkDays days,
    Network network,
    List<Member> members,
    Map<String, String> unplanned,
    Planner.Answer answer,
    List<Visit> visits,
    List<Part> parts,
    Set<String> strangers,
    Set<String> farSites) {

  /** Rounds of the lower bound: as many as are quickly done, more for small fleets. */
  private static final int FEWEST_BOUND_ROUNDS = 10;

  private static final int MOST_BOUND_ROUNDS = 600;
  private static final int BOUND_CHAINS = 20_000;

  /** Intervals of the cost curve that are computed, from a few hours to far past the best. */
  private static final int CURVE_POINTS = 28;

  private static final double PAST_BEST = 2.5;
  private static final double SHORTEST_H = 10;

  /** How the hours on an element are known. */
  public enum AgeKnown {
    /** A change is on record. */
    CHANGE,
    /** No change is on record, but the meter shows less than an interval: the first element. */
    FIRST_ELEMENT,
    /** Nothing tells: anything up to the best interval is as likely. */
    UNKNOWN
  }

  /**
   * A machine of the plan.
   *
   * @param machine the machine
   * @param procedure how it is changed
   * @param task its changes
   * @param log its meter, where there are readings
   * @param ageKnown how the hours on its element are known
   */
  public record Member(
      Machine machine,
      ChangeProcedure procedure,
      Task task,
      Optional<MeterLog> log,
      AgeKnown ageKnown) {}

  /**
   * A visit: one technician at one site on one day.
   *
   * @param day working day
   * @param date its date
   * @param technician number of the technician, from 1
   * @param site place of the site in the network
   * @param members places of the machines in {@link FleetPlan#members()}
   * @param workH hours of work
   * @param driveH hours of driving, the shared road with the first site of the day on it
   */
  public record Visit(
      int day,
      LocalDate date,
      int technician,
      int site,
      List<Integer> members,
      double workH,
      double driveH) {}

  /**
   * An element in store.
   *
   * @param id its id
   * @param name its name
   * @param planned how many the plan takes
   * @param visits visits that take any
   * @param leadDays days from ordering to having it
   * @param peak most that the plan takes within a lead time
   * @param single demand within a lead time, changes coming one by one
   * @param batched the same, coming by visits
   * @param onHand how many are in store, if that is known
   */
  public record Part(
      String id,
      String name,
      int planned,
      int visits,
      int leadDays,
      int peak,
      Demand single,
      Demand batched,
      Optional<Integer> onHand) {}

  /**
   * Plans.
   *
   * @param context the fleet with its tables
   * @param values values of {@link PlanRequest}'s parameters
   * @param progress told how far it is
   * @throws siltwright.model.InputException if a table or a value is at fault
   */
  public static FleetPlan of(Context context, Values values, Progress progress) {
    Fleet fleet = context.fleet().orElseThrow();
    Map<String, Records> tables = context.tables();
    Set<String> ids = fleet.machines().stream().map(Machine::id).collect(Collectors.toSet());
    MeterTable meters = MeterTable.of(find(tables, PlanRequest.METERS.name()), ids);
    IntervalTable intervals = IntervalTable.of(find(tables, PlanRequest.INTERVALS.name()));
    StockTable stock = StockTable.of(find(tables, PlanRequest.STOCK.name()));
    Optional<Records> roads = find(tables, PlanRequest.SITES.name());
    SiteTable sites = SiteTable.of(roads, values.get(PlanRequest.DAY_HOURS));
    WorkDays days = PlanRequest.workDays(values, meters.newest());

    List<String> siteIds =
        fleet.machines().stream().map(Machine::site).distinct().sorted().toList();
    double wage =
        fleet.machines().stream().mapToDouble(m -> m.costs().labourMoneyPerH()).average().orElse(0);
    Network network = network(values, sites, siteIds, wage);

    Map<String, MeterLog> logs = new HashMap<>();
    meters.readings().forEach((id, readings) -> logs.put(id, MeterLog.of(readings)));
    Map<String, Usage> usage =
        UsageFit.of(
            fleet.machines().stream()
                .map(
                    m ->
                        new UsageFit.Source(
                            m.id(),
                            m.machineClass(),
                            m.site(),
                            Optional.ofNullable(logs.get(m.id()))
                                .map(MeterLog::steps)
                                .orElse(List.of())))
                .toList(),
            values.get(PlanRequest.USE));
    List<Priced> priced = priced(fleet, values, intervals, stopping(progress));
    Map<String, String> unplanned = new LinkedHashMap<>();
    List<Member> members = new ArrayList<>();
    double sureness =
        new NormalDistribution().inverseCumulativeProbability(values.get(PlanRequest.SURENESS));
    for (Priced p : priced) {
      Machine m = p.machine();
      if (p.cost().isEmpty()) {
        unplanned.put(m.id(), p.reason());
        continue;
      }
      Optional<MeterLog> log = Optional.ofNullable(logs.get(m.id()));
      Age age = age(log, usage.get(m.id()), p.cost().get(), days);
      Task task =
          new Task(
              m.id(),
              siteIds.indexOf(m.site()),
              Math.max(1, SiteTable.minutes(p.procedure().labourH())),
              usage.get(m.id()),
              p.cost().get(),
              age.start(),
              days,
              sureness);
      members.add(new Member(m, p.procedure(), task, log, age.known()));
    }
    Planner.Answer answer =
        Planner.plan(
            members.stream().map(Member::task).toList(),
            network,
            days,
            new Planner.Settings(
                values.get(PlanRequest.ROUNDS).intValue(),
                Math.max(
                    FEWEST_BOUND_ROUNDS,
                    Math.min(MOST_BOUND_ROUNDS, BOUND_CHAINS / Math.max(1, members.size()))),
                values.get(PlanRequest.SEED)),
            (share, doing) -> progress.report(0.5 + 0.5 * share, doing));
    List<Visit> visits = new Roster(members, network, days).visits(answer.plan().chains());
    Set<String> far =
        roads.isEmpty()
            ? Set.of()
            : siteIds.stream()
                .filter(s -> !sites.roads().containsKey(s))
                .collect(Collectors.toCollection(TreeSet::new));
    return new FleetPlan(
        fleet,
        days,
        network,
        members,
        unplanned,
        answer,
        visits,
        parts(members, days, visits, stock, values),
        meters.strangers(),
        far);
  }

  /**
   * Returns the day of the plan on which a machine is expected to reach its best interval; 0 where
   * it has, and past the plan's end where it does not within it.
   */
  public double dueDay(Task task) {
    int length = days.length();
    if (task.ageH(0) >= task.cost().bestH()) {
      return 0;
    }
    if (task.ageH(length) < task.cost().bestH()) {
      return length + 1;
    }
    double low = 0;
    double high = length;
    while (high - low > 1e-3) {
      double middle = (low + high) / 2;
      if (task.ageH(middle) < task.cost().bestH()) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }

  /** For many threads: once asked to stop, nobody asks again. */
  private static Progress stopping(Progress progress) {
    return new Progress() {
      private boolean stopped;

      @Override
      public synchronized boolean report(double share, String doing) {
        stopped = stopped || !progress.report(share, doing);
        return !stopped;
      }
    };
  }

  private static Optional<Records> find(Map<String, Records> tables, String name) {
    return Optional.ofNullable(tables.get(name));
  }

  private static Network network(
      Values values, SiteTable sites, List<String> siteIds, double wage) {
    double dayH = values.get(PlanRequest.DAY_HOURS);
    double travelH = values.get(PlanRequest.TRAVEL);
    if (travelH > dayH - Network.LEAST_WORK_MIN / 60.0) {
      throw PlanRequest.fault(
          PlanRequest.TRAVEL,
          values,
          "an hour less than --"
              + PlanRequest.DAY_HOURS.name()
              + " at most, so that some work fits");
    }
    return sites.network(
        siteIds,
        travelH,
        values.get(PlanRequest.TECHNICIANS).intValue(),
        dayH,
        wage,
        wage * values.get(PlanRequest.OVERTIME));
  }

  /** A machine with what early and late changes cost, or why that cannot be said. */
  private record Priced(
      Machine machine, ChangeProcedure procedure, Optional<ExcessCost> cost, String reason) {}

  private static List<Priced> priced(
      Fleet fleet, Values values, IntervalTable intervals, Progress progress) {
    boolean today = values.get(PlanRequest.PROCEDURE).equals(PlanRequest.TODAY);
    double horizonH = values.get(PlanRequest.HORIZON);
    List<Machine> machines = fleet.machines();
    Priced[] priced = new Priced[machines.size()];
    AtomicInteger done = new AtomicInteger();
    IntStream.range(0, priced.length)
        .parallel()
        .forEach(
            i -> {
              Machine m = machines.get(i);
              progress.check(0.5 * done.getAndIncrement() / priced.length, m.id());
              ExcessCost known = intervals.byMachine().get(m.id());
              priced[i] =
                  known != null
                      ? new Priced(
                          m,
                          m.procedure(m.today().procedure()).orElseThrow(),
                          Optional.of(known),
                          "")
                      : tuned(m, today, horizonH);
            });
    return List.of(priced);
  }

  private static Priced tuned(Machine m, boolean today, double horizonH) {
    List<Best> best = Tuning.asFitted(m, horizonH);
    int chosen = -1;
    for (int i = 0; i < best.size(); i++) {
      boolean asked = !today || m.procedures().get(i).id().equals(m.today().procedure());
      if (asked && (chosen < 0 || cost(best.get(i)) < cost(best.get(chosen)))) {
        chosen = i;
      }
    }
    ChangeProcedure procedure = m.procedures().get(chosen);
    Optional<Best.Interval> interval = best.get(chosen).interval();
    if (interval.isEmpty()) {
      return new Priced(m, procedure, Optional.empty(), best.get(chosen).reason());
    }
    Best.Interval b = interval.get();
    double[] hours = curveHours(b.hours(), b.within5pct()[1]);
    double[] perH = Tuning.costPerH(m, procedure, hours);
    return new Priced(
        m,
        procedure,
        Optional.of(
            ExcessCost.ofCurve(
                b.hours(), b.within5pct()[0], b.within5pct()[1], b.costPerH(), hours, perH)),
        "");
  }

  private static double cost(Best best) {
    return best.interval().map(Best.Interval::costPerH).orElse(Double.POSITIVE_INFINITY);
  }

  /** Hours from a few to far past the best, the best itself among them. */
  private static double[] curveHours(double bestH, double highH) {
    double[] hours = new double[CURVE_POINTS];
    int below = CURVE_POINTS / 2;
    double end = PAST_BEST * Math.max(bestH, highH);
    for (int i = 0; i < CURVE_POINTS; i++) {
      hours[i] =
          i < below
              ? SHORTEST_H * Math.pow(bestH / SHORTEST_H, (double) i / below)
              : bestH * Math.pow(end / bestH, (double) (i - below) / (CURVE_POINTS - 1 - below));
    }
    return hours;
  }

  private record Age(Task.Start start, AgeKnown known) {}

  private static Age age(Optional<MeterLog> log, Usage usage, ExcessCost cost, WorkDays days) {
    double best = cost.bestH();
    if (log.isPresent() && log.get().sinceChange().isPresent()) {
      MeterLog.Age since = log.get().sinceChange().get();
      double unseen =
          since.unseen().stream().mapToDouble(s -> usage.hours(s.fromDay(), s.toDay())).sum();
      return new Age(
          new Task.Start(log.get().lastDay(), since.hours() + unseen, usage.variance(unseen)),
          AgeKnown.CHANGE);
    }
    if (log.isPresent() && !log.get().broken() && log.get().lastMeterH() <= best) {
      return new Age(
          new Task.Start(log.get().lastDay(), log.get().lastMeterH(), 0), AgeKnown.FIRST_ELEMENT);
    }
    long day = log.map(MeterLog::lastDay).orElse(days.start().toEpochDay());
    return new Age(new Task.Start(day, best / 2, best * best / 12), AgeKnown.UNKNOWN);
  }

  private static List<Part> parts(
      List<Member> members, WorkDays days, List<Visit> visits, StockTable stock, Values values) {
    Map<String, List<Visit>> byElement = new LinkedHashMap<>();
    Map<String, String> names = new LinkedHashMap<>();
    Map<String, Double> perDayH = new HashMap<>();
    for (Member m : members) {
      String id = element(m);
      names.put(id, m.machine().returnFilter().element().name());
      byElement.putIfAbsent(id, new ArrayList<>());
      perDayH.merge(id, m.task().usage().perDayH(), Double::sum);
    }
    for (Visit v : visits) {
      v.members().stream()
          .map(i -> element(members.get(i)))
          .distinct()
          .forEach(id -> byElement.get(id).add(v));
    }
    List<Part> parts = new ArrayList<>();
    byElement.forEach(
        (id, of) -> {
          StockTable.Line line = stock.byElement().get(id);
          int lead =
              line == null
                  ? values.get(PlanRequest.LEAD).intValue()
                  : line.leadDays().orElse(values.get(PlanRequest.LEAD).intValue());
          int most = of.stream().mapToInt(v -> v.members().size()).max().orElse(0);
          double[] batch = new double[most + 1];
          int[] dates = new int[of.stream().mapToInt(v -> v.members().size()).sum()];
          int planned = 0;
          for (Visit v : of) {
            int n = 0;
            for (int i : v.members()) {
              if (element(members.get(i)).equals(id)) {
                dates[planned++] = days.days()[v.day()];
                n++;
              }
            }
            batch[n] += 1.0 / of.size();
          }
          double share = (double) lead / days.length();
          Demand besides =
              Demand.poisson(values.get(PlanRequest.UNPLANNED) / 1000 * perDayH.get(id) * lead);
          parts.add(
              new Part(
                  id,
                  names.get(id),
                  planned,
                  of.size(),
                  lead,
                  Demand.peak(Arrays.copyOf(dates, planned), lead),
                  Demand.poisson(planned * share).plus(besides),
                  Demand.compound(of.size() * share, batch).plus(besides),
                  Optional.ofNullable(line).map(StockTable.Line::onHand)));
        });
    return parts;
  }

  private static String element(Member m) {
    return m.machine().returnFilter().element().id();
  }
}
