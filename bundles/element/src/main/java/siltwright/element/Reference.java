package siltwright.element;

import java.util.Arrays;
import siltwright.cleanliness.ViscosityLine;

/**
 * The flow and the oil at which pressure drops are compared.
 *
 * <pre>  p_ref = p (Q_ref/Q) (nu_ref/nu)  </pre>
 *
 * <p>Flow through an element is laminar, so its drop goes with flow and viscosity (Darcy's law;
 * design brief, contamination balance). A column that the log lacks is taken as steady.
 *
 * @param flowLPerMin flow, L/min; not a number where the log has none
 * @param oilDegC oil temperature, °C; not a number where the log has none
 * @param oil viscosity of the oil
 */
public record Reference(double flowLPerMin, double oilDegC, ViscosityLine oil) {
  /** Share of the reference flow below which a row says nothing of the element. */
  private static final double LEAST_FLOW = 0.3;

  /** Returns the reference that is the median of a log. */
  public static Reference medianOf(DropLog log, ViscosityLine oil) {
    return new Reference(median(log.flowLPerMin()), median(log.oilDegC()), oil);
  }

  /**
   * Returns the pressure drop of a row as it would be at this reference, kPa; not a number where
   * there is too little flow to tell.
   */
  public double dropKPa(DropLog log, int row) {
    double p = log.dropKPa()[row];
    if (log.flowLPerMin().length > 0 && !Double.isNaN(flowLPerMin)) {
      double flow = log.flowLPerMin()[row];
      if (!(flow >= LEAST_FLOW * flowLPerMin)) {
        return Double.NaN;
      }
      p *= flowLPerMin / flow;
    }
    if (log.oilDegC().length > 0 && !Double.isNaN(oilDegC)) {
      double degC = log.oilDegC()[row];
      p *= Double.isNaN(degC) ? 1 : oil.mm2PerS(oilDegC) / oil.mm2PerS(degC);
    }
    return p;
  }

  private static double median(double[] values) {
    double[] sorted =
        Arrays.stream(values).filter(v -> !Double.isNaN(v) && v > 0).sorted().toArray();
    return sorted.length == 0 ? Double.NaN : sorted[sorted.length / 2];
  }
}
