package siltwright.wide;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;
import siltwright.analysis.Progress;

/** Works on parts by threads of this process. */
public final class Local implements BackEnd {
  private final int threads;
  private final int ahead;

  /**
   * Prepares threads.
   *
   * @param threads parts worked on at once
   * @param ahead parts held at once: worked on, or waiting for one before them
   */
  public Local(int threads, int ahead) {
    this.threads = threads;
    this.ahead = ahead;
  }

  @Override
  public <P, A> void run(Iterator<P> parts, Work<P, A> work, Consumer<A> to, Progress watching) {
    ExecutorService pool =
        Executors.newFixedThreadPool(
            threads,
            task -> {
              Thread thread = new Thread(task, "siltwright-part");
              thread.setDaemon(true);
              return thread;
            });
    Deque<Future<A>> open = new ArrayDeque<>();
    try {
      while (parts.hasNext()) {
        P part = parts.next();
        open.add(pool.submit(() -> work.of(part, watching)));
        if (open.size() >= ahead) {
          to.accept(get(open.remove()));
        }
      }
      while (!open.isEmpty()) {
        to.accept(get(open.remove()));
      }
    } finally {
      pool.shutdownNow();
    }
  }

  private static <A> A get(Future<A> future) {
    try {
      return future.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("interrupted");
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException(e.getCause());
    }
  }

  @Override
  public boolean elsewhere() {
    return false;
  }

  @Override
  public void close() {
    // the threads ended with the run
  }
}
