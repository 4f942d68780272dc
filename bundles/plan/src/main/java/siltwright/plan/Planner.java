package siltwright.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import siltwright.analysis.Progress;

/**
 * Puts the changes of a fleet together into visits so that early and late changes, driving and
 * overtime cost least.
 *
 * <p>It begins with every change on its due day and never leaves a cheaper plan for a dearer one,
 * so it is never worse than that. Each machine in turn takes the cheapest chain of days with the
 * others as they are (exact, a shortest path); then groups of machines that are visited about the
 * same time are taken out and put back in other ways, and what costs less is kept. A lower bound
 * comes from the same chains with the price of each trip shared out among those who could make use
 * of it (Lagrangian relaxation, subgradient ascent).
 *
 * <p>Source: own method in docs/plan.md; relaxation as in Held and Karp, Mathematical Programming 1
 * (1971) 6, and Fisher, Management Science 27 (1981) 1; taking out and putting back as in Shaw,
 * CP98, LNCS 1520 (1998) 417.
 */
public final class Planner {
  private static final double[] OPENINGS = {0.05, 0.1, 0.2, 0.4, 0.7, 1, 1};
  private static final int LARGEST_GROUP = 8;
  private static final double DEAR = 1e12;
  private static final int LEAST_ROUNDS = 500;
  private static final int GAIN_DIVISOR = 1_000_000;

  private final List<Task> tasks;
  private final Network network;
  private final int days;
  private final double[] price;
  private final double[] value;
  private final int[] next;
  private final int[] scratch;
  private Board board;
  private int[][] chains;
  private double[] money;

  /**
   * How hard to try.
   *
   * @param rounds groups taken out and put back, per machine
   * @param boundRounds rounds of the lower bound
   * @param seed seed of the choice of groups
   */
  public record Settings(int rounds, int boundRounds, long seed) {}

  /**
   * A plan.
   *
   * @param chains working days of the changes of each machine, rising
   * @param timingMoney what early and late changes cost by expectation
   * @param travelMoney what driving costs
   * @param overtimeMoney what overtime costs more
   * @param drivenH hours of driving
   * @param visits visits: a site on a day
   * @param changes changes
   */
  public record Plan(
      int[][] chains,
      double timingMoney,
      double travelMoney,
      double overtimeMoney,
      double drivenH,
      int visits,
      int changes) {
    /** Returns what can be planned: timing, driving and overtime together. */
    public double money() {
      return timingMoney + travelMoney + overtimeMoney;
    }
  }

  /**
   * The answer.
   *
   * @param plan the plan
   * @param dueDates every change on its due day: the last working day before T* is reached
   * @param boundMoney no plan costs less than this
   */
  public record Answer(Plan plan, Plan dueDates, double boundMoney) {}

  private Planner(List<Task> tasks, Network network, int days) {
    this.tasks = tasks;
    this.network = network;
    this.days = days;
    price = new double[days];
    value = new double[days];
    next = new int[days];
    scratch = new int[days + 1];
  }

  /**
   * Plans.
   *
   * @param tasks machines
   * @param network sites and technicians
   * @param days working days
   * @param settings how hard to try
   * @param progress told how far it is
   */
  public static Answer plan(
      List<Task> tasks, Network network, WorkDays days, Settings settings, Progress progress) {
    Planner planner = new Planner(tasks, network, days.count());
    int[][] due = tasks.stream().map(Task::dueChain).toArray(int[][]::new);
    planner.set(due);
    Plan dueDates = planner.answer();
    progress.check(0.02, "visits");
    planner.drawTogether(due, progress);
    planner.improve(settings, progress);
    Plan plan = planner.answer();
    if (plan.money() > dueDates.money()) {
      plan = dueDates;
    }
    double bound =
        new LowerBound(tasks, network, days.count())
            .money(settings.boundRounds(), plan.money(), progress);
    return new Answer(plan, dueDates, Math.min(bound, plan.money()));
  }

  private void set(int[][] to) {
    board = new Board(network, days);
    chains = new int[to.length][];
    money = new double[to.length];
    for (int i = 0; i < to.length; i++) {
      put(i, to[i]);
    }
  }

  private void put(int i, int[] chain) {
    chains[i] = chain;
    money[i] = tasks.get(i).money(chain);
    for (int k : chain) {
      board.add(tasks.get(i), k);
    }
  }

  private void take(int i) {
    for (int k : chains[i]) {
      board.remove(tasks.get(i), k);
    }
  }

  private double total() {
    Board.Travel travel = board.travel();
    return Arrays.stream(money).sum() + travel.money() + travel.overtimeMoney();
  }

  private Plan answer() {
    Board.Travel travel = board.travel();
    return new Plan(
        Arrays.stream(chains).map(int[]::clone).toArray(int[][]::new),
        Arrays.stream(money).sum(),
        travel.money(),
        travel.overtimeMoney(),
        travel.drivenH(),
        travel.visits(),
        Arrays.stream(chains).mapToInt(c -> c.length).sum());
  }

  /**
   * Puts a machine that is taken out back where it costs least with the prices as they stand.
   *
   * @param before chain that it had
   * @param from changes before this day stay
   * @param until changes after this day stay
   */
  private void putCheapest(int i, int[] before, int from, int until) {
    int kept = 0;
    while (kept < before.length && before[kept] < from) {
      kept++;
    }
    int rest = kept;
    while (rest < before.length && before[rest] <= until) {
      rest++;
    }
    tasks
        .get(i)
        .cheapest(
            kept == 0 ? -1 : before[kept - 1],
            rest == before.length ? Task.END : before[rest],
            price,
            value,
            next,
            scratch);
    int n = 0;
    while (scratch[n] != Task.END) {
      n++;
    }
    int left = Math.max(0, before.length - rest - 1);
    int[] chain = Arrays.copyOf(before, kept + n + left);
    System.arraycopy(scratch, 0, chain, kept, n);
    System.arraycopy(before, before.length - left, chain, kept + n, left);
    put(i, chain);
  }

  /**
   * Lets every machine choose by turns while the first to come somewhere pays a growing share of
   * the trip: so visits form where many gain, not where one happened to be.
   */
  private void drawTogether(int[][] due, Progress progress) {
    double least = total();
    int[][] best = due;
    for (int s = 0; s < OPENINGS.length; s++) {
      progress.check(0.02 + 0.18 * s / OPENINGS.length, "visits");
      for (int i = 0; i < tasks.size(); i++) {
        take(i);
        board.prices(tasks.get(i), OPENINGS[s], price);
        putCheapest(i, chains[i], 0, days);
      }
      double now = total();
      if (now < least) {
        least = now;
        best = chains.clone();
      }
    }
    set(best);
  }

  /** Takes groups out and puts them back in other ways; keeps what costs less. */
  private void improve(Settings settings, Progress progress) {
    List<int[]> bySite = members();
    SplittableRandom random = new SplittableRandom(settings.seed());
    long rounds = (long) settings.rounds() * Math.max(LEAST_ROUNDS, tasks.size());
    if (tasks.isEmpty()) {
      return;
    }
    for (long r = 0; r < rounds; r++) {
      if (r % 64 == 0) {
        progress.check(0.2 + 0.4 * r / rounds, "visits");
      }
      int first = random.nextInt(tasks.size());
      if (chains[first].length == 0) {
        continue;
      }
      int at = chains[first][random.nextInt(chains[first].length)];
      int reach = 1 + random.nextInt(12);
      int area = network.sites().get(tasks.get(first).site()).area();
      boolean wide = random.nextInt(4) == 0;
      int[] near =
          wide ? bySite.get(network.sites().size() + area) : bySite.get(tasks.get(first).site());
      int[] group = group(near, at, reach, random);
      tryAgain(group, at, reach, random);
    }
  }

  /** Machines of each site, then of each area. */
  private List<int[]> members() {
    List<int[]> members = new ArrayList<>();
    for (int s = 0; s < network.sites().size(); s++) {
      int site = s;
      members.add(
          IntStream.range(0, tasks.size()).filter(i -> tasks.get(i).site() == site).toArray());
    }
    for (int a = 0; a < network.areas().size(); a++) {
      int area = a;
      members.add(
          IntStream.range(0, tasks.size())
              .filter(i -> network.sites().get(tasks.get(i).site()).area() == area)
              .toArray());
    }
    return members;
  }

  /** Machines with a change near a day, in random order. */
  private int[] group(int[] near, int at, int reach, SplittableRandom random) {
    int[] found = new int[near.length];
    int n = 0;
    for (int i : near) {
      for (int k : chains[i]) {
        if (Math.abs(k - at) <= reach) {
          found[n++] = i;
          break;
        }
      }
    }
    int size = Math.min(n, LARGEST_GROUP);
    for (int i = 0; i < size; i++) {
      int j = i + random.nextInt(n - i);
      int swap = found[i];
      found[i] = found[j];
      found[j] = swap;
    }
    return Arrays.copyOf(found, size);
  }

  private void tryAgain(int[] group, int at, int reach, SplittableRandom random) {
    int[][] before = new int[group.length][];
    double gain = 0;
    for (int g = 0; g < group.length; g++) {
      int i = group[g];
      before[g] = chains[i];
      gain += money[i];
      for (int k : chains[i]) {
        board.remove(tasks.get(i), k);
        gain += board.price(tasks.get(i), k);
      }
    }
    double scale = gain;
    int way = random.nextInt(3);
    // What follows is often left as it is, and sometimes planned anew to the end.
    int until = random.nextInt(3) == 0 ? days : at + reach;
    int other = Math.max(0, Math.min(days - 1, at - 10 + random.nextInt(21)));
    double opening = way == 2 ? 0.1 + 0.8 * random.nextDouble() : 1;
    for (int g = 0; g < group.length; g++) {
      int i = group[g];
      board.prices(tasks.get(i), opening, price);
      if (way == 0) {
        // Dear, not forbidden: it may be the only day.
        price[at] += DEAR;
      } else if (way == 1) {
        price[other] = 0;
      }
      putCheapest(i, before[g], at - reach, until);
    }
    for (int g = 0; g < group.length; g++) {
      int i = group[g];
      take(i);
      board.prices(tasks.get(i), 1, price);
      putCheapest(i, before[g], at - reach, until);
    }
    for (int i : group) {
      gain -= money[i];
    }
    // What the group costs on the board: taken off and put on again in turn.
    for (int g = group.length - 1; g >= 0; g--) {
      for (int k : chains[group[g]]) {
        board.remove(tasks.get(group[g]), k);
        gain -= board.price(tasks.get(group[g]), k);
      }
    }
    boolean better = gain > scale / GAIN_DIVISOR;
    for (int g = 0; g < group.length; g++) {
      int i = group[g];
      put(i, better ? chains[i] : before[g]);
    }
  }
}
