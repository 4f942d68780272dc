package siltwright.wide;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Where a cluster is, and what it takes to work there.
 *
 * @param master its address, spark://HOST:PORT
 * @param kit the folder with what runs on the cluster
 * @param secret a file that only its owner can read, with what the cluster knows its own by
 */
public record ClusterPlace(String master, Path kit, Path secret) {
  private static final Pattern MASTER =
      Pattern.compile("spark://([\\p{Alnum}.-]+|\\[[\\p{XDigit}:]+]):(\\d{1,5})");
  private static final int CONNECT_MS = 5000;
  private static final int SHORTEST_SECRET = 16;
  private static final int LONGEST_SECRET = 4096;
  private static final Set<PosixFilePermission> OWN =
      Set.of(
          PosixFilePermission.OWNER_READ,
          PosixFilePermission.OWNER_WRITE,
          PosixFilePermission.OWNER_EXECUTE);

  /** Returns whether a text is a cluster's address. */
  public static boolean isMaster(String text) {
    Matcher m = MASTER.matcher(text);
    return m.matches() && Integer.parseInt(m.group(2)) <= 0xFFFF;
  }

  /**
   * Returns the folder of the jars that run on the cluster.
   *
   * @throws InputException if there is none
   */
  Path jars() {
    Path jars = kit.resolve("jars");
    if (!Files.isDirectory(jars)) {
      throw refusal("--kit", kit.toString(), "the folder siltwright-wide, which has jars in it");
    }
    return jars.toAbsolutePath();
  }

  /**
   * Returns the settings of a driver: all that connects is checked by the secret and encrypted, no
   * page is served, and nothing listens but at the address from which the cluster was reached.
   *
   * @throws InputException if the cluster is not there, or the secret is none
   */
  Map<String, String> settings() {
    String text = secretOf(secret);
    String here = reach().getHostAddress();
    Map<String, String> settings = new LinkedHashMap<>();
    settings.put("spark.master", master);
    settings.put("spark.app.name", "siltwright");
    settings.put("spark.driver.host", here);
    settings.put("spark.driver.bindAddress", here);
    settings.put("spark.ui.enabled", "false");
    settings.put("spark.authenticate", "true");
    settings.put("spark.authenticate.secret", text);
    settings.put("spark.network.crypto.enabled", "true");
    return settings;
  }

  private InetAddress reach() {
    Matcher m = MASTER.matcher(master);
    if (!m.matches()) {
      throw refusal("--on", master, "here or spark://HOST:PORT");
    }
    try (Socket socket = new Socket()) {
      socket.connect(new InetSocketAddress(m.group(1), Integer.parseInt(m.group(2))), CONNECT_MS);
      return socket.getLocalAddress();
    } catch (IOException e) {
      throw refusal("--on", master, "a cluster that answers");
    }
  }

  /**
   * Returns the secret that a file holds.
   *
   * @throws InputException if others may read the file, or it holds none
   */
  public static String secretOf(Path file) {
    String expected =
        "a file that you alone can read, with " + SHORTEST_SECRET + " characters or more in it";
    try {
      if (Files.getFileStore(file).supportsFileAttributeView("posix")
          && !OWN.containsAll(Files.getPosixFilePermissions(file))) {
        throw refusal("--secret", file.toString(), expected);
      }
      String text = Files.size(file) > LONGEST_SECRET ? "" : Files.readString(file).strip();
      if (text.length() < SHORTEST_SECRET) {
        throw refusal("--secret", file.toString(), expected);
      }
      return text;
    } catch (IOException e) {
      throw refusal("--secret", file.toString(), expected);
    }
  }

  private static InputException refusal(String option, String found, String expected) {
    return new InputException(new Problem("option", option, found, expected));
  }
}
