package siltwright.model.json;

import java.util.List;
import siltwright.model.Fleet;
import siltwright.model.Problem;

/**
 * What a fleet file holds.
 *
 * @param fleet the machines that could be read
 * @param problems what is wrong with the others, which are left out; empty if all were read
 */
public record FleetFile(Fleet fleet, List<Problem> problems) {
  public FleetFile {
    problems = List.copyOf(problems);
  }
}
