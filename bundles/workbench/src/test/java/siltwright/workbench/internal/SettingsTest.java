package siltwright.workbench.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Settings that cannot be read or kept cost nobody a run. */
class SettingsTest {
  @TempDir Path folder;

  @Test
  void whatIsKeptComesBack() {
    Settings settings = new Settings(folder);
    settings.put("theme", "dark");
    settings.opened(Path.of("a b", "fleet\u00e4.json"));
    settings.save();
    assertEquals(Optional.of("dark"), new Settings(folder).get("theme"));
    assertEquals(List.of(Path.of("a b", "fleet\u00e4.json")), new Settings(folder).recent());
  }

  @Test
  void aDamagedFileCountsAsNone() throws IOException {
    Path file = folder.resolve("settings.properties");
    Files.writeString(file, "recent.0=a\\u0000b\nrecent.1=kept.json\n\\uZZ");
    assertEquals(List.of(), new Settings(folder).recent());
    Files.writeString(file, "recent.0=a\\u0000b\nrecent.1=kept.json\n");
    assertEquals(List.of(Path.of("kept.json")), new Settings(folder).recent());
    Random random = new Random(5);
    byte[] noise = new byte[200];
    for (int i = 0; i < 200; i++) {
      random.nextBytes(noise);
      Files.write(file, noise);
      Settings settings = new Settings(folder);
      settings.opened(Path.of("x.json"));
      assertEquals(Path.of("x.json"), settings.recent().get(0));
    }
  }

  @Test
  void aFolderThatCannotBeWrittenToIsTold() throws IOException {
    // a file in its place: no rights of the user make a folder of it
    Path file = Files.writeString(folder.resolve("file"), "");
    PrintStream before = System.err;
    ByteArrayOutputStream told = new ByteArrayOutputStream();
    System.setErr(new PrintStream(told, true, StandardCharsets.UTF_8));
    try {
      Settings settings = new Settings(file.resolve("folder"));
      settings.put("theme", "dark");
      settings.save();
    } finally {
      System.setErr(before);
    }
    String line = told.toString(StandardCharsets.UTF_8);
    assertTrue(line.startsWith("siltwright: settings are not kept: "), line);
    assertEquals(1, line.lines().count());
  }
}
