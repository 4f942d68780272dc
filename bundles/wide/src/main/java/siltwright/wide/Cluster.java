package siltwright.wide;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.ObjectInputFilter;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.io.ObjectStreamClass;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CancellationException;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Works on parts by the processes of a cluster. A process beside this one drives it: started with
 * this, told everything by its standard input, ended with this. What is told names no class but
 * those of the work.
 */
public final class Cluster implements BackEnd {
  private static final String DRIVER = "siltwright.wide.spark.Driver";
  private static final int POLL_MS = 200;
  private static final long PATIENCE_NS = TimeUnit.MINUTES.toNanos(3);
  private static final int TOLD = 300;

  /** Classes that may come back: of ours, and plain values. */
  private static final ObjectInputFilter FILTER =
      ObjectInputFilter.Config.createFilter("siltwright.**;java.lang.*;java.util.*;!*");

  private final String name;
  private final int ahead;
  private final Path told;
  private final Process process;
  private final ObjectOutputStream out;
  private final BlockingQueue<Message> answers = new LinkedBlockingQueue<>();
  private volatile ClassLoader classes = Cluster.class.getClassLoader();

  /**
   * Starts the process that drives the cluster.
   *
   * @param place where the cluster is
   * @param ahead parts that are out at once
   * @throws InputException if the cluster is not there
   */
  public Cluster(ClusterPlace place, int ahead) {
    name = place.master();
    this.ahead = ahead;
    Path jars = place.jars();
    Message.Begin begin = new Message.Begin(place.settings());
    try {
      told = Files.createTempFile("siltwright-cluster", ".log");
      ProcessBuilder builder =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-cp",
                  jars + File.separator + "*",
                  DRIVER)
              .redirectError(told.toFile());
      builder.environment().put("SPARK_HOME", jars.getParent().toString());
      builder.environment().put("SPARK_LOCAL_IP", begin.settings().get("spark.driver.host"));
      process = builder.start();
      out = new ObjectOutputStream(new BufferedOutputStream(process.getOutputStream()));
      begin.writeTo(out);
    } catch (IOException e) {
      throw refusal("a process that does not start (" + e.getMessage() + ")");
    }
    Thread reader = new Thread(this::read, "siltwright-cluster");
    reader.setDaemon(true);
    reader.start();
  }

  private void read() {
    try (ObjectInputStream in = new Answers(process.getInputStream())) {
      in.setObjectInputFilter(FILTER);
      while (true) {
        answers.add((Message) in.readObject());
      }
    } catch (IOException | ClassNotFoundException | ClassCastException e) {
      answers.add(new Message.Failed(lastWords()));
    }
  }

  /** What the process told last before it ended. */
  private String lastWords() {
    try {
      List<String> lines =
          new String(Files.readAllBytes(told), StandardCharsets.UTF_8)
              .lines()
              .filter(l -> !l.isBlank() && !l.startsWith("\t"))
              .toList();
      return lines.isEmpty() ? "its driver ended" : lines.get(lines.size() - 1);
    } catch (IOException e) {
      return "its driver ended";
    }
  }

  /** Finds the classes of an answer where those of the work are. */
  private final class Answers extends ObjectInputStream {
    Answers(InputStream in) throws IOException {
      super(new BufferedInputStream(in));
    }

    @Override
    protected Class<?> resolveClass(ObjectStreamClass of)
        throws IOException, ClassNotFoundException {
      try {
        return Class.forName(of.getName(), false, classes);
      } catch (ClassNotFoundException e) {
        return super.resolveClass(of);
      }
    }
  }

  @Override
  public <P, A> void run(Iterator<P> parts, Work<P, A> work, Consumer<A> to, Progress watching) {
    classes = work.getClass().getClassLoader();
    try {
      new Message.Next(work).writeTo(out);
      int open = 0;
      long seenNs = System.nanoTime();
      while (open > 0 || parts.hasNext()) {
        while (open < ahead && parts.hasNext()) {
          new Message.Part(parts.next()).writeTo(out);
          open++;
        }
        Message answer = answers.poll(POLL_MS, TimeUnit.MILLISECONDS);
        if (!watching.report(0, "the cluster works")) {
          throw new CancellationException("the cluster works");
        }
        if (answer instanceof Message.Done done) {
          open--;
          @SuppressWarnings("unchecked")
          A aggregate = (A) done.aggregate();
          to.accept(aggregate);
        } else if (answer instanceof Message.Alive alive && alive.processes() == 0) {
          if (System.nanoTime() - seenNs > PATIENCE_NS) {
            throw refusal("no worker takes up work: are there any, and is the secret theirs?");
          }
          continue;
        } else if (answer instanceof Message.Refused refused) {
          throw new InputException(
              refused.problems().stream()
                  .map(p -> new Problem(p.get(0), p.get(1), p.get(2), p.get(3)))
                  .toList());
        } else if (answer instanceof Message.Failed failed) {
          throw refusal(failed.why().strip());
        }
        seenNs = answer == null ? seenNs : System.nanoTime();
      }
    } catch (IOException e) {
      throw refusal(lastWords());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("interrupted");
    }
  }

  private InputException refusal(String found) {
    String line = found.replaceAll("\\s+", " ");
    return new InputException(
        new Problem(
            "cluster " + name,
            "",
            "",
            "a cluster that works (" + line.substring(0, Math.min(TOLD, line.length())) + ")"));
  }

  @Override
  public boolean elsewhere() {
    return true;
  }

  @Override
  public void close() {
    process.destroy();
    try {
      if (!process.waitFor(10, TimeUnit.SECONDS)) {
        process.destroyForcibly();
      }
      Files.deleteIfExists(told);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (IOException e) {
      // a file in the temporary folder is left
    }
  }
}
