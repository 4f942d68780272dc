package siltwright.wide;

import java.io.Serializable;
import siltwright.analysis.Progress;

/**
 * What is done with a part. It may run in another process, so it and all that goes in and out is
 * serializable, and of a class with a name. It may run more than once for a part, if a process is
 * lost: it must give the same again, and change nothing elsewhere.
 *
 * @param <P> a part: a range of machines or rows
 * @param <A> what a part comes to
 */
@FunctionalInterface
public interface Work<P, A> extends Serializable {
  /**
   * Does it.
   *
   * @param part the part
   * @param watching asked whether to go on, where somebody watches
   * @throws siltwright.model.InputException if what the part is made of is at fault
   */
  A of(P part, Progress watching);
}
