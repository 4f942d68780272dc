package siltwright.wide;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Options of the commands that work in parts. */
public final class WideOptions {
  private static final int OUT = 256;

  /** Where to work. */
  public static final TextParameter ON =
      new TextParameter(
          "on",
          "here or spark://HOST:PORT",
          Optional.of("here"),
          false,
          "where to compute: on this computer, or on a cluster");

  /** What runs on the cluster. */
  public static final TextParameter KIT =
      TextParameter.optional(
          "kit", "a folder", "on a cluster: the folder siltwright-wide, as it is on each host");

  /** What the cluster knows its own by. */
  public static final TextParameter SECRET =
      TextParameter.optional(
          "secret", "a file", "on a cluster: the file with its secret, that only you can read");

  /** Parts at once. */
  public static final WholeParameter THREADS =
      new WholeParameter(
          "threads",
          1,
          1024,
          Runtime.getRuntime().availableProcessors(),
          "on this computer: threads that compute at once");

  private WideOptions() {}

  /**
   * Makes the back end that is asked for.
   *
   * @param ahead parts held at once on this computer
   * @throws InputException if it cannot be had
   */
  public static BackEnd backEnd(Values values, int ahead) {
    String on = values.get(ON);
    if (on.equals("here")) {
      return new Local(values.get(THREADS).intValue(), ahead);
    }
    if (!ClusterPlace.isMaster(on)) {
      throw refusal(ON, on, ON.form());
    }
    return new Cluster(new ClusterPlace(on, path(values, KIT), path(values, SECRET)), OUT);
  }

  private static Path path(Values values, TextParameter parameter) {
    String text = values.find(parameter).orElse("");
    try {
      if (!text.isBlank()) {
        return Path.of(text).toAbsolutePath();
      }
    } catch (InvalidPathException e) {
      // told below
    }
    throw refusal(parameter, text, parameter.form() + ", since --on names a cluster");
  }

  private static InputException refusal(TextParameter parameter, String found, String expected) {
    return new InputException(new Problem("option", "--" + parameter.name(), found, expected));
  }
}
