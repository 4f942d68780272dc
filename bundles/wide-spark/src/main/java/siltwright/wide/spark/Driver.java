package siltwright.wide.spark;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.io.OutputStream;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaFutureAction;
import org.apache.spark.api.java.JavaSparkContext;
import siltwright.wide.Message;
import siltwright.wide.Work;

/**
 * Drives a cluster for the process that started this one: reads messages from standard input,
 * writes what the parts come to, in their order, to standard output. Ends when its input does.
 */
public final class Driver implements AutoCloseable {
  private static final long BEAT_MS = 500;

  private final JavaSparkContext spark;
  private final boolean inThisProcess;
  private final ObjectOutputStream out;
  private final BlockingQueue<JavaFutureAction<List<Applied.Outcome>>> open =
      new LinkedBlockingQueue<>();

  private Driver(SparkConf settings, ObjectOutputStream out) {
    spark = new JavaSparkContext(settings);
    inThisProcess = spark.isLocal();
    this.out = out;
    daemon(this::answer);
    daemon(this::beat);
  }

  /** Runs as a process of its own. */
  public static void main(String[] arguments) {
    OutputStream answers = System.out;
    System.setOut(System.err); // whatever a library prints
    int code = 0;
    try (ObjectOutputStream out = new ObjectOutputStream(new BufferedOutputStream(answers));
        ObjectInputStream in = new ObjectInputStream(new BufferedInputStream(System.in))) {
      out.flush();
      serve(in, out);
    } catch (IOException | ClassNotFoundException | RuntimeException e) {
      System.err.println(line(e));
      code = 1;
    }
    // threads of Spark's may still wait for a cluster that is gone
    Runtime.getRuntime().halt(code);
  }

  private static void serve(ObjectInputStream in, ObjectOutputStream out)
      throws IOException, ClassNotFoundException {
    SparkConf settings = new SparkConf(false);
    ((Message.Begin) in.readObject()).settings().forEach(settings::set);
    try (Driver driver = new Driver(settings, out)) {
      Work<?, ?> work = null;
      while (true) {
        Object message = in.readObject();
        if (message instanceof Message.Next next) {
          work = next.work();
        } else if (message instanceof Message.Part part) {
          driver.submit(work, part.part());
        }
      }
    } catch (EOFException e) {
      // nobody wants to know more
    }
  }

  private static void daemon(Runnable task) {
    Thread thread = new Thread(task, "siltwright-driver");
    thread.setDaemon(true);
    thread.start();
  }

  private void submit(Work<?, ?> work, Object part) {
    open.add(spark.parallelize(List.of(part), 1).map(new Applied(work)).collectAsync());
  }

  private synchronized void send(Message message) throws IOException {
    message.writeTo(out);
  }

  private void answer() {
    try {
      while (true) {
        Applied.Outcome outcome;
        try {
          outcome = open.take().get().get(0);
        } catch (ExecutionException e) {
          send(new Message.Failed(line(e.getCause())));
          return;
        }
        send(
            outcome.problems() == null
                ? new Message.Done(outcome.aggregate())
                : new Message.Refused(outcome.problems()));
      }
    } catch (IOException e) {
      // nobody listens any more
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void beat() {
    try {
      while (true) {
        TimeUnit.MILLISECONDS.sleep(BEAT_MS);
        // the driver counts itself
        int all = spark.sc().statusTracker().getExecutorInfos().length;
        send(new Message.Alive(inThisProcess ? all : all - 1));
      }
    } catch (IOException | IllegalStateException e) {
      // nobody listens, or nothing works any more
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** The first line of what went wrong, where Spark has put it. */
  private static String line(Throwable e) {
    String text = String.valueOf(e.getMessage());
    return text.lines().findFirst().orElse(text);
  }

  @Override
  public void close() {
    spark.close();
  }
}
