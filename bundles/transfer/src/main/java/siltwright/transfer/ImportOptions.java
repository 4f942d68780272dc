package siltwright.transfer;

import java.nio.file.Path;
import java.util.List;
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
 * @param columns the columns that are used, and no others; if not given, those of the mapping, or
 *     what the headings say
 */
public record ImportOptions(
    Wishes wishes,
    String who,
    boolean addMachines,
    String mapping,
    String keepAs,
    Optional<Path> refused,
    Optional<List<Mapping.Column>> columns) {
  /** Makes options that leave the columns to the mapping or the headings. */
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
