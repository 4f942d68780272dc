package siltwright.wide.spark;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import org.apache.spark.api.java.function.Function;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.wide.Work;

/**
 * Work on a part as a cluster runs it. What is wrong with the part is an answer: trying it again
 * would not help.
 */
final class Applied implements Function<Object, Applied.Outcome> {
  private static final long serialVersionUID = 1;

  private final Work<?, ?> work;

  Applied(Work<?, ?> work) {
    this.work = work;
  }

  /**
   * What a part comes to.
   *
   * @param aggregate the result; null if the part is at fault
   * @param problems what is wrong, a text each for file, place, value and what was expected
   */
  record Outcome(Object aggregate, ArrayList<List<String>> problems) implements Serializable {}

  @Override
  public Outcome call(Object part) {
    try {
      @SuppressWarnings("unchecked")
      Work<Object, Object> any = (Work<Object, Object>) work;
      return new Outcome(any.of(part, Progress.NONE), null);
    } catch (InputException e) {
      ArrayList<List<String>> problems = new ArrayList<>();
      e.problems()
          .forEach(p -> problems.add(List.of(p.source(), p.place(), p.value(), p.expected())));
      return new Outcome(null, problems);
    }
  }
}
