package siltwright.life;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * A law of life for each failure mode: a failure of another mode takes the component out of watch,
 * as a removal does.
 *
 * <p>Each fit describes life if only that mode were at work, under the assumption that modes are
 * independent; records can't test it. What share a mode will really take is {@link
 * CumulativeIncidence}.
 *
 * @param fits the fit of each mode, or why there is none, in the order of the modes
 */
public record CompetingModes(Map<String, Estimate<LifeFit>> fits) {
  /**
   * Fits each mode.
   *
   * @throws IllegalStateException if the records have no modes
   * @throws IllegalArgumentException if a failure is known only within an interval
   */
  public static CompetingModes fit(LifeData data, LifeFamily family) {
    Map<String, Estimate<LifeFit>> fits = new LinkedHashMap<>();
    for (String mode : data.modes()) {
      int code = data.modeColumn().levels().indexOf(mode);
      fits.put(mode, LifeFitting.fit(data.onlyMode(code), family));
    }
    return new CompetingModes(fits);
  }

  /**
   * Returns the share that survives every mode to an age, h.
   *
   * @throws IllegalStateException if a mode has no fit
   */
  public double reliability(double hoursH) {
    double r = 1;
    for (Estimate<LifeFit> fit : fits.values()) {
      r *= fit.get().reliability(hoursH);
    }
    return r;
  }
}
