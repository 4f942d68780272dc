package siltwright.launcher;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import org.osgi.framework.Bundle;
import org.osgi.framework.BundleContext;
import org.osgi.framework.BundleException;

/**
 * Bundles that users drop into a folder: beside the product, or in their own data folder. A command
 * takes them as they lie there; the window watches the folders.
 */
final class AddOns {
  static final AddOns NONE = new AddOns(List.of(), List.of());

  private final List<Path> folders;
  private final List<Bundle> bundles;

  private AddOns(List<Path> folders, List<Bundle> bundles) {
    this.folders = folders;
    this.bundles = bundles;
  }

  /** Returns the folders in which add-ons are looked for. */
  static List<Path> folders(Path home) {
    return List.of(home.resolve("addons"), userData().resolve("addons"));
  }

  private static Path userData() {
    String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    Path user = Path.of(System.getProperty("user.home"));
    if (system.contains("windows") && System.getenv("APPDATA") != null) {
      return Path.of(System.getenv("APPDATA"), "Siltwright");
    }
    if (system.contains("mac")) {
      return user.resolve("Library/Application Support/Siltwright");
    }
    String data = System.getenv("XDG_DATA_HOME");
    return data != null && data.startsWith("/")
        ? Path.of(data, "siltwright")
        : user.resolve(".local/share/siltwright");
  }

  static AddOns start(BundleContext context, List<Path> folders) {
    List<Bundle> bundles = new ArrayList<>();
    for (Path jar : jars(folders)) {
      try {
        bundles.add(context.installBundle("reference:" + jar.toUri()));
      } catch (BundleException e) {
        tell(jar, e);
      }
    }
    for (Bundle bundle : bundles) {
      try {
        bundle.start();
      } catch (BundleException e) {
        tell(Path.of(bundle.getLocation()), e);
      }
    }
    return new AddOns(folders, bundles);
  }

  private static void tell(Path jar, BundleException e) {
    System.err.println(
        "siltwright: add-on " + jar.getFileName() + " is left out: " + Diagnosis.cause(e));
  }

  private static List<Path> jars(List<Path> folders) {
    List<Path> jars = new ArrayList<>();
    for (Path folder : folders) {
      if (Files.isDirectory(folder)) {
        try (DirectoryStream<Path> found = Files.newDirectoryStream(folder, "*.jar")) {
          for (Path jar : found) {
            jars.add(jar);
          }
        } catch (IOException e) {
          System.err.println("siltwright: add-ons in " + folder + " cannot be read: " + e);
        }
      }
    }
    Collections.sort(jars);
    return jars;
  }

  /**
   * Gives the folders to the bundle that watches them, which installs what is in them itself.
   *
   * @param temporary a folder for its own use
   */
  void handOver(Path temporary) {
    for (Bundle bundle : bundles) {
      try {
        bundle.uninstall();
      } catch (BundleException e) {
        tell(Path.of(bundle.getLocation()), e);
      }
    }
    StringBuilder watched = new StringBuilder();
    for (Path folder : folders) {
      try {
        Files.createDirectories(folder);
        watched.append(watched.length() == 0 ? "" : ",").append(folder.toAbsolutePath());
      } catch (IOException e) {
        // a product folder that is not the user's to write to
      }
    }
    if (watched.length() == 0) {
      watched.append(temporary); // else it would watch a folder where the program was started
    }
    System.setProperty("felix.fileinstall.dir", watched.toString());
    System.setProperty("felix.fileinstall.tmpdir", temporary.toString());
    System.setProperty("felix.fileinstall.poll", "500");
    System.setProperty("felix.fileinstall.noInitialDelay", "true");
    System.setProperty("felix.fileinstall.log.level", "0");
  }
}
