package siltwright.samples;

/**
 * How far a laboratory's count lies from the oil it came from.
 *
 * <pre>
 *   ln(count) - ln(truth) = all + bottle + size,   variance of size = size² + 1/(N + 1/2)
 * </pre>
 *
 * <p>N is the number of particles counted in a band: counting statistics are Poisson's, which is
 * also why ISO 4406 marks a scale number of fewer than 20 particles. {@code bottle} is what one
 * bottle has in all its sizes (how it was drawn, cleaned, diluted), {@code size} what each size has
 * of its own, {@code all} what all counts of one instrument have (its calibration). Interlaboratory
 * precision of automatic counts is published with the test methods (ASTM D6786, clause 13; ISO/TR
 * 4813); its numbers could not be read, so the standard ones here are common practice, no source.
 *
 * @param all standard deviation of the logarithm that all counts share
 * @param bottle standard deviation that the sizes of one bottle share
 * @param size standard deviation of each size
 * @param volumeMl volume counted where a record names none, mL
 */
public record CountError(double all, double bottle, double size, double volumeMl) {
  /** What holds where nothing else is known. */
  public static final CountError STANDARD = new CountError(0.05, 0.15, 0.10, 25);

  /** Spread that rounding to a scale number leaves: a factor of two, evenly in the logarithm. */
  public static final double CODE_SPREAD = Math.log(2) / Math.sqrt(12);

  /** Returns the same with every spread times a factor. */
  public CountError times(double factor) {
    return new CountError(all * factor, bottle * factor, size * factor, volumeMl);
  }

  /** Returns the variance of the logarithm of one band of so many particles, without the rest. */
  public double bandVariance(double particles) {
    return size * size + 1 / (particles + 0.5);
  }
}
