package siltwright.wide;

import java.io.IOException;
import java.io.ObjectOutputStream;
import java.io.Serializable;
import java.util.List;
import java.util.Map;

/**
 * What this process and the one that drives a cluster tell each other, over the pipes between them.
 */
public sealed interface Message extends Serializable {
  /** Writes this as all messages are written: at once, and with nothing kept of it. */
  default void writeTo(ObjectOutputStream out) throws IOException {
    out.writeObject(this);
    out.reset();
    out.flush();
  }

  /**
   * The first: which cluster.
   *
   * @param settings of the cluster's driver, with the secret among them
   */
  record Begin(Map<String, String> settings) implements Message {}

  /**
   * What is done with the parts that follow.
   *
   * @param work the work
   */
  record Next(Work<?, ?> work) implements Message {}

  /**
   * A part to work on.
   *
   * @param part serializable
   */
  record Part(Object part) implements Message {}

  /**
   * What the first part that is open comes to.
   *
   * @param aggregate serializable
   */
  record Done(Object aggregate) implements Message {}

  /**
   * How many processes there are to work.
   *
   * @param processes this many
   */
  record Alive(int processes) implements Message {}

  /**
   * The first part that is open is at fault.
   *
   * @param problems a text each for file, place, value and what was expected
   */
  record Refused(List<List<String>> problems) implements Message {}

  /**
   * The cluster does not work, or the work has a fault.
   *
   * @param why in a line
   */
  record Failed(String why) implements Message {}
}
