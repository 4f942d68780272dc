package siltwright.command;

import java.util.Map;
import java.util.Optional;
import siltwright.analysis.Action;
import siltwright.analysis.Analysis;

/** What the arguments ask for. */
sealed interface Request {
  /**
   * A text that answers the request, such as help.
   *
   * @param text the text
   * @param options whether it tells the options of a command
   */
  record Show(String text, boolean options) implements Request {}

  /**
   * The window.
   *
   * @param file the file to open in it, if one is named
   */
  record Open(Optional<String> file) implements Request {}

  /**
   * A run of an analysis.
   *
   * @param analysis the analysis
   * @param texts values given, by parameter name
   * @param options options that every command has, by name without hyphens
   */
  record Run(Analysis analysis, Map<String, String> texts, Map<String, String> options)
      implements Request {
    /** Returns the value of an option. */
    Optional<String> option(String name) {
      return Optional.ofNullable(options.get(name));
    }
  }

  /**
   * Something to be done.
   *
   * @param action the action
   * @param texts values given, by parameter name
   * @param options options that every action has, by name without hyphens
   */
  record Act(Action action, Map<String, String> texts, Map<String, String> options)
      implements Request {
    /** Returns the value of an option. */
    Optional<String> option(String name) {
      return Optional.ofNullable(options.get(name));
    }
  }
}
