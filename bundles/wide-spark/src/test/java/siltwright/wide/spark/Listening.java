package siltwright.wide.spark;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * A port that a process listens at, as Linux tells it.
 *
 * @param address the address, in hexadecimal digits as the system has it
 * @param port the port
 */
record Listening(String address, int port) {
  private static final String LISTEN = "0A";

  static List<Listening> of(long process) throws IOException {
    Set<String> own = new HashSet<>();
    try (Stream<Path> open = Files.list(Path.of("/proc/" + process + "/fd"))) {
      for (Path p : open.toList()) {
        try {
          own.add(Files.readSymbolicLink(p).toString());
        } catch (IOException e) {
          // closed meanwhile
        }
      }
    } catch (IOException e) {
      return List.of(); // ended
    }
    List<Listening> all = new ArrayList<>();
    for (String table : List.of("tcp", "tcp6")) {
      // the same network for all of them, and this process does not end while it reads
      Files.readAllLines(Path.of("/proc/self/net/" + table)).stream()
          .skip(1)
          .map(line -> line.strip().split("\\s+"))
          .filter(f -> f[3].equals(LISTEN) && own.contains("socket:[" + f[9] + "]"))
          .map(f -> f[1].split(":"))
          .forEach(a -> all.add(new Listening(a[0], Integer.parseInt(a[1], 16))));
    }
    return all;
  }

  /** 127.0.0.1, ::1, or the former written as the latter's kind. */
  boolean loopback() {
    return address.equals("0100007F")
        || address.equals("00000000000000000000000001000000")
        || address.equals("0000000000000000FFFF00000100007F");
  }
}
