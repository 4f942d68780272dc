package siltwright.features;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;

/** A display that nobody sees: Xvfb on a number that is free. */
final class VirtualDisplay implements AutoCloseable {
  private final Process server;
  private final String name;

  private VirtualDisplay(Process server, String name) {
    this.server = server;
    this.name = name;
  }

  static boolean isInstalled() {
    return Arrays.stream(System.getenv().getOrDefault("PATH", "").split(":"))
        .anyMatch(folder -> Files.isExecutable(Path.of(folder, "Xvfb")));
  }

  /**
   * Starts a display.
   *
   * @param screen width, height and depth, such as 1280x800x24
   */
  static VirtualDisplay start(String screen) throws IOException {
    Process server =
        new ProcessBuilder("Xvfb", "-displayfd", "1", "-screen", "0", screen, "-nolisten", "tcp")
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    BufferedReader out =
        new BufferedReader(
            new InputStreamReader(server.getInputStream(), StandardCharsets.US_ASCII));
    String number = out.readLine();
    if (number == null) {
      throw new IOException("Xvfb does not start");
    }
    return new VirtualDisplay(server, ":" + number.strip());
  }

  void useFor(ProcessBuilder builder) {
    builder.environment().put("DISPLAY", name);
    builder.environment().remove("WAYLAND_DISPLAY");
  }

  @Override
  public void close() {
    server.destroy();
  }
}
