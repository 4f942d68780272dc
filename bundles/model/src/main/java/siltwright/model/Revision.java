package siltwright.model;

import java.util.List;
import java.util.Optional;

/**
 * New values for numbers of one machine, with how well they are known together.
 *
 * @param machine id of the machine
 * @param numbers numbers and their new values, each number once
 * @param uncertainty joint uncertainty of some of these numbers; what the machine said of them
 *     before is replaced
 */
public record Revision(String machine, List<Value> numbers, Optional<Uncertainty> uncertainty) {
  public Revision {
    numbers = List.copyOf(numbers);
  }

  /**
   * A number and its new value.
   *
   * @param parameter which number
   * @param value its value
   */
  public record Value(MachineParameter parameter, double value) {}
}
