package siltwright.transfer;

import java.nio.file.Path;
import java.util.Optional;

/**
 * How a file is to be brought in.
 *
 * @param wishes what the user says of its table
 * @param who person who does it
 * @param addMachines whether machines that the store does not know are added
 * @param mapping name of a kept mapping to read it by; empty for none
 * @param keepAs name under which the mapping is kept; empty for none
 * @param refused where refused rows go; beside the file if not given
 * @param given mapping to read it by, which comes before a kept one; its columns are all that are
 *     used
 */
public record ImportOptions(
    Wishes wishes,
    String who,
    boolean addMachines,
    String mapping,
    String keepAs,
    Optional<Path> refused,
    Optional<Mapping> given) {
  /** Makes options without a mapping of the moment. */
  public ImportOptions(
      Wishes wishes,
      String who,
      boolean addMachines,
      String mapping,
      String keepAs,
      Optional<Path> refused) {
    this(wishes, who, addMachines, mapping, keepAs, refused, Optional.empty());
  }
}
