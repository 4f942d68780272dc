package siltwright.samples;

import java.util.Map;
import java.util.Optional;
import siltwright.cleanliness.Iso4406;
import siltwright.cleanliness.ParticleCounts;
import siltwright.cleanliness.ReportedCode;

/**
 * One row of a machine's oil record.
 *
 * @param line line in the file, from 1
 * @param machine id of the machine
 * @param hours hour meter, h
 * @param kind what happened
 * @param minutes minutes since the restart after a change; not a number for a sample in running
 * @param perMl counts at or above 4, 6, 14, 21, 38, 70 µm(c), 1/mL, not a number where not counted
 * @param code code that the laboratory gave
 * @param volumeMl volume counted, mL; not a number if unknown
 * @param dropKPa reading of the drop over the filter, kPa; not a number without
 * @param words further words: date, procedure, crew, depot, state, point
 * @param numbers further numbers: water and metals, ppm
 */
public record OilRecord(
    int line,
    String machine,
    double hours,
    Kind kind,
    double minutes,
    double[] perMl,
    Optional<ReportedCode> code,
    double volumeMl,
    double dropKPa,
    Map<String, String> words,
    Map<String, Double> numbers) {
  /** What a row is of. */
  public enum Kind {
    /** An oil sample. */
    SAMPLE,
    /** A change of the element. */
    CHANGE,
    /** A reading of the drop over the filter. */
    READING,
    /** The element reached its indicator. */
    INDICATOR
  }

  public OilRecord {
    words = Map.copyOf(words);
    numbers = Map.copyOf(numbers);
  }

  /** Returns whether particles were counted. */
  public boolean counted() {
    return !Double.isNaN(perMl[0]) || !Double.isNaN(perMl[1]) || !Double.isNaN(perMl[2]);
  }

  /** Returns a word, empty if the record has none. */
  public String word(String name) {
    return words.getOrDefault(name, "");
  }

  /**
   * Returns the count at a size, or the middle of its scale number; not a number if neither.
   *
   * @param i place of the size, from 0 for 4 µm(c)
   */
  public double countAt(int i) {
    if (!Double.isNaN(perMl[i])) {
      return perMl[i];
    }
    return code.flatMap(ReportedCode::code)
        .map(c -> Iso4406.cumulativePerMl(c)[i])
        .orElse(Double.NaN);
  }

  /** Returns the code that the counts give, or the one given; empty if neither. */
  public String codeText() {
    return counted()
        ? Iso4406.code(ParticleCounts.perMl(falling())).toString()
        : code.map(ReportedCode::toString).orElse("");
  }

  private double[] falling() {
    double[] out = perMl.clone();
    double most = Double.POSITIVE_INFINITY;
    for (int i = 0; i < out.length; i++) {
      if (!Double.isNaN(out[i])) {
        out[i] = Math.min(most, out[i]);
        most = out[i];
      }
    }
    return out;
  }

  /** Returns the counts as bands; the code's middles where only a code is known. */
  public Optional<BandCounts> bands(CountError error) {
    double volume = Double.isNaN(volumeMl) ? error.volumeMl() : volumeMl;
    if (counted()) {
      return Optional.of(BandCounts.of(perMl, volume, false));
    }
    return code.flatMap(ReportedCode::code)
        .map(
            c -> {
              double[] middle = Iso4406.cumulativePerMl(c);
              for (int i = 3; i < middle.length; i++) {
                middle[i] = Double.NaN;
              }
              return BandCounts.of(middle, volume, true);
            });
  }
}
