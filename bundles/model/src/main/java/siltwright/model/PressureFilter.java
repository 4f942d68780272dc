package siltwright.model;

import java.util.List;

/**
 * A filter between the pump and the components, without bypass, serviced apart from the return
 * filter.
 *
 * @param beta filtration ratio by size, sizes rising
 * @param fieldEfficiency field efficiency factor
 */
public record PressureFilter(List<BetaPoint> beta, double fieldEfficiency) {
  public PressureFilter {
    beta = List.copyOf(beta);
  }
}
