package siltwright.model;

import java.util.List;
import java.util.Map;
import org.osgi.annotation.versioning.ConsumerType;

/**
 * A part of what one change of the element costs. Register it as a service and fleet files can name
 * it among a machine's {@code costs}; whatever prices a change then counts it as service. The terms
 * that always count are those of {@link BasicCost}.
 *
 * <p>A term is asked once for each machine that names it and each of its procedures, when the file
 * is read. It reads nothing but its arguments, gives the same for the same, and may be called from
 * any thread.
 */
@ConsumerType
public interface CostTerm {
  /** Returns its name in fleet files: lower case, digits, hyphens. */
  String id();

  /** Returns what is paid for, in one clause. */
  String meaning();

  /** Returns the numbers that a file may give it. */
  default List<NamedNumber> numbers() {
    return List.of();
  }

  /**
   * Returns what a change costs.
   *
   * @param machine the machine as its file has it, without the terms that it names
   * @param procedure one of the machine's procedures
   * @param numbers a value for each of {@link #numbers()}, within its range
   * @return money of the fleet's currency for one change, at least 0, finite
   * @throws InputException if the term cannot be told for the machine: {@link Problem#value} and
   *     {@link Problem#expected} are shown, with the place in the file
   */
  double perChangeMoney(Machine machine, ChangeProcedure procedure, Map<String, Double> numbers);
}
