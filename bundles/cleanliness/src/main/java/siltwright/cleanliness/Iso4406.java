package siltwright.cleanliness;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import siltwright.cleanliness.ReportedCode.Kind;
import siltwright.cleanliness.ReportedCode.Place;
import siltwright.model.Bands;
import siltwright.model.CleanlinessCode;
import siltwright.model.SizeBands;

/**
 * Cleanliness codes of ISO 4406 from counts, and counts from codes.
 *
 * <p>A scale number covers the counts above its lower limit up to and including its upper one. The
 * limits are the standard's rounded decimals (640, 1300, 2500), not powers of two.
 *
 * <p>Source: ISO 4406:2021, table of scale numbers, by the reprints named in {@code iso4406.csv}.
 */
public final class Iso4406 {
  /** Returned for counts above scale number 28, where the standard ends. */
  public static final int ABOVE_SCALE = CleanlinessCode.HIGHEST + 1;

  /** Fewer particles than this in a place and its scale number is reported as a lower bound. */
  public static final int FEWEST_PARTICLES = 20;

  private static final int PLACES = 3;
  private static final double[] UP_TO_PER_ML =
      TableResource.column(TableResource.rows("iso4406.csv"), 2);

  private Iso4406() {}

  /**
   * Returns the scale number of a count.
   *
   * @param perMl particles per mL, 0 or more
   * @return 0 to 28, or {@link #ABOVE_SCALE}; 0 for a count of 0
   * @throws IllegalArgumentException if the count is negative or not a number
   */
  public static int scaleNumber(double perMl) {
    if (!(perMl >= 0)) {
      throw new IllegalArgumentException("a count is 0 or more per mL, not " + perMl);
    }
    int number = 0;
    while (number < UP_TO_PER_ML.length && perMl > UP_TO_PER_ML[number]) {
      number++;
    }
    return number;
  }

  /**
   * Returns the counts that a scale number covers.
   *
   * @param scaleNumber 0 to 28, or {@link #ABOVE_SCALE}
   * @throws IllegalArgumentException if it is neither
   */
  public static CountRange rangePerMl(int scaleNumber) {
    if (scaleNumber < 0 || scaleNumber > ABOVE_SCALE) {
      throw new IllegalArgumentException("a scale number is from 0 to 28, not " + scaleNumber);
    }
    return new CountRange(
        scaleNumber == 0 ? 0 : UP_TO_PER_ML[scaleNumber - 1],
        scaleNumber == ABOVE_SCALE ? Double.POSITIVE_INFINITY : UP_TO_PER_ML[scaleNumber]);
  }

  /**
   * Returns the code of a sample as it is reported.
   *
   * <p>A size that was not counted is written as a dash, a count above the scale as {@code >28}.
   * Where the counted volume is known and fewer than {@value #FEWEST_PARTICLES} particles were seen
   * in a place, its number is marked as a lower bound. Source of the last rule: ISO 4406, by the
   * reprints of the table; their example is 14/12/&gt;=7.
   */
  public static ReportedCode code(ParticleCounts counts) {
    List<Place> places = new ArrayList<>();
    for (int i = 0; i < PLACES; i++) {
      places.add(place(counts, i));
    }
    return new ReportedCode(places);
  }

  /**
   * Returns the code of band counts.
   *
   * @param perMl particles per mL of each size band
   */
  public static ReportedCode code(Bands perMl) {
    return code(ParticleCounts.perMl(SizeBands.toCumulative(perMl.toArray())));
  }

  private static Place place(ParticleCounts counts, int i) {
    if (!counts.counted(i)) {
      return new Place(Kind.NOT_COUNTED, 0);
    }
    int number = scaleNumber(counts.perMl(i));
    if (number == ABOVE_SCALE) {
      return new Place(Kind.ABOVE_SCALE, 0);
    }
    // Particles are whole: the share of one guards against a division and its way back.
    boolean few =
        counts.volumeMl().isPresent()
            && counts.perMl(i) * counts.volumeMl().getAsDouble() < FEWEST_PARTICLES - 1e-6;
    return new Place(few ? Kind.AT_LEAST : Kind.NUMBER, number);
  }

  /**
   * Returns the two-place code of a microscope count, such as {@code -/15/12}.
   *
   * @param at5PerMl particles per mL of 5 µm and more, longest dimension, the equivalent of 6 µm(c)
   * @param at15PerMl particles per mL of 15 µm and more, the equivalent of 14 µm(c)
   * @throws IllegalArgumentException if a count is negative or the second above the first
   */
  public static ReportedCode microscopeCode(double at5PerMl, double at15PerMl) {
    double not = Double.NaN;
    return code(ParticleCounts.perMl(not, at5PerMl, at15PerMl, not, not, not));
  }

  /**
   * Returns the counts to expect behind a code.
   *
   * <p>At 4, 6 and 14 µm(c) the count is the geometric mean of the scale number's limits. Scale
   * number 0 has no lower limit; as every other range spans a factor of two, so does this one here.
   * ISO 4406 says nothing above 14 µm(c): there the counts fall as the columns C to F of the table
   * of SAE AS4059 do, in its class 6 as 3460 : 612 : 106 : 16.
   *
   * @return particles per mL at or above 4, 6, 14, 21, 38, 70 µm(c), length 6, not increasing
   */
  public static double[] cumulativePerMl(CleanlinessCode code) {
    return expand(
        code,
        range -> {
          double lower = range.moreThanPerMl() == 0 ? range.upToPerMl() / 2 : range.moreThanPerMl();
          return Math.sqrt(lower * range.upToPerMl());
        });
  }

  /**
   * Returns the highest counts that a code allows at 4, 6 and 14 µm(c), and above 14 µm(c) the
   * counts that go with them as in {@link #cumulativePerMl}.
   *
   * @return particles per mL at or above 4, 6, 14, 21, 38, 70 µm(c), length 6, not increasing
   */
  public static double[] upperLimitsPerMl(CleanlinessCode code) {
    return expand(code, CountRange::upToPerMl);
  }

  private static double[] expand(CleanlinessCode code, ToDoubleFunction<CountRange> count) {
    int[] numbers = {code.at4(), code.at6(), code.at14()};
    double[] perMl = new double[SizeBands.COUNT];
    for (int i = 0; i < PLACES; i++) {
      perMl[i] = count.applyAsDouble(rangePerMl(numbers[i]));
    }
    int last = PLACES - 1;
    for (int i = PLACES; i < perMl.length; i++) {
      perMl[i] = perMl[last] * As4059.shareAbove(last, i);
    }
    return perMl;
  }
}
