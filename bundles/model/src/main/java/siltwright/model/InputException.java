package siltwright.model;

import java.util.List;
import java.util.stream.Collectors;

/** The user's file or options are at fault. Its message is meant for the user. */
public final class InputException extends RuntimeException {
  private static final long serialVersionUID = 1;

  private final transient List<Problem> problems;

  /** Tells one problem. */
  public InputException(Problem problem) {
    this(List.of(problem));
  }

  /** Tells several problems, one a line. */
  public InputException(List<Problem> problems) {
    super(problems.stream().map(Problem::toString).collect(Collectors.joining("\n")));
    this.problems = List.copyOf(problems);
  }

  /** Returns the problems in the order found. */
  public List<Problem> problems() {
    return problems;
  }
}
