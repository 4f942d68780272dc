package siltwright.transfer;

import java.util.Arrays;
import java.util.Optional;

/** Order of day, month and year in dates that are written with numbers. */
public enum DateOrder {
  /** 2024-03-31. */
  YEAR_FIRST("ymd"),
  /** 31.03.2024. */
  DAY_FIRST("dmy"),
  /** 03/31/2024. */
  MONTH_FIRST("mdy");

  private final String word;

  DateOrder(String word) {
    this.word = word;
  }

  /** Returns its word. */
  public String word() {
    return word;
  }

  static Optional<DateOrder> of(String word) {
    return Arrays.stream(values()).filter(o -> o.word.equals(word)).findFirst();
  }
}
