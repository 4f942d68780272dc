package siltwright.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.jar.JarFile;
import java.util.jar.Manifest;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** What the built bundles hold, export and import. */
class BuiltJarsIT {

  private static final Map<String, Contents> BUNDLES = new TreeMap<>();

  /** The packages of one bundle. */
  private record Contents(Set<String> own, Set<String> exported, Set<String> imported) {}

  @BeforeAll
  static void readBundles() throws IOException {
    try (Stream<Path> jars = Files.list(Installation.BUILT.resolve("bundles"))) {
      for (Path jar : jars.toList()) {
        try (JarFile file = new JarFile(jar.toFile())) {
          Manifest manifest = file.getManifest();
          String name = manifest.getMainAttributes().getValue("Bundle-SymbolicName").split(";")[0];
          BUNDLES.put(
              name,
              new Contents(
                  packages(file),
                  names(manifest.getMainAttributes().getValue("Export-Package")),
                  names(manifest.getMainAttributes().getValue("Import-Package"))));
        }
      }
    }
    assertTrue(BUNDLES.containsKey("siltwright.model"));
  }

  private static Set<String> packages(JarFile file) {
    Set<String> packages = new TreeSet<>();
    file.stream()
        .map(entry -> entry.getName())
        .filter(name -> name.endsWith(".class") && name.contains("/"))
        .filter(name -> !name.startsWith("META-INF/"))
        .forEach(name -> packages.add(name.substring(0, name.lastIndexOf('/')).replace('/', '.')));
    return packages;
  }

  /** Returns the names of a header's clauses. */
  private static Set<String> names(String header) {
    Set<String> names = new TreeSet<>();
    if (header != null) {
      for (String clause : header.replaceAll("\"[^\"]*\"", "").split(",")) {
        names.add(clause.split(";")[0].strip());
      }
    }
    return names;
  }

  @Test
  void noPackageIsInTwoBundles() {
    Map<String, List<String>> holders = new TreeMap<>();
    BUNDLES.forEach(
        (bundle, contents) ->
            contents
                .own()
                .forEach(p -> holders.computeIfAbsent(p, name -> new ArrayList<>()).add(bundle)));
    holders.values().removeIf(bundles -> bundles.size() < 2);
    assertEquals(Map.of(), holders);
  }

  @Test
  void onlyWrappersExportForeignPackages() {
    assertOnly(
        Contents::exported,
        name -> !name.startsWith("siltwright."),
        bundle -> bundle.startsWith("siltwright.lib."));
  }

  @Test
  void noInternalPackageIsExportedOrImported() {
    assertOnly(Contents::exported, name -> name.matches("siltwright\\..*internal.*"), b -> false);
    assertOnly(Contents::imported, name -> name.matches("siltwright\\..*internal.*"), b -> false);
  }

  @Test
  void packagesOfABundleBearItsName() {
    BUNDLES.forEach(
        (bundle, contents) -> {
          if (isOurs(bundle) && !bundle.startsWith("siltwright.lib.")) {
            for (String name : contents.own()) {
              assertTrue((name + ".").startsWith(bundle + "."), bundle + " holds " + name);
            }
          }
        });
  }

  @Test
  void onlyPresentationDraws() {
    assertOnly(
        Contents::imported,
        name -> name.startsWith("java.awt") || name.startsWith("javax.swing"),
        bundle ->
            bundle.matches(
                "siltwright\\.(charts(\\.screen)?|report|paper(\\.[a-z]+)?|workbench|lib\\..*|.*\\.view)"));
  }

  @Test
  void onlyChartsUsesTheChartLibraries() {
    assertOnly(
        Contents::imported,
        name -> name.startsWith("org.jfree"),
        bundle -> bundle.matches("siltwright\\.(charts(\\.screen)?|lib\\..*)"));
  }

  @Test
  void onlyChartsAndViewsWriteSvg() {
    assertOnly(
        Contents::imported,
        name -> name.startsWith("org.apache.batik"),
        bundle -> bundle.matches("siltwright\\.(charts|lib\\..*|.*\\.view)"));
  }

  @Test
  void onlyPaperLaysOutPagesAndMakesCodes() {
    assertOnly(
        Contents::imported,
        name -> name.startsWith("com.openhtmltopdf") || name.startsWith("com.google.zxing"),
        "siltwright.paper"::equals);
  }

  @Test
  void onlyCommandParsesTheCommandLine() {
    assertOnly(
        Contents::imported, name -> name.startsWith("picocli"), "siltwright.command"::equals);
  }

  private static boolean isOurs(String bundle) {
    return bundle.startsWith("siltwright.");
  }

  /** Fails if one of our bundles has such a package in that header and is not one that may. */
  private static void assertOnly(
      Function<Contents, Set<String>> header,
      Predicate<String> concerned,
      Predicate<String> allowed) {
    Map<String, Set<String>> offenders = new TreeMap<>();
    BUNDLES.forEach(
        (bundle, contents) -> {
          Set<String> found = new TreeSet<>(header.apply(contents));
          found.removeIf(concerned.negate());
          if (isOurs(bundle) && !allowed.test(bundle) && !found.isEmpty()) {
            offenders.put(bundle, found);
          }
        });
    assertEquals(Map.of(), offenders);
  }
}
