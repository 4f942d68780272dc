package siltwright.life.internal;

/**
 * Published relations to hold records against.
 *
 * <p>Life-extension tables for hydraulic components promise 2, 3, 4 and 5 times the life for codes
 * that are 3, 4, 5 and 6 numbers cleaner. Life as counts to the power of -m then has m = 0.33,
 * 0.40, 0.40 and 0.39. The tables are known from memory, their page was not seen.
 */
final class Handbook {
  static final double LOWEST_EXPONENT = 0.33;
  static final double HIGHEST_EXPONENT = 0.40;

  private Handbook() {}
}
