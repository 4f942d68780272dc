package siltwright.workbench.internal;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;

/** Where the window keeps things of the user's. */
record Folders(Path settings, Path recovery) {
  /** Returns the folders that the system has for this, by its own conventions. */
  static Folders ofUser() {
    String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    Path user = Path.of(System.getProperty("user.home"));
    if (system.contains("windows") && System.getenv("APPDATA") != null) {
      Path data = Path.of(System.getenv("APPDATA"), "Siltwright");
      return new Folders(data, data.resolve("recovery"));
    }
    if (system.contains("mac")) {
      Path data = user.resolve("Library/Application Support/Siltwright");
      return new Folders(data, data.resolve("recovery"));
    }
    return new Folders(
        named("XDG_CONFIG_HOME").orElse(user.resolve(".config")).resolve("siltwright"),
        named("XDG_STATE_HOME").orElse(user.resolve(".local/state")).resolve("siltwright"));
  }

  private static Optional<Path> named(String variable) {
    String value = System.getenv(variable);
    return value != null && value.startsWith("/") ? Optional.of(Path.of(value)) : Optional.empty();
  }
}
