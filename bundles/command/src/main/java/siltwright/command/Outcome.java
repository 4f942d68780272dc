package siltwright.command;

import java.util.List;
import siltwright.analysis.Context;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.model.Problem;

/**
 * What a run of a command came to.
 *
 * @param file fleet file or table as the user named it, empty if there is none
 * @param title what the results are of, for people
 * @param values parameter values
 * @param results results in the file's order
 * @param problems what was left out and why
 */
record Outcome(String file, String title, Values values, List<Of> results, List<Problem> problems) {
  Outcome {
    results = List.copyOf(results);
    problems = List.copyOf(problems);
  }

  /**
   * A result and what it is of.
   *
   * @param id id of the machine; empty if it is not of a machine
   * @param name name of the machine, or of the fleet
   * @param result the result
   * @param context what the analysis ran on
   */
  record Of(String id, String name, Result result, Context context) {}
}
