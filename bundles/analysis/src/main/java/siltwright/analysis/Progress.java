package siltwright.analysis;

import java.util.concurrent.CancellationException;
import org.osgi.annotation.versioning.ConsumerType;

/** Told how far a run is; says whether it should go on. Called from any thread. */
@ConsumerType
@FunctionalInterface
public interface Progress {
  /** Nobody watches and nobody cancels. */
  Progress NONE = (share, doing) -> true;

  /**
   * Tells how far the work is.
   *
   * @param share share done, 0 to 1
   * @param doing what is being done, in a few words
   * @return whether to go on
   */
  boolean report(double share, String doing);

  /**
   * Tells how far the work is and stops it if so asked.
   *
   * @throws CancellationException if the work is not wanted any more
   */
  default void check(double share, String doing) {
    if (!report(share, doing)) {
      throw new CancellationException(doing);
    }
  }
}
