package siltwright.model;

import java.util.List;

/**
 * How well one number, or several together, are known.
 *
 * @param parameters the numbers
 * @param distribution their distribution; joint if there are several
 */
public record Uncertainty(List<MachineParameter> parameters, Distribution distribution) {
  public Uncertainty {
    parameters = List.copyOf(parameters);
  }
}
