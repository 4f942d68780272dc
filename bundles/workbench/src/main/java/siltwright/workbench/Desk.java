package siltwright.workbench;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import org.osgi.annotation.versioning.ProviderType;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.model.Problem;
import siltwright.model.Revision;
import siltwright.model.json.Edit;

/**
 * What a pane reads from and acts through. Each pane has one of its own. Called on the event thread
 * only; once the pane is closed every call does nothing.
 */
@ProviderType
public interface Desk {
  /** Returns what the window is about now. */
  Scenario scenario();

  /**
   * Selects a machine everywhere.
   *
   * @param machineId its id; one that the document does not have selects none
   */
  void select(String machineId);

  /**
   * Selects what a finding or problem points at and shows it in the inspector.
   *
   * @param pointer a JSON pointer into the document, or a path in the selected machine
   */
  void reveal(String pointer);

  /**
   * Tells what edits would make wrong, without making them.
   *
   * @return the problems that the document has not got now; none if the edits can be made
   */
  List<Problem> check(List<Edit> edits);

  /**
   * Changes the document, as one step to undo. Every pane is then shown the new scenario before
   * this returns.
   *
   * @param label what was done, in a few words, for the undo menu
   * @param edits what to change
   * @return the problems for which nothing was changed; none if it was
   */
  List<Problem> edit(String label, List<Edit> edits);

  /**
   * Makes the revisions of a result, as one step to undo.
   *
   * @return as {@link #edit} does
   */
  List<Problem> revise(String label, List<Revision> revisions);

  /**
   * Runs long work off the event thread; it stands in the list of runs, where it can be cancelled.
   * A newer request of the same pane and slot cancels the one before, whose outcome is never seen;
   * so does closing the pane.
   *
   * @param slot which of the pane's requests it is; one word
   * @param title what is computed, for the list of runs
   * @param work the work; knows nothing of Swing; tells progress, by which it is cancelled
   * @param done given its outcome, on the event thread
   * @param failed given what to tell the user, a line a problem, on the event thread, where there
   *     is no outcome; "cancelled" if the user stopped it
   */
  <T> void compute(
      String slot,
      String title,
      Function<Progress, T> work,
      Consumer<T> done,
      Consumer<String> failed);

  /**
   * Replaces what this pane has to say in the findings list.
   *
   * @param findings findings, which point at paths in the scenario's machine; none clears them
   */
  void publish(List<Finding> findings);

  /**
   * Saves results as a report: asks where, and writes it off the event thread.
   *
   * @param title title of the report
   * @param results results in reading order
   */
  void report(String title, List<Result> results);

  /** Shows a line in the status bar; of several the first. */
  void status(String text);

  /** Returns what this pane kept under a key, in this run of the program or an earlier one. */
  Optional<String> recall(String key);

  /**
   * Keeps a text between runs, such as a setting of the pane's form.
   *
   * @param key one word
   * @param value the text; empty forgets it
   */
  void keep(String key, String value);
}
