package siltwright.model;

import java.util.List;
import java.util.Map;
import org.osgi.annotation.versioning.ConsumerType;

/**
 * A law by which elements load. Register it as a service and fleet files can name it as an
 * element's {@code loadingLaw}; everything that computes with the element then follows it. The laws
 * that are always there are those of {@link BasicLaw}.
 *
 * <p>A law is asked once for each element of a file that names it, when the file is read. It reads
 * nothing but its arguments, gives the same for the same, and may be called from any thread.
 */
@ConsumerType
public interface LoadingLaw {
  /** Returns its name in fleet files: lower case, digits, hyphens. */
  String id();

  /** Returns what the law assumes, in one clause, with its source. */
  String meaning();

  /** Returns the numbers that a file may give it. */
  default List<NamedNumber> numbers() {
    return List.of();
  }

  /**
   * Returns the loading of an element.
   *
   * @param element the element as its file has it; what it says of its own loading counts only
   *     where the law says so
   * @param numbers a value for each of {@link #numbers()}, within its range
   * @return usually {@link Loading#sampled} of the law
   * @throws InputException if the law cannot hold for the element: {@link Problem#value} and {@link
   *     Problem#expected} are shown, with the place in the file
   */
  Loading loading(Element element, Map<String, Double> numbers);
}
