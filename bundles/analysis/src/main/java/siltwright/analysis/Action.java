package siltwright.analysis;

import org.osgi.annotation.versioning.ConsumerType;

/**
 * Something that changes what is kept: it reads and writes files and stores, and so is no {@link
 * Analysis}. Register it as a service and it has a command.
 */
@ConsumerType
public interface Action {
  /** Returns what it is called and which parameters it takes; its scope is {@link Scope#NONE}. */
  Description description();

  /** Returns what the file is that it takes, as a sentence; empty if it takes none. */
  default String file() {
    return "";
  }

  /**
   * Does it, as a whole or not at all.
   *
   * @param file name of the file as the user gave it; empty if it takes none
   * @param values a value for each parameter
   * @param progress told how far the work is; asks to stop by {@link Progress#check}
   * @return what was done; rows of the file that were refused are in its {@link Result#rows()}
   * @throws siltwright.model.InputException if a value or the file is at fault
   * @throws java.util.concurrent.CancellationException if asked to stop: then nothing was done
   */
  Result run(String file, Values values, Progress progress);
}
