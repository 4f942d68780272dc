package siltwright.wide.spark;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.Map;
import java.util.function.Consumer;
import siltwright.analysis.Progress;
import siltwright.wide.BackEnd;
import siltwright.wide.Message;
import siltwright.wide.Work;

/** The driver in Spark's local mode: its threads are the whole cluster, and it is told by hand. */
final class LocalMode implements BackEnd {
  private final Process process;
  private final ObjectOutputStream out;
  private final ObjectInputStream in;
  private int most;

  LocalMode(int threads, Path told) throws IOException {
    ProcessBuilder builder =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                ClusterProcesses.KIT.resolve("jars") + "/*",
                Driver.class.getName())
            .redirectError(told.toFile());
    builder.environment().put("SPARK_LOCAL_IP", ClusterProcesses.ADDRESS);
    process = builder.start();
    out = new ObjectOutputStream(new BufferedOutputStream(process.getOutputStream()));
    new Message.Begin(
            Map.of(
                "spark.master",
                "local[" + threads + "]",
                "spark.app.name",
                "siltwright",
                "spark.driver.host",
                ClusterProcesses.ADDRESS,
                "spark.driver.bindAddress",
                ClusterProcesses.ADDRESS,
                "spark.ui.enabled",
                "false"))
        .writeTo(out);
    in = new ObjectInputStream(process.getInputStream());
  }

  @Override
  public <P, A> void run(Iterator<P> parts, Work<P, A> work, Consumer<A> to, Progress watching) {
    try {
      new Message.Next(work).writeTo(out);
      int open = 0;
      while (parts.hasNext()) {
        new Message.Part(parts.next()).writeTo(out);
        open++;
      }
      while (open > 0) {
        Object answer = in.readObject();
        if (answer instanceof Message.Alive alive) {
          most = Math.max(most, alive.processes());
        } else if (answer instanceof Message.Done done) {
          @SuppressWarnings("unchecked")
          A aggregate = (A) done.aggregate();
          to.accept(aggregate);
          open--;
        } else {
          throw new IllegalStateException(String.valueOf(answer));
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (ClassNotFoundException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Most processes that the driver told of. */
  int processes() {
    return most;
  }

  @Override
  public boolean elsewhere() {
    return true;
  }

  @Override
  public void close() {
    process.destroy();
  }
}
