package siltwright.wide;

import java.util.Iterator;
import java.util.function.Consumer;
import siltwright.analysis.Progress;

/** Where parts are worked on. */
public interface BackEnd extends AutoCloseable {
  /**
   * Works on parts, several at a time, and no more of them at once than it was made for.
   *
   * @param parts the parts, taken as they are needed
   * @param work what is done with each
   * @param to given what each comes to, in the order of the parts, by the calling thread
   * @param watching asked whether to go on
   * @throws siltwright.model.InputException if a part is at fault, or the back end does not work
   * @throws java.util.concurrent.CancellationException if asked to stop; what was given before
   *     stays
   */
  <P, A> void run(Iterator<P> parts, Work<P, A> work, Consumer<A> to, Progress watching);

  /** Returns whether the parts leave this process. */
  boolean elsewhere();

  /** Lets everything go that was taken to work. */
  @Override
  void close();
}
