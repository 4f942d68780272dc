package siltwright.cleanliness;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import siltwright.model.SizeBands;

/**
 * Contamination classes of NAS 1638, which are the differential classes of SAE AS4059: one for each
 * of the size ranges 6–14, 14–21, 21–38, 38–70 and over 70 µm(c) (by microscope 5–15, 15–25, 25–50,
 * 50–100 and over 100 µm).
 *
 * <p>A class is the cleanest one whose limit is not exceeded; above class 12 it is written {@code
 * >12}. The limits are per 100 mL. The single class of a sample is the worst of the five.
 *
 * <p>Source: NAS 1638 by the reprints named in {@code nas1638.csv}; the rule of the worst: RMF
 * CMS-2 manual, p. 77.
 */
public final class Nas1638 {
  /** Number of size ranges; range k is band k + 1 of the size bands. */
  public static final int RANGES = 5;

  private static final ClassTable TABLE = ClassTable.read("nas1638.csv");

  private Nas1638() {}

  /**
   * Returns the class in each size range.
   *
   * @return from 6–14 µm(c) up, length 5, empty where one of the range's two sizes was not counted
   */
  public static List<Optional<CountClass>> classes(ParticleCounts counts) {
    return IntStream.range(0, RANGES).mapToObj(range -> classIn(counts, range)).toList();
  }

  private static Optional<CountClass> classIn(ParticleCounts counts, int range) {
    int edge = range + 1;
    boolean last = edge + 1 == SizeBands.COUNT;
    if (!counts.counted(edge) || !last && !counts.counted(edge + 1)) {
      return Optional.empty();
    }
    BigDecimal inRange = BigDecimal.valueOf(counts.perMl(edge));
    if (!last) {
      inRange = inRange.subtract(BigDecimal.valueOf(counts.perMl(edge + 1)));
    }
    return Optional.of(TABLE.classOf(inRange, range));
  }

  /**
   * Returns the class of the sample, the worst of the size ranges that can be told; a lower bound
   * unless all five can. Empty if none can.
   */
  public static Optional<CountClass> worst(ParticleCounts counts) {
    return classes(counts).stream().flatMap(Optional::stream).max(CountClass::compareTo);
  }

  /**
   * Returns the counts that a class covers in a size range.
   *
   * @param countClass the class, from {@link CountClass#CLASS_00} up
   * @param range size range, 0 to 4
   * @throws IllegalArgumentException for class 000, which this table does not have
   */
  public static CountRange rangePerMl(CountClass countClass, int range) {
    return TABLE.rangePerMl(countClass, range);
  }

  /**
   * Returns the highest count that a class allows in a size range, particles per 100 mL, infinite
   * for {@link CountClass#ABOVE_12}.
   *
   * @param countClass the class, from {@link CountClass#CLASS_00} up
   * @param range size range, 0 to 4
   * @throws IllegalArgumentException for class 000, which this table does not have
   */
  public static double limitPer100Ml(CountClass countClass, int range) {
    return TABLE.limitPer100Ml(countClass, range);
  }
}
