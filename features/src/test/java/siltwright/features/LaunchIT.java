package siltwright.features;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.features.Installation.Outcome;

/** The launcher as a process of its own, on the product's bundles and a command made for tests. */
class LaunchIT {

  private static final List<String> COMMAND = List.of("siltwright-command");

  @TempDir static Path folder;
  private static Installation installation;

  @BeforeAll
  static void install() throws IOException {
    // a locale without a character set leaves Java no way to name such a file
    boolean anyName = "UTF-8".equals(System.getProperty("sun.jnu.encoding"));
    Path home = folder.resolve(anyName ? "über all, 100 % µm" : "with space");
    installation = Installation.copyTo(home, folder.resolve("tmp dir"));
    installation.feature("test", COMMAND, List.of("test-command"));
    installation.feature("desk", COMMAND, List.of("test-command")); // what the script starts
  }

  @Test
  void argumentsGoInAndTheExitCodeComesOut() throws Exception {
    Outcome echo = Installation.run(installation.java("test", "two words", "", "--json"));
    assertEquals(new Outcome(0, "two words||--json" + System.lineSeparator(), ""), echo);
    assertEquals(new Outcome(7, "", ""), Installation.run(installation.java("test", "exit", "7")));
  }

  @Test
  void nothingIsLeftBehind() throws Exception {
    Installation.run(installation.java("test", "exit", "0"));
    assertEquals(List.of(), leftIn(installation.temporary()));
  }

  @Test
  void textIsWrittenInUtf8WhereNoCharacterSetIsNamed() throws Exception {
    Installation plain = Installation.copyTo(folder.resolve("plain"), folder.resolve("plain-tmp"));
    plain.feature("test", COMMAND, List.of("test-command"));
    ProcessBuilder java = plain.java("test", "µ");
    java.environment().put("LC_ALL", "C");
    // the argument cannot be decoded there and becomes U+FFFD, which ASCII would print as "?"
    assertFalse(Installation.run(java).out().contains("?"));
  }

  @Test
  void chartsAreDrawnAsSvgByTheWrappedLibraries() throws Exception {
    Outcome drawn = installation.bothWays("test", "draw");
    assertEquals("", drawn.err());
    assertTrue(drawn.out().contains("<svg") && drawn.out().contains("</svg"), drawn.out());
  }

  @Test
  void bundleThatDoesNotResolveIsNamedWithWhatItLacksAndLeftOut() throws Exception {
    installation.feature(
        "lacking-core", List.of("jackson-core", "siltwright-command"), List.of("test-command"));
    Outcome outcome = installation.bothWays("lacking-core", "exit", "5");
    assertLeftOut(5, outcome);
    assertTrue(
        outcome
            .err()
            .matches(
                "(?s).*databind 2[.0-9]+ cannot start: .*package com\\.fasterxml\\.jackson\\.core .*"),
        outcome.err());
  }

  @Test
  void jarThatIsNotThereIsNamed() throws Exception {
    installation.feature("absent", COMMAND, List.of("test-absent"));
    Outcome outcome = Installation.run(installation.java("absent"));
    assertRefused(outcome);
    assertTrue(outcome.err().contains("bundle test-absent 1.0.0 is missing"), outcome.err());
  }

  @Test
  void componentWithoutAServiceItNeedsIsNamed() throws Exception {
    installation.feature("lacking", COMMAND, List.of("test-command", "test-lacking"));
    Outcome outcome = installation.bothWays("lacking", "exit", "0");
    assertLeftOut(1, outcome);
    assertTrue(
        outcome
            .err()
            .contains("test-lacking cannot start: it needs the service java.time.InstantSource"),
        outcome.err());
  }

  @Test
  void componentThatCannotBeMadeIsNamed() throws Exception {
    installation.feature("failing", COMMAND, List.of("test-failing"));
    Outcome outcome = installation.bothWays("failing");
    assertRefused(outcome);
    assertTrue(outcome.err().contains("test-failing failed when it was made"), outcome.err());
    assertTrue(outcome.err().contains("made to fail"), outcome.err());
  }

  @Test
  void featureWithoutCommandsIsRefused() throws Exception {
    installation.feature("mute", COMMAND, List.of());
    Outcome outcome = Installation.run(installation.java("mute"));
    assertRefused(outcome);
    assertTrue(outcome.err().contains("no bundle of the feature takes commands"), outcome.err());
  }

  @Test
  void featureWithTwoCommandsIsRefused() throws Exception {
    installation.addBundle("test-second", Installation.ENTRY);
    installation.feature("double", COMMAND, List.of("test-command", "test-second"));
    Outcome outcome = installation.bothWays("double");
    assertRefused(outcome);
    assertTrue(outcome.err().contains("more than one bundle"), outcome.err());
  }

  @Test
  void unknownFeatureIsRefused() throws Exception {
    Outcome outcome = Installation.run(installation.java("nowhere"));
    assertRefused(outcome);
    assertTrue(outcome.err().contains("there is no feature file"), outcome.err());
  }

  @Test
  void failureOfACommandIsOneLine() throws Exception {
    Outcome outcome = installation.bothWays("test", "fail");
    assertRefused(outcome);
    assertTrue(outcome.err().contains("asked to fail"), outcome.err());
  }

  @Test
  void twoRunsAtOnceUseFoldersOfTheirOwn() throws Exception {
    try (Running first = new Running("test");
        Running second = new Running("test")) {
      assertNotEquals(first.storage, second.storage);
      assertTrue(Files.isDirectory(first.storage) && Files.isDirectory(second.storage));
      assertEquals(0, first.end());
      assertFalse(Files.exists(first.storage.getParent()));
      assertTrue(Files.isDirectory(second.storage), "the second run lost its folder");
      assertEquals(0, second.end());
    }
  }

  @Test
  void folderIsTheOwnersOnly() throws Exception {
    try (Running running = new Running("test")) {
      assertEquals(
          "rwx------",
          PosixFilePermissions.toString(
              Files.getPosixFilePermissions(running.storage.getParent())));
      running.end();
    }
  }

  @Test
  void folderOfAKilledRunIsRemovedByALaterOne() throws Exception {
    Path left;
    try (Running killed = new Running("test")) {
      left = killed.storage.getParent();
      killed.process.destroyForcibly().waitFor();
    }
    assertTrue(Files.isDirectory(left));
    Installation.run(installation.java("test", "exit", "0"));
    assertFalse(Files.exists(left));
  }

  @ParameterizedTest
  @CsvSource({"INT, 2, 130", "TERM, 15, 143"})
  void signalEndsTheRunAndRemovesItsFolder(String name, int number, int code) throws Exception {
    try (Running running = new Running("test")) {
      // a run started in the background by a plain shell has SIGINT switched off for good
      assumeFalse(ignoresSignal(running.process.pid(), number), "SIG" + name + " is ignored here");
      new ProcessBuilder("kill", "-" + name, Long.toString(running.process.pid()))
          .start()
          .waitFor();
      assertEquals(code, running.process.waitFor());
      assertFalse(Files.exists(running.storage.getParent()));
    }
  }

  @Test
  void scriptMakesItsArchiveAndUsesIt() throws Exception {
    Path script = installation.home().resolve("bin/siltwright");
    ProcessBuilder run = installation.script(script, folder.resolve("cache"), "echo", "a b");
    Outcome expected = new Outcome(0, "echo|a b" + System.lineSeparator(), "");
    assertEquals(expected, Installation.run(run));
    List<Path> archives = leftIn(folder.resolve("cache/siltwright"));
    assertEquals(1, archives.size(), archives.toString());
    assertEquals(expected, Installation.run(run));
    assertEquals(archives, leftIn(folder.resolve("cache/siltwright")));

    Files.delete(archives.get(0));
    Files.write(archives.get(0), new byte[100]); // a broken one does no harm
    assertEquals(expected, Installation.run(run));
  }

  @Test
  void scriptTakesTheClassesFromItsClassPath() throws Exception {
    assertEquals("its own", loader(installation.java("test", "loader")));
    assertEquals("the class path's", loader(script("loader")));
    // whose bundle a class is of is told there too: it is asked for the framework's folder
    Outcome waited = Installation.run(script("storage"));
    assertEquals(new Outcome(0, waited.out(), ""), waited);
    assertTrue(waited.out().contains("siltwright"), waited.out());
  }

  /** What else is on the class path could be taken for a bundle's own, such as an older version. */
  @Test
  void bundlesHaveTheirOwnLoadersBesideAnotherJar() throws Exception {
    List<String> words = new ArrayList<>(Installation.onOneClassPath(installation.home(), "test"));
    words.set(1, words.get(1) + File.pathSeparator + installation.home().resolve("lib/other.jar"));
    assertEquals("its own", loader(installation.java(words, "test", "loader")));
  }

  private ProcessBuilder script(String command) {
    Path script = installation.home().resolve("bin/siltwright");
    return installation.script(script, folder.resolve("more"), command);
  }

  private static String loader(ProcessBuilder run) throws Exception {
    Outcome outcome = Installation.run(run);
    assertEquals("", outcome.err());
    return outcome.out().strip();
  }

  @Test
  void scriptPassesExitCodeOnAndWorksThroughALink() throws Exception {
    Path link =
        Files.createSymbolicLink(
            folder.resolve("link"),
            folder.relativize(installation.home().resolve("bin/siltwright")));
    Outcome outcome =
        Installation.run(installation.script(link, folder.resolve("other"), "exit", "2"));
    assertEquals(new Outcome(2, "", ""), outcome);
    assertEquals(List.of(), leftIn(folder.resolve("other/siltwright")));
  }

  private static boolean ignoresSignal(long pid, int number) throws IOException {
    Path status = Path.of("/proc/" + pid + "/status");
    if (!Files.exists(status)) {
      return false;
    }
    try (Stream<String> lines = Files.lines(status)) {
      String mask = lines.filter(line -> line.startsWith("SigIgn:")).findFirst().orElseThrow();
      return (Long.parseUnsignedLong(mask.substring(7).strip(), 16) >> (number - 1) & 1) == 1;
    }
  }

  private static void assertRefused(Outcome outcome) {
    assertEquals(1, outcome.code(), outcome.toString());
    assertEquals("", outcome.out());
    assertTrue(outcome.err().startsWith("siltwright: "), outcome.err());
    assertFalse(outcome.err().contains("\tat "), outcome.err());
  }

  /** The run did what it was asked to, and told what it had to do without. */
  private static void assertLeftOut(int code, Outcome outcome) {
    assertEquals(code, outcome.code(), outcome.toString());
    assertEquals("", outcome.out());
    assertTrue(outcome.err().startsWith("siltwright: "), outcome.err());
    assertFalse(outcome.err().contains("\tat "), outcome.err());
  }

  private static List<Path> leftIn(Path parent) throws IOException {
    try (Stream<Path> files = Files.list(parent)) {
      return files.filter(file -> file.toString().contains("-")).toList();
    }
  }

  /** A run that stays until its input ends. */
  private static final class Running implements AutoCloseable {

    final Process process;
    final Path storage;

    Running(String feature) throws IOException {
      process = installation.java(feature, "storage").start();
      BufferedReader out =
          new BufferedReader(new InputStreamReader(process.getInputStream(), UTF_8));
      storage = Path.of(out.readLine());
    }

    int end() throws IOException, InterruptedException {
      process.getOutputStream().close();
      return process.waitFor();
    }

    @Override
    public void close() {
      process.destroyForcibly();
    }
  }
}
