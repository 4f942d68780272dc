package siltwright.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * The window, driven by mouse and keys on a display of its own, in a process of its own: {@link
 * WindowDrive}. The display is Xvfb; without it the tests are left out.
 */
class WindowIT {
  private static final long LIMIT_S = 170;
  private static final Path FLEET = Path.of("../demo-data/three-pits.json");

  @TempDir Path folder;

  @TestFactory
  List<DynamicTest> windowDoesWhatItIsAskedTo() throws Exception {
    assumeTrue(VirtualDisplay.isInstalled(), "Xvfb is not installed");
    List<String> lines = new ArrayList<>();
    try (VirtualDisplay display = VirtualDisplay.start("1280x800x24")) {
      leaveWorkBehind(display);
      Process drive = limited(process(display, "drive").start());
      try (BufferedReader out = reader(drive)) {
        out.lines().forEach(lines::add);
      }
    }
    List<DynamicTest> tests = new ArrayList<>();
    for (String line : lines) {
      if (line.startsWith("step ")) {
        String[] words = line.split(" ", 4);
        tests.add(dynamicTest(words[1], () -> assertEquals("passed", words[2], line)));
      }
    }
    assertFalse(tests.isEmpty(), String.join("\n", lines));
    assertEquals("end", lines.get(lines.size() - 1), String.join("\n", lines));
    return tests;
  }

  /** Edits a copy of the demo and kills the process, as a power cut would. */
  private void leaveWorkBehind(VirtualDisplay display) throws Exception {
    Files.copy(FLEET, folder.resolve("fleet.json"));
    Process killed = limited(process(display, "edit").start());
    List<String> lines = new ArrayList<>();
    try (BufferedReader out = reader(killed)) {
      for (String line = out.readLine(); line != null; line = out.readLine()) {
        lines.add(line);
        if (line.equals("kept")) {
          killed.destroyForcibly().waitFor();
          return;
        }
      }
    }
    fail("the work was not kept: " + String.join("\n", lines));
  }

  /** Ends a process that hangs. */
  private static Process limited(Process process) {
    Thread watch =
        new Thread(
            () -> {
              try {
                if (!process.waitFor(LIMIT_S, TimeUnit.SECONDS)) {
                  process.destroyForcibly();
                }
              } catch (InterruptedException e) {
                process.destroyForcibly();
              }
            });
    watch.setDaemon(true);
    watch.start();
    return process;
  }

  private static BufferedReader reader(Process process) {
    return new BufferedReader(
        new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
  }

  private ProcessBuilder process(VirtualDisplay display, String what) throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.add("-Dfile.encoding=UTF-8");
    command.add("-cp");
    command.add(System.getProperty("java.class.path"));
    command.add(WindowDrive.class.getName());
    command.add(what);
    command.add(folder.toString());
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    display.useFor(builder);
    for (String kind : List.of("CONFIG", "STATE", "DATA")) {
      builder.environment().put("XDG_" + kind + "_HOME", folder.resolve(kind).toString());
    }
    return builder;
  }
}
