package siltwright.cleanliness;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import siltwright.model.SizeBands;

/**
 * Cumulative contamination classes of SAE AS4059: one for each of the sizes A to F, at or above 4,
 * 6, 14, 21, 38 and 70 µm(c).
 *
 * <p>A class is the cleanest one whose limit is not exceeded; above class 12 it is written {@code
 * >12}. The limits are per 100 mL.
 *
 * <p>Source: SAE AS4059 rev. E, table 2, by the reprints named in {@code as4059-cumulative.csv}.
 */
public final class As4059 {
  private static final String LETTERS = "ABCDEF";
  private static final Pattern SIZE = Pattern.compile("(>?\\d{1,3}) ?([A-F])?(?:-([A-F]))?");
  private static final ClassTable TABLE = ClassTable.read("as4059-cumulative.csv");

  private As4059() {}

  /**
   * Returns the class at each size.
   *
   * @return for A to F in turn, length 6, empty where the size was not counted
   */
  public static List<Optional<CountClass>> classes(ParticleCounts counts) {
    return IntStream.range(0, SizeBands.COUNT)
        .mapToObj(
            i ->
                counts.counted(i)
                    ? Optional.of(TABLE.classOf(BigDecimal.valueOf(counts.perMl(i)), i))
                    : Optional.<CountClass>empty())
        .toList();
  }

  /** Returns the worst class among the sizes that were counted. */
  public static CountClass worst(ParticleCounts counts) {
    return classes(counts).stream().flatMap(Optional::stream).max(CountClass::compareTo).get();
  }

  /** Returns the class of each counted size as one text, such as {@code 7B/6C/5D}. */
  public static String sizeCode(ParticleCounts counts) {
    List<Optional<CountClass>> classes = classes(counts);
    return IntStream.range(0, classes.size())
        .mapToObj(i -> classes.get(i).map(c -> c.toString() + LETTERS.charAt(i)).orElse(null))
        .filter(Objects::nonNull)
        .collect(Collectors.joining("/"));
  }

  /**
   * Returns the worst class with the sizes it covers as one text: {@code 7A-F} says that class 7 is
   * exceeded at none of them. Where sizes between were not counted they are left out: {@code
   * 7A-C,F}.
   */
  public static String worstCode(ParticleCounts counts) {
    List<String> runs = new ArrayList<>();
    for (int i = 0; i < SizeBands.COUNT; i++) {
      if (!counts.counted(i)) {
        continue;
      }
      int from = i;
      while (i + 1 < SizeBands.COUNT && counts.counted(i + 1)) {
        i++;
      }
      runs.add(
          from == i ? LETTERS.substring(i, i + 1) : LETTERS.charAt(from) + "-" + LETTERS.charAt(i));
    }
    return worst(counts) + String.join(",", runs);
  }

  /**
   * Returns the counts that a written class or size code allows.
   *
   * <p>{@code 6B} is class 6 at size B, {@code 6} without a letter means size B too, {@code
   * 7B/6C/5D} gives a class to each of three sizes, and {@code 6B-F} says that class 6 is not
   * exceeded at any size from B to F, so that its ranges begin at 0. Source of these rules: HYDAC
   * CS1000 manual, p. 90.
   *
   * @return the range at each size named, by edge of the size bands (0 for A to 5 for F)
   * @throws IllegalArgumentException if the text is no such code or names a size twice
   */
  public static SortedMap<Integer, CountRange> rangesPerMl(String code) {
    SortedMap<Integer, CountRange> ranges = new TreeMap<>();
    for (String part : code.trim().split("/", -1)) {
      Matcher m = SIZE.matcher(part.trim());
      if (!m.matches() || m.group(2) == null && m.group(3) != null) {
        throw new IllegalArgumentException(
            "a class is written like 6B, 7B/6C/5D or 6B-F, not " + code);
      }
      CountClass countClass = CountClass.parse(m.group(1));
      int from = m.group(2) == null ? 1 : LETTERS.indexOf(m.group(2));
      int to = m.group(3) == null ? from : LETTERS.indexOf(m.group(3));
      if (to < from) {
        throw new IllegalArgumentException("the sizes of a class run from A to F, not " + part);
      }
      for (int i = from; i <= to; i++) {
        CountRange range = TABLE.rangePerMl(countClass, i);
        CountRange allowed = m.group(3) == null ? range : new CountRange(0, range.upToPerMl());
        if (ranges.put(i, allowed) != null) {
          throw new IllegalArgumentException(
              "size " + LETTERS.charAt(i) + " has two classes in " + code);
        }
      }
    }
    return ranges;
  }

  /**
   * Returns the highest count that a class allows at a size.
   *
   * @param countClass the class; {@link CountClass#ABOVE_12} has no limit
   * @param edge edge of the size bands, 0 for A to 5 for F
   * @return particles per 100 mL, infinite for {@code ABOVE_12}
   */
  public static double limitPer100Ml(CountClass countClass, int edge) {
    return TABLE.limitPer100Ml(countClass, edge);
  }

  /** Returns the share of the particles above one edge that are above a later one, in class 6. */
  static double shareAbove(int edge, int later) {
    return TABLE.limitPer100Ml(CountClass.CLASS_6, later)
        / TABLE.limitPer100Ml(CountClass.CLASS_6, edge);
  }
}
