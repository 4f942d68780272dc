package siltwright.workbench;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.Units;

/**
 * What the window is about at one moment. Immutable.
 *
 * @param revision rises with every change of the document, undo and redo included
 * @param file where the document is stored, if it is
 * @param fleet the document as the analyses read it; empty if none is open
 * @param machine the selected machine, if one is and it has no problem
 * @param pointer JSON pointer of the selected machine in the document, such as {@code /machines/3}
 * @param problems what is wrong in the document; the machines concerned are not in the fleet
 * @param units units on screen
 * @param dark whether the theme is a dark one
 */
public record Scenario(
    long revision,
    Optional<Path> file,
    Optional<Fleet> fleet,
    Optional<Machine> machine,
    Optional<String> pointer,
    List<Problem> problems,
    Units units,
    boolean dark) {
  /** Returns no document at all. */
  public static Scenario empty(Units units, boolean dark) {
    return new Scenario(
        0,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        List.of(),
        units,
        dark);
  }

  public Scenario {
    problems = List.copyOf(problems);
  }

  /**
   * Returns the pointer of a value of the selected machine.
   *
   * @param path path in the machine, such as {@code today/interval_h}
   */
  public Optional<String> pointer(String path) {
    return pointer.map(p -> p + "/" + path);
  }
}
