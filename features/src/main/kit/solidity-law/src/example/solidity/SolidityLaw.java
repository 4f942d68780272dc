package example.solidity;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import siltwright.model.Element;
import siltwright.model.InputException;
import siltwright.model.Loading;
import siltwright.model.LoadingLaw;
import siltwright.model.NamedNumber;
import siltwright.model.Problem;

/**
 * A loading law of a fibre mat: what it catches makes it denser, and a denser mat resists more.
 *
 * <pre>
 *   F(α) = 64 α^1.5 (1 + 56 α³),  0.006 &lt; α &lt; 0.3       resistance of a mat of solidity α
 *   h(m) = F(α0 + (α1 − α0) m)/F(α0),  h(1) = r            m the retained share of the capacity
 * </pre>
 *
 * <p>Source of F: C. N. Davies, "The separation of airborne dust and particles", Proceedings of the
 * Institution of Mechanical Engineers 1B (1953), 185 to 213; printed as 4 · 16 α^1.5 (1 + 56 α³) in
 * "Air pollution and greenhouse gases" (Springer), equations 6.100 and 6.101, page 183. That the
 * catch adds to the solidity of the mat evenly is an assumption of this sample.
 */
public final class SolidityLaw implements LoadingLaw {
  /** Up to where F was fitted. */
  static final double DENSEST = 0.3;

  static final NamedNumber SOLIDITY =
      new NamedNumber("solidity", "1", 0.01, 0.2, 0.06, "share of the clean mat that is fibre");

  @Override
  public String id() {
    return "mat-solidity";
  }

  @Override
  public String meaning() {
    return "a fibre mat that grows denser as it fills (resistance by Davies, 1953)";
  }

  @Override
  public List<NamedNumber> numbers() {
    return List.of(SOLIDITY);
  }

  @Override
  public Loading loading(Element element, Map<String, Double> numbers) {
    double clean = numbers.get(SOLIDITY.name());
    double ratio = element.terminalDropKPa() / element.cleanDropKPa();
    double full = fullSolidity(clean, ratio);
    if (full > DENSEST) {
      throw new InputException(
          new Problem(
              id(),
              "",
              String.format(Locale.ROOT, "a mat of solidity %.2f when full", full),
              "at most " + DENSEST));
    }
    double gain = full - clean;
    return Loading.sampled(m -> resistance(clean + gain * m) / resistance(clean));
  }

  /** Returns F, without a unit. */
  static double resistance(double solidity) {
    return 64 * Math.pow(solidity, 1.5) * (1 + 56 * Math.pow(solidity, 3));
  }

  /** Returns α1, the solidity at which a mat resists r times as much as the clean one. */
  static double fullSolidity(double clean, double ratio) {
    double low = clean;
    double high = 1;
    for (int i = 0; i < 60; i++) { // F rises, so halving finds it
      double middle = (low + high) / 2;
      if (resistance(middle) < ratio * resistance(clean)) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return (low + high) / 2;
  }
}
