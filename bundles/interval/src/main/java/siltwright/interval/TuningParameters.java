package siltwright.interval;

import siltwright.analysis.NumberParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;

/** The parameters by which an analysis is told how to tune. */
public final class TuningParameters {
  /** How far to look. */
  public static final NumberParameter HORIZON =
      NumberParameter.of(
          "horizon",
          "h",
          100,
          64_000,
          4000,
          "how far to look for an interval at first; further where the cost still falls there");

  /** Draws of the uncertain numbers. */
  public static final WholeParameter DRAWS =
      new WholeParameter(
          "draws", 0, 100_000, 100, "draws of the uncertain numbers; 0 leaves the band out");

  /** Seed of the draws. */
  public static final WholeParameter SEED =
      new WholeParameter("seed", 0, Long.MAX_VALUE, 1, "seed of the draws: same seed, same band");

  private TuningParameters() {}

  /** Returns what the values say. */
  public static Tuning.Settings of(Values values) {
    return new Tuning.Settings(values.get(HORIZON), values.get(DRAWS).intValue(), values.get(SEED));
  }
}
