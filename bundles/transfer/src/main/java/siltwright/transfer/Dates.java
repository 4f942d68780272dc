package siltwright.transfer;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.Locale;
import java.util.Map;

/** Reads dates and times as people write them. */
final class Dates {
  private static final Map<String, Integer> MONTHS = months();
  private static final int NOON_H = 12;

  /**
   * Years in which a record can be. What programs write for no date (years 1, 1900, 9999) is none.
   */
  private static final int FIRST_YEAR = 1950;

  private static final int LAST_YEAR = 2199;

  private final DateOrder order;
  private int year;
  private int month;
  private int day;
  private int secondOfDay;
  private boolean timed;
  private Integer offsetS;

  /**
   * Makes a reader.
   *
   * @param order order in dates that are written with numbers and do not begin with the year
   */
  Dates(DateOrder order) {
    this.order = order;
  }

  /** Returns what is expected of a date, in words. */
  static String expected() {
    return "a date from " + FIRST_YEAR + " to " + LAST_YEAR;
  }

  /** An instant, and whether only the day of it is known. */
  record When(long atMs, boolean wholeDay) {}

  private static Map<String, Integer> months() {
    Map<String, Integer> months = new java.util.HashMap<>();
    String[] english = "jan feb mar apr may jun jul aug sep oct nov dec".split(" ");
    String[] german = "jan feb mär apr mai jun jul aug sep okt nov dez".split(" ");
    for (int i = 0; i < english.length; i++) {
      months.put(english[i], i + 1);
      months.put(german[i], i + 1);
    }
    months.put("mrz", 3);
    return Map.copyOf(months);
  }

  /**
   * Reads a cell.
   *
   * @param cell text, or a date of a spreadsheet
   * @param zone zone of a time that names none
   * @return the instant, or null if the cell is no date
   */
  When read(Object cell, ZoneId zone) {
    if (cell instanceof LocalDateTime t) {
      if (t.getYear() < FIRST_YEAR || t.getYear() > LAST_YEAR) {
        return null;
      }
      boolean midnight = t.toLocalTime().toSecondOfDay() == 0;
      return midnight
          ? new When(ms(t.plusHours(NOON_H), zone), true)
          : new When(ms(t, zone), false);
    }
    if (!(cell instanceof String text) || !parse(text.strip())) {
      return null;
    }
    try {
      LocalDate date = LocalDate.of(year, month, day);
      if (!timed) {
        return new When(ms(date.atTime(NOON_H, 0), zone), true);
      }
      LocalDateTime time = date.atStartOfDay().plusSeconds(secondOfDay);
      return new When(
          offsetS == null ? ms(time, zone) : ms(time, ZoneOffset.ofTotalSeconds(offsetS)), false);
    } catch (DateTimeException e) {
      return null;
    }
  }

  private static long ms(LocalDateTime time, ZoneId zone) {
    return zone instanceof ZoneOffset o
        ? OffsetDateTime.of(time, o).toInstant().toEpochMilli()
        : ZonedDateTime.of(time, zone).toInstant().toEpochMilli();
  }

  /** Returns whether a text can be a date at all in some order. */
  static boolean looksLikeDate(String text) {
    for (DateOrder order : DateOrder.values()) {
      if (new Dates(order).read(text, ZoneOffset.UTC) != null) {
        return true;
      }
    }
    return false;
  }

  private boolean parse(String text) {
    int n = text.length();
    if (n < 6 || n > 40) {
      return false;
    }
    int at = 0;
    int[] parts = new int[3];
    int[] digits = new int[3];
    boolean named = false;
    for (int p = 0; p < 3; p++) {
      int start = at;
      int value = 0;
      while (at < n && text.charAt(at) >= '0' && text.charAt(at) <= '9' && at - start < 4) {
        value = 10 * value + text.charAt(at++) - '0';
      }
      digits[p] = at - start;
      if (digits[p] == 0) {
        while (at < n && Character.isLetter(text.charAt(at))) {
          at++;
        }
        String word = text.substring(start, at).toLowerCase(Locale.ROOT);
        Integer m = word.length() < 3 ? null : MONTHS.get(word.substring(0, 3));
        if (m == null || named) {
          return false;
        }
        named = true;
        value = m;
      }
      parts[p] = value;
      if (p < 2) {
        int between = at;
        while (at < n && ".-/ ,".indexOf(text.charAt(at)) >= 0 && at - between < 2) {
          at++;
        }
        if (at == between) {
          return false;
        }
      }
    }
    if (at < n && text.charAt(at) == '.') {
      at++;
    }
    return order(parts, digits, named) && time(text, at);
  }

  private boolean order(int[] parts, int[] digits, boolean named) {
    int y;
    int m;
    if (named) {
      m = digits[0] == 0 ? 0 : 1;
      y = digits[0] == 4 ? 0 : 2;
      if (digits[2] == 0) {
        return false;
      }
    } else if (digits[0] == 4) {
      y = 0;
      m = 1;
    } else if (order == DateOrder.YEAR_FIRST) {
      return false;
    } else {
      y = 2;
      m = order == DateOrder.DAY_FIRST ? 1 : 0;
    }
    int d = 3 - y - m;
    if (digits[d] > 2 || digits[d] == 0 || (digits[y] != 4 && digits[y] != 2)) {
      return false;
    }
    year = parts[y];
    if (digits[y] == 2) {
      year += year < 70 ? 2000 : 1900;
    }
    month = parts[m];
    day = parts[d];
    return year >= FIRST_YEAR && year <= LAST_YEAR;
  }

  private boolean time(String text, int from) {
    timed = false;
    offsetS = null;
    secondOfDay = 0;
    String rest = text.substring(from).strip();
    if (rest.isEmpty()) {
      return true;
    }
    if (rest.charAt(0) == 'T' || rest.charAt(0) == 't' || rest.charAt(0) == ',') {
      rest = rest.substring(1).strip();
    }
    int[] hms = new int[3];
    int at = 0;
    int n = rest.length();
    int part = 0;
    for (; part < 3; part++) {
      int start = at;
      while (at < n && Character.isDigit(rest.charAt(at)) && at - start < 2) {
        hms[part] = 10 * hms[part] + rest.charAt(at++) - '0';
      }
      if (at == start) {
        return false;
      }
      if (at < n && rest.charAt(at) == ':') {
        at++;
      } else {
        part++;
        break;
      }
    }
    if (part < 2) {
      return false;
    }
    if (at < n && (rest.charAt(at) == '.' || rest.charAt(at) == ',')) {
      at++;
      while (at < n && Character.isDigit(rest.charAt(at))) {
        at++;
      }
    }
    String tail = rest.substring(at).strip().toUpperCase(Locale.ROOT);
    if (tail.equals("AM") || tail.equals("PM")) {
      if (hms[0] < 1 || hms[0] > 12) {
        return false;
      }
      hms[0] = hms[0] % 12 + (tail.equals("PM") ? 12 : 0);
      tail = "";
    }
    if (hms[0] > 23 || hms[1] > 59 || hms[2] > 59) {
      return false;
    }
    timed = true;
    secondOfDay = 3600 * hms[0] + 60 * hms[1] + hms[2];
    if (!tail.isEmpty() && !tail.equals("UHR")) {
      try {
        offsetS =
            ZoneOffset.of(tail.equals("UTC") || tail.equals("GMT") ? "Z" : tail).getTotalSeconds();
      } catch (DateTimeException e) {
        return false;
      }
    }
    return true;
  }
}
