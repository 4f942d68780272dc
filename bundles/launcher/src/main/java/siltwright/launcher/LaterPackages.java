package siltwright.launcher;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import java.util.function.Predicate;
import java.util.jar.JarFile;

/** Whether something that is missing now is a package of a bundle of a later stage. */
final class LaterPackages implements Predicate<String> {
  private final Feature feature;
  private final Path folder;
  private Set<String> packages;

  LaterPackages(Feature feature, Path folder) {
    this.feature = feature;
    this.folder = folder;
  }

  @Override
  public boolean test(String missing) {
    if (packages == null) {
      packages = read();
    }
    String[] words = missing.split(" ");
    return words.length > 1 && words[0].equals("package") && packages.contains(words[1]);
  }

  private Set<String> read() {
    Set<String> found = new HashSet<>();
    for (Feature.Artifact artifact : feature.bundles()) {
      if (artifact.stage() == Feature.Stage.START) {
        continue;
      }
      try (JarFile jar = new JarFile(folder.resolve(artifact.fileName()).toFile(), false)) {
        String exports = jar.getManifest().getMainAttributes().getValue("Export-Package");
        if (exports != null) {
          for (String clause : exports.replaceAll("\"[^\"]*\"", "").split(",")) {
            found.add(clause.split(";")[0].strip());
          }
        }
      } catch (IOException e) {
        // its stage will say so
      }
    }
    return found;
  }
}
