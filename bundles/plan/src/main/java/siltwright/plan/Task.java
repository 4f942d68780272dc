package siltwright.plan;

import java.util.Arrays;

/**
 * The changes of one machine over the plan, as a chain: each day of a change costs what the hours
 * since the one before make of it, so the cheapest chain for given prices of days is a shortest
 * path.
 *
 * <p>A change stays within the flat range: not before its shortest interval is expected, and not
 * after the last day on which the meter is still within its longest one with the confidence asked
 * for. Where no working day lies in between, it is the last one before, or the next one where it is
 * late already. What comes due within the plan is changed within the plan.
 */
public final class Task {
  /** Where a chain ends. */
  static final int END = -1;

  private static final int TABLE = 512;
  private static final int CATCH_UP_DAYS = 10;

  private final String id;
  private final int site;
  private final int workMin;
  private final Usage usage;
  private final ExcessCost cost;
  private final Start start;
  private final WorkDays days;
  private final double latestH;
  private final double endH;
  private final double[] hours;
  private final double[] firstMoney;
  private final double[] table;
  private final double perHour;
  private final double[] openMoney;
  private final int[] low;
  private final int[] high;
  private final boolean[] mayEnd;
  private final int firstLow;
  private final int firstHigh;
  private final boolean mayStartEnd;
  private final double startEndMoney;

  /**
   * Where the element in use stands.
   *
   * @param day day of the last reading, counted from 1970-01-01
   * @param ageH hours on the element then, h
   * @param ageVariance variance of that, h²
   */
  public record Start(double day, double ageH, double ageVariance) {}

  /**
   * Prepares a machine.
   *
   * @param id its id
   * @param site place of its site in the network
   * @param workMin minutes of work of a change
   * @param usage how much it is used
   * @param cost what early and late changes cost
   * @param start where the element in use stands
   * @param days working days of the plan
   * @param sureness how many standard deviations the meter is to be within the flat range's end
   */
  public Task(
      String id,
      int site,
      int workMin,
      Usage usage,
      ExcessCost cost,
      Start start,
      WorkDays days,
      double sureness) {
    this.id = id;
    this.site = site;
    this.workMin = workMin;
    this.usage = usage;
    this.cost = cost;
    this.start = start;
    this.days = days;
    int n = days.count();
    double origin = days.start().toEpochDay();
    hours = new double[n];
    for (int k = 0; k < n; k++) {
      hours[k] = usage.hours(origin, origin + days.days()[k]);
    }
    endH = usage.hours(origin, origin + days.length());
    latestH = latest(0, 0, sureness);
    double longest = Math.max(endH, latestH);
    perHour = (TABLE - 1) / longest;
    // One more, so that the last hour has a neighbour.
    table = new double[TABLE + 1];
    for (int i = 0; i <= TABLE; i++) {
      double mu = i / perHour;
      table[i] = cost.expected(mu, usage.variance(mu), false);
    }
    low = new int[n];
    high = new int[n];
    mayEnd = new boolean[n];
    openMoney = new double[n];
    for (int k = 0; k < n; k++) {
      double open = endH - hours[k];
      openMoney[k] = cost.expected(open, usage.variance(open), true);
      mayEnd[k] = open <= cost.bestH();
      window(k, hours[k] + cost.lowH(), hours[k] + latestH);
    }
    firstMoney = new double[n];
    for (int k = 0; k < n; k++) {
      firstMoney[k] = first(origin + days.days()[k], false);
    }
    double since = usage.hours(start.day(), origin);
    double latestFirst = latest(start.ageH(), start.ageVariance(), sureness);
    int from = atLeast(cost.lowH() - start.ageH() - since);
    int to = atLeast(Math.nextUp(latestFirst - start.ageH() - since)) - 1;
    mayStartEnd = start.ageH() + since + endH <= cost.bestH();
    if (to < 0 && n > 0) {
      from = 0;
      to = Math.min(n, CATCH_UP_DAYS) - 1;
    } else if (from > to && start.ageH() + since + endH > latestFirst) {
      from = to;
    }
    firstLow = from;
    firstHigh = Math.min(to, n - 1);
    startEndMoney = first(origin + days.length(), true);
  }

  /** Expected hours since a change up to which the flat range's end is surely not passed. */
  private double latest(double knownH, double knownVariance, double sureness) {
    double lo = 0;
    double hi = cost.highH();
    for (int i = 0; i < 60; i++) {
      double mid = (lo + hi) / 2;
      if (mid + sureness * Math.sqrt(knownVariance + usage.variance(Math.max(0, mid - knownH)))
          <= cost.highH()) {
        lo = mid;
      } else {
        hi = mid;
      }
    }
    return lo;
  }

  private double first(double day, boolean open) {
    double run = usage.hours(start.day(), day);
    return cost.expected(
        start.ageH() + run, start.ageVariance() + usage.variance(Math.max(0, run)), open);
  }

  /** First working day by which so many hours of the plan are expected to have run. */
  private int atLeast(double h) {
    int i = Arrays.binarySearch(hours, h);
    return i >= 0 ? i : -i - 1;
  }

  private void window(int k, double from, double to) {
    int n = hours.length;
    int a = Math.max(k + 1, atLeast(from));
    int b = atLeast(Math.nextUp(to)) - 1;
    if (a > b && endH > to) {
      // Nothing within: the last day before, or the very next one.
      a = Math.min(Math.max(k + 1, b), n - 1);
      b = a > k ? a : a - 1;
    }
    mayEnd[k] |= a > b;
    low[k] = a;
    high[k] = b;
  }

  /** Returns the id of the machine. */
  public String id() {
    return id;
  }

  /** Returns the place of its site in the network. */
  public int site() {
    return site;
  }

  /** Returns the minutes of work of a change. */
  public int workMin() {
    return workMin;
  }

  /** Returns how much it is used. */
  public Usage usage() {
    return usage;
  }

  /** Returns what early and late changes cost. */
  public ExcessCost cost() {
    return cost;
  }

  /** Returns where the element in use stands. */
  public Start start() {
    return start;
  }

  /** Returns the hours expected on the element at a day of the plan, nothing changed before. */
  public double ageH(double day) {
    return start.ageH() + usage.hours(start.day(), days.start().toEpochDay() + day);
  }

  /** Returns the hours expected between two working days, the first -1 for the last change. */
  public double intervalH(int from, int to) {
    return from < 0 ? ageH(days.days()[to]) : hours[to] - hours[from];
  }

  /** Returns the standard deviation of the same, h. */
  public double intervalSdH(int from, int to) {
    return Math.sqrt(
        from < 0
            ? start.ageVariance() + usage.variance(intervalH(from, to) - start.ageH())
            : usage.variance(intervalH(from, to)));
  }

  /** Returns the expected excess cost of a change. */
  public double money(int from, int to) {
    return from < 0 ? firstMoney[to] : table(hours[to] - hours[from]);
  }

  /** Returns the expected excess cost of the cycle open at the end of the plan. */
  double endMoney(int from) {
    return from < 0 ? startEndMoney : openMoney[from];
  }

  /** Returns the first working day on which a change may follow another, -1 the last one. */
  public int windowLow(int from) {
    return from < 0 ? firstLow : low[from];
  }

  /** Returns the last working day on which a change may follow another, -1 the last one. */
  public int windowHigh(int from) {
    return from < 0 ? firstHigh : high[from];
  }

  /** Returns whether the plan may end without a change after another, -1 the last one. */
  boolean mayEnd(int from) {
    return from < 0 ? mayStartEnd || firstHigh < firstLow : mayEnd[from];
  }

  private double table(double h) {
    double x = h * perHour;
    int i = (int) x;
    return table[i] + (x - i) * (table[i + 1] - table[i]);
  }

  /** Returns the chain of changes on their due days: the working day on or before T*. */
  int[] dueChain() {
    int[] chain = new int[hours.length];
    int n = 0;
    int at = -1;
    while (true) {
      int lo = windowLow(at);
      int hi = windowHigh(at);
      if (lo > hi) {
        break;
      }
      double dueH = at < 0 ? cost.bestH() - ageH(0) : hours[at] + cost.bestH();
      int due = atLeast(Math.nextUp(dueH)) - 1;
      if (mayEnd(at) && endH <= dueH) {
        break;
      }
      at = Math.max(lo, Math.min(hi, due));
      chain[n++] = at;
    }
    return Arrays.copyOf(chain, n);
  }

  /**
   * Finds the cheapest chain after a change, to the plan's end or to a later change.
   *
   * @param from working day of the change before, -1 for the last one before the plan
   * @param until working day of the later change, or {@link #END}
   * @param price what a change on each working day costs besides; not modified
   * @param value scratch of as many numbers as working days
   * @param next scratch of the same size
   * @param chain gets the days, that of the later change with them, followed by {@link #END}; one
   *     longer than the working days
   * @return its cost, prices included, without that of the later change's day
   */
  double cheapest(int from, int until, double[] price, double[] value, int[] next, int[] chain) {
    int first = windowLow(from);
    int last = until == END ? hours.length - 1 : until;
    if (until != END) {
      value[until] = 0;
      next[until] = END;
    }
    for (int k = until == END ? last : last - 1; k >= first; k--) {
      double least = until == END && mayEnd[k] ? openMoney[k] : Double.POSITIVE_INFINITY;
      int best = END;
      double base = hours[k];
      int to = Math.min(high[k], last);
      for (int j = low[k]; j <= to; j++) {
        double x = (hours[j] - base) * perHour;
        int i = (int) x;
        double c = table[i] + (x - i) * (table[i + 1] - table[i]) + value[j];
        if (c < least) {
          least = c;
          best = j;
        }
      }
      value[k] = least + price[k];
      next[k] = best;
    }
    double least = until == END && mayEnd(from) ? endMoney(from) : Double.POSITIVE_INFINITY;
    int best = END;
    int to = Math.min(windowHigh(from), last);
    for (int j = first; j <= to; j++) {
      double c = money(from, j) + value[j];
      if (c < least) {
        least = c;
        best = j;
      }
    }
    int at = 0;
    for (int j = best; j != END; j = next[j]) {
      chain[at++] = j;
    }
    chain[at] = END;
    return least;
  }

  /** Returns the expected excess cost of a chain, the open cycle at its end with it. */
  double money(int[] chain) {
    double sum = 0;
    int at = -1;
    for (int k : chain) {
      sum += money(at, k);
      at = k;
    }
    return sum + endMoney(at);
  }
}
