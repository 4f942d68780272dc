package siltwright.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * A real server of its own for the tests: on this machine's loopback address, in a temporary
 * folder, gone when the tests are. It needs the system's PostgreSQL programs (Debian, Ubuntu:
 * {@code apt-get install postgresql}).
 */
final class PostgresCluster {
  private static PostgresCluster shared;
  private static int databases;

  private final Path programs;
  private final Path data;
  private final Path log;
  private final int port;

  private PostgresCluster(Path programs, Path folder, int port) {
    this.programs = programs;
    this.data = folder.resolve("data");
    this.log = folder.resolve("log");
    this.port = port;
  }

  /** Returns the address of a new, empty database on the server that all tests share. */
  static synchronized String newDatabase() {
    if (shared == null) {
      shared = start();
    }
    return shared.database();
  }

  /** Starts a server. */
  static PostgresCluster start() {
    try {
      Path folder = Files.createTempDirectory("siltwright-postgres");
      Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxrwxrwx"));
      PostgresCluster cluster = new PostgresCluster(programs(), folder, freePort());
      Runtime.getRuntime().addShutdownHook(new Thread(cluster::end));
      cluster.run(
          "initdb",
          "-D",
          cluster.data.toString(),
          "-U",
          "crew",
          "-A",
          "trust",
          "-E",
          "UTF8",
          "--locale=C",
          "--no-sync");
      askForPasswords(cluster.data.resolve("pg_hba.conf"));
      cluster.up();
      return cluster;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Every user but the one who looks after the server has a password. */
  private static void askForPasswords(Path rules) throws IOException {
    String others = Files.readString(rules);
    Files.writeString(
        rules,
        "host all crew 127.0.0.1/32 trust\nhost all all 127.0.0.1/32 scram-sha-256\n" + others);
  }

  private static Path programs() throws IOException {
    List<Path> candidates = new ArrayList<>();
    Path debian = Path.of("/usr/lib/postgresql");
    if (Files.isDirectory(debian)) {
      try (Stream<Path> versions = Files.list(debian)) {
        versions.map(v -> v.resolve("bin")).forEach(candidates::add);
      }
    }
    for (String folder : System.getenv("PATH").split(":")) {
      candidates.add(Path.of(folder));
    }
    return candidates.stream()
        .filter(c -> Files.isExecutable(c.resolve("initdb")))
        .filter(c -> Files.isExecutable(c.resolve("pg_ctl")))
        .findFirst()
        .orElseThrow(
            () ->
                new AssertionError(
                    "these tests need PostgreSQL's programs: apt-get install postgresql"));
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  void up() {
    run(
        "pg_ctl",
        "-D",
        data.toString(),
        "-l",
        log.toString(),
        "-w",
        "-o",
        "-F -p " + port + " -h 127.0.0.1 -k '' -c shared_buffers=64MB",
        "start");
  }

  /** Stops it as if it had crashed. */
  void down() {
    run("pg_ctl", "-D", data.toString(), "-m", "immediate", "-w", "stop");
  }

  private void end() {
    if (Files.exists(data.resolve("postmaster.pid"))) {
      down();
    }
    try (Stream<Path> all = Files.walk(data.getParent())) {
      all.sorted(Comparator.reverseOrder()).forEach(p -> p.toFile().delete());
    } catch (IOException e) {
      // a temporary folder
    }
  }

  /** Returns the address of a new, empty database. */
  String database() {
    String name = "store" + ++databases;
    run("createdb", "-h", "127.0.0.1", "-p", String.valueOf(port), "-U", "crew", name);
    return "jdbc:postgresql://127.0.0.1:" + port + "/" + name + "?user=crew";
  }

  /** The server refuses to run as root: then nobody runs it. */
  private void run(String program, String... arguments) {
    List<String> command = new ArrayList<>();
    if (System.getProperty("user.name").equals("root")) {
      command.addAll(List.of("runuser", "-u", "nobody", "--"));
    }
    command.add(programs.resolve(program).toString());
    command.addAll(List.of(arguments));
    try {
      Process process =
          new ProcessBuilder(command)
              .directory(data.getParent().toFile())
              .redirectErrorStream(true)
              .redirectOutput(data.resolveSibling(program + ".out").toFile())
              .start();
      if (!process.waitFor(60, TimeUnit.SECONDS) || process.exitValue() != 0) {
        throw new AssertionError(
            program + ": " + Files.readString(data.resolveSibling(program + ".out")));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }
}
