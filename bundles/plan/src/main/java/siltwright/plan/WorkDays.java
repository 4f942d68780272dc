package siltwright.plan;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Set;

/**
 * The days of the plan on which work is done.
 *
 * @param start first day of the plan
 * @param length days from the first to the end
 * @param days working days, as days after the first, rising; not modified
 */
public record WorkDays(LocalDate start, int length, int[] days) {
  /** Which days of a week are worked. */
  public enum Week {
    /** Monday to Friday. */
    FIVE(5),
    /** Monday to Saturday. */
    SIX(6),
    /** All. */
    SEVEN(7);

    private final int last;

    Week(int last) {
      this.last = last;
    }

    boolean has(DayOfWeek day) {
      return day.getValue() <= last;
    }
  }

  /**
   * Makes the working days of a plan.
   *
   * @param start first day
   * @param length days, at least 1
   * @param week which days of a week are worked
   * @param closed days that are not worked all the same
   */
  public static WorkDays of(LocalDate start, int length, Week week, Set<LocalDate> closed) {
    int[] days = new int[length];
    int n = 0;
    for (int d = 0; d < length; d++) {
      LocalDate day = start.plusDays(d);
      if (week.has(day.getDayOfWeek()) && !closed.contains(day)) {
        days[n++] = d;
      }
    }
    return new WorkDays(start, length, Arrays.copyOf(days, n));
  }

  /** Returns how many there are. */
  public int count() {
    return days.length;
  }

  /** Returns the date of a working day. */
  public LocalDate date(int index) {
    return start.plusDays(days[index]);
  }
}
