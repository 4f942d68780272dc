package siltwright.fleet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntPredicate;

/**
 * Events of machines as primitive columns, without an object a row.
 *
 * <p>A machine is watched in one or more windows (from, to] on its own hour meter; an event lies in
 * one of its windows and may carry a mark, such as its cost. A window may begin late, and windows
 * of different machines need not be alike. Immutable.
 */
public final class EventData {
  private final List<String> machines;
  private final int[] windowMachine;
  private final double[] fromH;
  private final double[] toH;
  private final boolean[] endsAtEvent;
  private final int[] eventMachine;
  private final int[] eventWindow;
  private final double[] atH;
  private final double[] mark;

  private EventData(
      List<String> machines,
      int[] windowMachine,
      double[] fromH,
      double[] toH,
      boolean[] endsAtEvent,
      int[] eventMachine,
      int[] eventWindow,
      double[] atH,
      double[] mark) {
    this.machines = machines;
    this.windowMachine = windowMachine;
    this.fromH = fromH;
    this.toH = toH;
    this.endsAtEvent = endsAtEvent;
    this.eventMachine = eventMachine;
    this.eventWindow = eventWindow;
    this.atH = atH;
    this.mark = mark;
  }

  /**
   * Returns machines from columns, which are copied.
   *
   * @param machines names, each once
   * @param windowMachine index of the machine of each window
   * @param fromH hour at which a window begins, at least 0
   * @param toH hour at which it ends, later
   * @param eventMachine index of the machine of each event
   * @param atH hour of each event
   * @param marks mark of each event, finite; or null if each counts as one
   * @throws IllegalArgumentException naming the row (from 0), the value and the bound: an empty or
   *     unbounded window, windows of a machine that overlap, a machine without one, an event
   *     outside the windows of its machine, columns of different length
   */
  public static EventData of(
      List<String> machines,
      int[] windowMachine,
      double[] fromH,
      double[] toH,
      int[] eventMachine,
      double[] atH,
      double[] marks) {
    int windows = windowMachine.length;
    int events = eventMachine.length;
    if (fromH.length != windows
        || toH.length != windows
        || atH.length != events
        || marks != null && marks.length != events) {
      throw new IllegalArgumentException("columns of windows or of events differ in length");
    }
    int[] first = new int[machines.size()];
    int[] next = new int[windows];
    Arrays.fill(first, -1);
    for (int w = 0; w < windows; w++) {
      if (!(fromH[w] >= 0 && toH[w] > fromH[w] && toH[w] < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException(
            "window " + w + " is " + fromH[w] + " to " + toH[w] + " h, expected from 0 h upwards");
      }
      int m = windowMachine[w];
      for (int o = first[m]; o >= 0; o = next[o]) {
        if (fromH[o] < toH[w] && fromH[w] < toH[o]) {
          throw new IllegalArgumentException(
              "windows " + o + " and " + w + " of machine " + machines.get(m) + " overlap");
        }
      }
      next[w] = first[m];
      first[m] = w;
    }
    for (int m = 0; m < first.length; m++) {
      if (first[m] < 0) {
        throw new IllegalArgumentException("machine " + machines.get(m) + " has no window");
      }
    }
    int[] eventWindow = new int[events];
    double[] mark = marks == null ? null : marks.clone();
    boolean[] endsAtEvent = new boolean[windows];
    for (int e = 0; e < events; e++) {
      double t = atH[e];
      int in = first[eventMachine[e]];
      while (in >= 0 && !(t > fromH[in] && t <= toH[in])) {
        in = next[in];
      }
      if (in < 0) {
        throw new IllegalArgumentException(
            "event " + e + " at " + t + " h is outside the windows of its machine");
      }
      if (mark != null && !Double.isFinite(mark[e])) {
        throw new IllegalArgumentException("event " + e + ": mark " + mark[e] + " is not finite");
      }
      eventWindow[e] = in;
      endsAtEvent[in] |= t == toH[in];
    }
    return new EventData(
        List.copyOf(machines),
        windowMachine.clone(),
        fromH.clone(),
        toH.clone(),
        endsAtEvent,
        eventMachine.clone(),
        eventWindow,
        atH.clone(),
        mark);
  }

  /** Returns the machines that a condition on their index keeps, with their windows and events. */
  public EventData where(IntPredicate keep) {
    int[] to = new int[machines.size()];
    List<String> kept = new ArrayList<>();
    for (int m = 0; m < to.length; m++) {
      to[m] = keep.test(m) ? kept.size() : -1;
      if (to[m] >= 0) {
        kept.add(machines.get(m));
      }
    }
    int[] windows = rows(windowMachine, to);
    int[] events = rows(eventMachine, to);
    int[] place = new int[windowMachine.length];
    for (int w = 0; w < windows.length; w++) {
      place[windows[w]] = w;
    }
    boolean[] ends = new boolean[windows.length];
    for (int w = 0; w < windows.length; w++) {
      ends[w] = endsAtEvent[windows[w]];
    }
    return new EventData(
        List.copyOf(kept),
        Arrays.stream(windows).map(w -> to[windowMachine[w]]).toArray(),
        Arrays.stream(windows).mapToDouble(w -> fromH[w]).toArray(),
        Arrays.stream(windows).mapToDouble(w -> toH[w]).toArray(),
        ends,
        Arrays.stream(events).map(e -> to[eventMachine[e]]).toArray(),
        Arrays.stream(events).map(e -> place[eventWindow[e]]).toArray(),
        Arrays.stream(events).mapToDouble(e -> atH[e]).toArray(),
        mark == null ? null : Arrays.stream(events).mapToDouble(e -> mark[e]).toArray());
  }

  private static int[] rows(int[] machine, int[] to) {
    int[] kept = new int[machine.length];
    int n = 0;
    for (int i = 0; i < machine.length; i++) {
      if (to[machine[i]] >= 0) {
        kept[n++] = i;
      }
    }
    return Arrays.copyOf(kept, n);
  }

  /** Returns these machines with each event counting as one. */
  public EventData withoutMarks() {
    return new EventData(
        machines, windowMachine, fromH, toH, endsAtEvent, eventMachine, eventWindow, atH, null);
  }

  /** Returns the names of the machines. */
  public List<String> machines() {
    return machines;
  }

  /** Returns the number of windows. */
  public int windows() {
    return windowMachine.length;
  }

  /** Returns the number of events. */
  public int events() {
    return eventMachine.length;
  }

  /** Returns the index of the machine of a window. */
  public int windowMachine(int window) {
    return windowMachine[window];
  }

  /** Returns the hour at which a window begins. */
  public double fromH(int window) {
    return fromH[window];
  }

  /** Returns the hour at which a window ends. */
  public double toH(int window) {
    return toH[window];
  }

  /**
   * Returns whether a window ends at an event of its own: watching was stopped by the event
   * (failure-truncated), since no clock stops at an event by chance.
   */
  public boolean endsAtEvent(int window) {
    return endsAtEvent[window];
  }

  /** Returns the index of the machine of an event. */
  public int eventMachine(int event) {
    return eventMachine[event];
  }

  /** Returns the index of the window of an event. */
  public int eventWindow(int event) {
    return eventWindow[event];
  }

  /** Returns the hour of an event. */
  public double atH(int event) {
    return atH[event];
  }

  /** Returns the mark of an event, 1 if there are none. */
  public double mark(int event) {
    return mark == null ? 1 : mark[event];
  }

  /** Returns whether events carry marks. */
  public boolean hasMarks() {
    return mark != null;
  }

  /** Returns whether any window begins after 0 h. */
  public boolean hasLateEntry() {
    return Arrays.stream(fromH).anyMatch(h -> h > 0);
  }

  /** Returns the hours that each machine was watched. */
  public double[] hoursByMachine() {
    double[] hours = new double[machines.size()];
    for (int w = 0; w < windowMachine.length; w++) {
      hours[windowMachine[w]] += toH[w] - fromH[w];
    }
    return hours;
  }

  /** Returns the number of events of each machine. */
  public double[] countByMachine() {
    double[] n = new double[machines.size()];
    for (int m : eventMachine) {
      n[m]++;
    }
    return n;
  }

  /** Returns the sum of the marks of each machine. */
  public double[] markByMachine() {
    double[] sum = new double[machines.size()];
    for (int e = 0; e < eventMachine.length; e++) {
      sum[eventMachine[e]] += mark(e);
    }
    return sum;
  }

  /** Returns all hours watched. */
  public double hoursH() {
    return Arrays.stream(hoursByMachine()).sum();
  }

  double[] times() {
    return atH;
  }

  double[] starts() {
    return fromH;
  }

  double[] ends() {
    return toH;
  }
}
