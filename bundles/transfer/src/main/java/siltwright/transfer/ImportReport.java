package siltwright.transfer;

import java.util.List;
import siltwright.model.Problem;

/**
 * What an import came to.
 *
 * @param kind kind of records; empty if several
 * @param action number of the action
 * @param rows rows read
 * @param added records that are new
 * @param known records that the store had already
 * @param refused rows refused
 * @param machines machines added or changed
 * @param problems why rows were refused, for the first of them
 * @param refusedFile where refused rows are; empty if there are none
 * @param notes what was taken for granted, a sentence each
 * @param touched machines that got records
 */
public record ImportReport(
    String kind,
    long action,
    long rows,
    long added,
    long known,
    long refused,
    long machines,
    List<Problem> problems,
    String refusedFile,
    List<String> notes,
    List<String> touched) {
  public ImportReport {
    problems = List.copyOf(problems);
    notes = List.copyOf(notes);
    touched = List.copyOf(touched);
  }
}
