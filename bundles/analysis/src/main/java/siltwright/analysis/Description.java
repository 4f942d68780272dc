package siltwright.analysis;

import java.util.List;

/**
 * What an analysis is called and what it takes.
 *
 * @param id name of command, help topic and report section: lower case, hyphens
 * @param title title for people
 * @param summary one sentence: the question it answers
 * @param scope what it works on
 * @param parameters its parameters, in the order shown
 */
public record Description(
    String id, String title, String summary, Scope scope, List<Parameter<?>> parameters) {
  public Description {
    parameters = List.copyOf(parameters);
  }

  /** Returns a description. */
  public static Description of(
      String id, String title, String summary, Scope scope, Parameter<?>... parameters) {
    return new Description(id, title, summary, scope, List.of(parameters));
  }
}
