package siltwright.workbench.internal;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Properties;

/** What is kept between runs. A file that cannot be read counts as none. */
final class Settings {
  private static final int MOST_RECENT = 12;
  private static final String RECENT = "recent.";

  private final Path folder;
  private final Properties values = new Properties();

  Settings(Path folder) {
    this.folder = folder;
    try (Reader in = Files.newBufferedReader(file(), StandardCharsets.UTF_8)) {
      values.load(in);
    } catch (IOException | IllegalArgumentException e) {
      values.clear();
    }
  }

  private Path file() {
    return folder.resolve("settings.properties");
  }

  Optional<String> get(String key) {
    return Optional.ofNullable(values.getProperty(key));
  }

  /** Keeps a value; an empty one is forgotten. */
  void put(String key, String value) {
    if (value.isEmpty()) {
      values.remove(key);
    } else {
      values.setProperty(key, value);
    }
  }

  /** Returns files opened lately, the last one first. */
  List<Path> recent() {
    List<Path> files = new ArrayList<>();
    for (int i = 0; i < MOST_RECENT; i++) {
      try {
        get(RECENT + i).map(Path::of).ifPresent(files::add);
      } catch (InvalidPathException e) {
        // no name of a file here: another system's, or damage
      }
    }
    return files;
  }

  /** Puts a file first among the recent ones. */
  void opened(Path path) {
    List<Path> files = recent();
    files.remove(path);
    files.add(0, path);
    keep(files);
  }

  /** Forgets a recent file that is not there any more. */
  void forget(Path path) {
    List<Path> files = recent();
    files.remove(path);
    keep(files);
  }

  private void keep(List<Path> files) {
    for (int i = 0; i < MOST_RECENT; i++) {
      put(RECENT + i, i < files.size() ? files.get(i).toString() : "");
    }
  }

  /** Writes the values. What can't be written is not worth a fault: the next run starts afresh. */
  void save() {
    try {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      values.store(out, null);
      Store.write(file(), out.toByteArray());
    } catch (IOException e) {
      System.err.println("siltwright: settings are not kept: " + e.getMessage());
    }
  }
}
