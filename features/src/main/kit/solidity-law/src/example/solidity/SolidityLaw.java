package example.solidity;

/**
 * A loading law of a fibre mat: what it catches makes it denser, and a denser mat resists more.
 *
 * <pre>
 *   F(α) = 64 α^1.5 (1 + 56 α³),  0.006 &lt; α &lt; 0.3       resistance of a mat of solidity α
 *   h(m) = F(α0 + (α1 − α0) m)/F(α0),  h(1) = r            m the retained share of the capacity
 * </pre>
 *
 * <p>Source of F: C. N. Davies, "The separation of airborne dust and particles", Proceedings of the
 * Institution of Mechanical Engineers 1B (1953), 185 to 213 (equation from memory, as the handbooks
 * have it). That the catch adds to the solidity of the mat evenly is an assumption of this sample.
 */
final class SolidityLaw {
  /** Up to where F was fitted. */
  static final double DENSEST = 0.3;

  private final double clean;
  private final double full;

  /**
   * Makes the law.
   *
   * @param cleanSolidity α0, share of the mat's volume that is fibre
   * @param fullRatio r, pressure drop at the capacity, of the clean one's
   */
  SolidityLaw(double cleanSolidity, double fullRatio) {
    clean = cleanSolidity;
    double low = cleanSolidity;
    double high = 1;
    for (int i = 0; i < 60; i++) { // F rises, so halving finds it
      double middle = (low + high) / 2;
      if (resistance(middle) < fullRatio * resistance(clean)) {
        low = middle;
      } else {
        high = middle;
      }
    }
    full = (low + high) / 2;
  }

  /** Returns F, without a unit. */
  static double resistance(double solidity) {
    return 64 * Math.pow(solidity, 1.5) * (1 + 56 * Math.pow(solidity, 3));
  }

  /** Returns α1, the solidity at the capacity. */
  double fullSolidity() {
    return full;
  }

  /** Returns h at a retained share of the capacity. */
  double dropRatio(double share) {
    return resistance(clean + (full - clean) * share) / resistance(clean);
  }
}
