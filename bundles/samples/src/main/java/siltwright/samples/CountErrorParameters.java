package siltwright.samples;

import siltwright.analysis.NumberParameter;
import siltwright.analysis.Values;

/** The parameters by which an analysis is told how far counts lie off. */
public final class CountErrorParameters {
  /** Standard deviation that all counts share. */
  public static final NumberParameter ALL =
      NumberParameter.of(
          "calibration-error",
          "1",
          0,
          2,
          CountError.STANDARD.all(),
          "standard deviation of ln count that all counts of the laboratory share");

  /** Standard deviation that the sizes of one bottle share. */
  public static final NumberParameter BOTTLE =
      NumberParameter.of(
          "bottle-error",
          "1",
          0,
          2,
          CountError.STANDARD.bottle(),
          "standard deviation of ln count from bottle to bottle, in all sizes alike");

  /** Standard deviation of each size. */
  public static final NumberParameter SIZE =
      NumberParameter.of(
          "size-error",
          "1",
          0,
          2,
          CountError.STANDARD.size(),
          "standard deviation of ln count that each size has of its own, counting statistics"
              + " besides");

  /** Volume counted. */
  public static final NumberParameter VOLUME =
      NumberParameter.of(
          "volume-mL",
          "mL",
          0.01,
          10_000,
          CountError.STANDARD.volumeMl(),
          "volume counted, where the table has no column volume_mL");

  private CountErrorParameters() {}

  /** Returns what the values say. */
  public static CountError of(Values values) {
    return new CountError(
        values.get(ALL), values.get(BOTTLE), values.get(SIZE), values.get(VOLUME));
  }
}
