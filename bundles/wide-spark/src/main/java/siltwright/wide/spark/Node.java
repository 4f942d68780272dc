package siltwright.wide.spark;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.spark.deploy.master.Master;
import org.apache.spark.deploy.worker.Worker;
import siltwright.model.InputException;
import siltwright.wide.ClusterPlace;

/**
 * A process of a cluster: the master, or a worker. It listens at the address that is named and at
 * no other, talks only to those that know the secret, encrypted, and serves no page. The secret is
 * in no command line.
 */
public final class Node {
  private static final int SECRET = 3;
  private static final int CORES = 4;
  private static final int MEMORY = 5;

  private Node() {}

  /** Runs until it is stopped; what it takes says {@code bin/siltwright-node}. */
  public static void main(String[] arguments) {
    try {
      System.setProperty(
          "spark.authenticate.secret", ClusterPlace.secretOf(Path.of(arguments[SECRET])));
    } catch (InputException e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
    System.setProperty("spark.authenticate", "true");
    System.setProperty("spark.network.crypto.enabled", "true");
    System.setProperty("spark.master.rest.enabled", "false");
    System.setProperty("spark.ui.killEnabled", "false");
    System.setProperty("spark.ui.filters", NoPages.class.getName());
    List<String> rest = new ArrayList<>(List.of("--host", arguments[0], "--webui-port", "0"));
    if (arguments[1].equals("master")) {
      rest.addAll(List.of("--port", arguments[2]));
      Master.main(rest.toArray(String[]::new));
      return;
    }
    if (arguments.length > CORES) {
      rest.addAll(List.of("--cores", arguments[CORES]));
    }
    if (arguments.length > MEMORY) {
      rest.addAll(List.of("--memory", arguments[MEMORY]));
    }
    rest.addAll(List.of("--work-dir", System.getProperty("java.io.tmpdir") + "/siltwright-work"));
    rest.add(arguments[2]);
    Worker.main(rest.toArray(String[]::new));
  }
}
