package siltwright.model;

import java.util.List;
import java.util.Map;
import org.osgi.annotation.versioning.ConsumerType;

/**
 * A law by which components live. Register it as a service and fleet files can name it as a
 * component's {@code lifeLaw}; everything that prices wear then follows it. The laws that are
 * always there are those of {@link BasicLife}.
 *
 * <p>A law is asked once for each component that names it, when the file is read. It reads nothing
 * but its arguments, gives the same for the same, and may be called from any thread.
 */
@ConsumerType
public interface LifeLaw {
  /** Returns its name in fleet files: lower case, digits, hyphens. */
  String id();

  /** Returns what the law assumes, in one clause, with its source. */
  String meaning();

  /** Returns the numbers that a file may give it. */
  default List<NamedNumber> numbers() {
    return List.of();
  }

  /**
   * Returns the life of a component, with exposure counted in its scale: {@link
   * ComponentLife#scaleH} hours at the reference cleanliness are 1.
   *
   * @param component the component as its file has it, without the law
   * @param numbers a value for each of {@link #numbers()}, within its range
   * @return usually {@link Survival#sampled} of the law
   * @throws InputException if the law cannot hold for the component: {@link Problem#value} and
   *     {@link Problem#expected} are shown, with the place in the file
   */
  Survival life(Component component, Map<String, Double> numbers);
}
