package siltwright.wide.spark;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import siltwright.wide.ClusterPlace;

/** A cluster of this computer's own: a master and workers, as the kit starts them. */
final class ClusterProcesses implements AutoCloseable {
  static final Path KIT = Path.of("target/kit/siltwright-wide").toAbsolutePath();
  static final String ADDRESS = "127.0.0.1";

  final String secretText = "a-secret-of-this-test-" + System.nanoTime();
  final Path secret;
  final int port;
  final List<Process> workers = new ArrayList<>();
  private final Process master;
  private final Path folder;

  ClusterProcesses(Path folder, int workers) throws Exception {
    this.folder = folder;
    secret =
        Files.createFile(
            folder.resolve("secret"),
            PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
    Files.writeString(secret, secretText);
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getByName(ADDRESS))) {
      port = free.getLocalPort();
    }
    master = node("master", String.valueOf(port), secret.toString());
    waitUntil(this::answers, "the master answers");
    for (int i = 0; i < workers; i++) {
      this.workers.add(node("worker", address(), secret.toString(), "1", "1500m"));
    }
  }

  private Process node(String... arguments) throws IOException {
    List<String> command = new ArrayList<>(List.of(KIT + "/bin/siltwright-node", ADDRESS));
    command.addAll(Arrays.asList(arguments));
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("node-" + System.nanoTime() + ".log").toFile());
    builder.environment().put("JAVA_HOME", System.getProperty("java.home"));
    builder.environment().put("JDK_JAVA_OPTIONS", "-Djava.io.tmpdir=" + folder);
    return builder.start();
  }

  private boolean answers() {
    try (java.net.Socket socket = new java.net.Socket(ADDRESS, port)) {
      return socket.isConnected();
    } catch (IOException e) {
      return false;
    }
  }

  String address() {
    return "spark://" + ADDRESS + ":" + port;
  }

  ClusterPlace place() {
    return new ClusterPlace(address(), KIT, secret);
  }

  /** The cluster's processes and all that these have started. */
  List<ProcessHandle> all() {
    List<ProcessHandle> all = new ArrayList<>();
    List<Process> own = new ArrayList<>(workers);
    own.add(master);
    for (Process p : own) {
      all.add(p.toHandle());
      p.descendants().forEach(all::add);
    }
    return all;
  }

  /** Kills a worker with what it runs, as a power cut would. */
  void kill(int worker) {
    List<ProcessHandle> gone = new ArrayList<>(workers.get(worker).descendants().toList());
    gone.add(workers.get(worker).toHandle());
    gone.forEach(ProcessHandle::destroyForcibly);
  }

  static void waitUntil(java.util.function.BooleanSupplier condition, String what)
      throws InterruptedException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(90);
    while (!condition.getAsBoolean()) {
      if (System.nanoTime() > end) {
        throw new IllegalStateException("not after 90 s: " + what);
      }
      TimeUnit.MILLISECONDS.sleep(50);
    }
  }

  @Override
  public void close() {
    for (ProcessHandle p : all()) {
      p.destroyForcibly();
    }
  }
}
