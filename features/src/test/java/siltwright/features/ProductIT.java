package siltwright.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.jar.JarFile;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.features.Installation.Outcome;
import siltwright.launcher.Feature;

/** The product as the build leaves it: in place, and packed for others. */
class ProductIT {

  @TempDir Path folder;

  @Test
  void helpIsShownInPlace() throws Exception {
    Outcome help =
        Installation.run(
            new ProcessBuilder(
                Installation.java(),
                "-jar",
                Installation.BUILT.resolve("siltwright.jar").toString(),
                "--help"));
    assertEquals(0, help.code(), help.toString());
    assertTrue(help.out().contains("siltwright"), help.toString());
    assertEquals("", help.err());
  }

  /** Languages with digits of their own, and with an i of its own; the dateline as time zone. */
  @Test
  void answersDoNotDependOnLanguageOrTimeZone() throws Exception {
    Set<Outcome> outcomes = new HashSet<>();
    for (String settings : List.of("en-US-UTC", "ar-EG-Pacific/Apia", "fa-IR-UTC", "tr-TR-UTC")) {
      String[] words = settings.split("-", 3);
      List<String> command = Installation.quickJava();
      command.add("-Duser.language=" + words[0]);
      command.add("-Duser.country=" + words[1]);
      command.add("-Duser.timezone=" + words[2]);
      command.add("-jar");
      command.add(Installation.BUILT.resolve("siltwright.jar").toString());
      command.addAll(List.of("code", "--counts", "4=1950,6=420.5,14=61", "--json"));
      outcomes.add(Installation.run(new ProcessBuilder(command)));
    }
    assertEquals(1, outcomes.size(), outcomes.toString());
    assertEquals(0, outcomes.iterator().next().code(), outcomes.toString());
  }

  @Test
  void librariesAreThoseThatTheLauncherNames() throws IOException {
    Set<String> named;
    try (JarFile jar = new JarFile(Installation.BUILT.resolve("siltwright.jar").toFile())) {
      String path = jar.getManifest().getMainAttributes().getValue("Class-Path");
      named = new TreeSet<>(List.of(path.split(" ")));
    }
    Set<String> present = new TreeSet<>();
    try (Stream<Path> jars = Files.list(Installation.BUILT.resolve("lib"))) {
      jars.forEach(jar -> present.add("lib/" + jar.getFileName()));
    }
    assertEquals(named, present);
  }

  @Test
  void distributionHoldsTheProductAndItsPapers() throws IOException {
    List<String> built = new ArrayList<>(List.of("siltwright.jar"));
    for (String part : List.of("lib", "bundles", "features")) {
      try (Stream<Path> files = Files.list(Installation.BUILT.resolve(part))) {
        files.forEach(file -> built.add(part + "/" + file.getFileName()));
      }
    }
    built.addAll(
        List.of(
            "bin/siltwright",
            "LICENSE",
            "licences/THIRD-PARTY.txt",
            "licences/LGPL-2.1.txt",
            "licences/DejaVu-fonts.txt"));
    try (ZipFile zip = new ZipFile(distribution().toFile())) {
      Set<String> packed = new TreeSet<>();
      zip.stream().forEach(e -> packed.add(e.getName().substring(e.getName().indexOf('/') + 1)));
      built.removeAll(packed);
      assertEquals(List.of(), built, "missing in the zip");
    }
  }

  /** A smaller product is made by its feature file alone, and starts as a user would start it. */
  @ParameterizedTest
  @CsvSource({"batch, tune", "field, plan"})
  void smallerProductsHoldWhatTheirFeatureLists(String name, String command) throws Exception {
    Set<String> listed = new TreeSet<>();
    Feature.read(Installation.BUILT.resolve("features/" + name + ".json"))
        .bundles()
        .forEach(bundle -> listed.add(bundle.fileName()));
    Path zip;
    try (Stream<Path> files = Files.list(Installation.BUILT.resolve("products"))) {
      zip = files.filter(f -> f.toString().endsWith(name + ".zip")).findFirst().orElseThrow();
    }
    Path home = folder.resolve(name);
    Set<String> packed = new TreeSet<>();
    try (ZipFile file = new ZipFile(zip.toFile())) {
      for (ZipEntry entry : Collections.list(file.entries())) {
        Path to = home.resolve(entry.getName().substring(entry.getName().indexOf('/') + 1));
        if (entry.getName().matches("[^/]+/bundles/[^/]+")) {
          packed.add(to.getFileName().toString());
        }
        if (!entry.isDirectory() && to.toString().matches(".*[.](jar|json)")) {
          Files.createDirectories(to.getParent());
          Files.copy(file.getInputStream(entry), to);
        }
      }
    }
    assertEquals(listed, packed);
    Outcome help =
        Installation.run(
            new ProcessBuilder(
                Installation.java(),
                "-jar",
                home.resolve("siltwright.jar").toString(),
                command,
                "--help"));
    assertEquals(0, help.code(), help.toString());
    assertEquals("", help.err());
    assertTrue(help.out().contains("--report"), help.toString());
  }

  /** No screen parts, and so no Swing, in what runs without a window. */
  @ParameterizedTest
  @ValueSource(strings = {"batch", "field"})
  void smallerProductsHaveNoSwingOfOurs(String name) throws Exception {
    for (Feature.Artifact bundle :
        Feature.read(Installation.BUILT.resolve("features/" + name + ".json")).bundles()) {
      try (JarFile jar =
          new JarFile(Installation.BUILT.resolve("bundles/" + bundle.fileName()).toFile())) {
        String imports = jar.getManifest().getMainAttributes().getValue("Import-Package");
        // the chart and SVG libraries cannot be had without their own
        boolean wrapper = bundle.name().startsWith("siltwright-lib-");
        assertTrue(
            wrapper || imports == null || !imports.contains("javax.swing"), bundle.fileName());
      }
    }
  }

  @Test
  void everyThirdPartyBundleIsOnTheListOfLicences() throws Exception {
    String list = Files.readString(Installation.BUILT.resolve("licences/THIRD-PARTY.txt"));
    List<String> absent = new ArrayList<>();
    for (Feature.Artifact bundle : desk()) {
      String coordinates = bundle.group() + ":" + bundle.name() + ":" + bundle.version();
      if (!bundle.group().equals("siltwright") && !list.contains(coordinates)) {
        absent.add(coordinates);
      }
    }
    assertEquals(List.of(), absent);
    assertTrue(list.contains("org.jfree:jfreechart") && list.contains("batik-svggen"), list);
  }

  /** Made by a plugin that works online only; a build without a network goes on without. */
  @Test
  void everyBundleIsOnTheListOfParts() throws Exception {
    Path list = Installation.BUILT.resolve("licences/bill-of-materials.cdx.json");
    assumeTrue(Files.exists(list), "built without a network");
    String parts = Files.readString(list);
    List<String> absent = new ArrayList<>();
    for (Feature.Artifact bundle : desk()) {
      String place = bundle.group() + "/" + bundle.name() + "@" + bundle.version();
      if (!parts.contains("\"pkg:maven/" + place + "?type=jar\"")) {
        absent.add(place);
      }
    }
    assertEquals(List.of(), absent);
    try (ZipFile zip = new ZipFile(distribution().toFile())) {
      assertTrue(
          zip.stream().anyMatch(e -> e.getName().endsWith("licences/" + list.getFileName())));
    }
  }

  private static List<Feature.Artifact> desk() throws Exception {
    return Feature.read(Installation.BUILT.resolve("features/desk.json")).bundles();
  }

  @Test
  void scriptInTheDistributionIsTheOneTested() throws IOException {
    try (ZipFile zip = new ZipFile(distribution().toFile())) {
      String name =
          zip.stream()
              .map(e -> e.getName())
              .filter(n -> n.endsWith("bin/siltwright"))
              .findFirst()
              .orElseThrow();
      try (InputStream in = zip.getInputStream(zip.getEntry(name))) {
        assertEquals(
            Files.readString(Path.of("src/main/dist/bin/siltwright")),
            new String(in.readAllBytes(), StandardCharsets.UTF_8));
      }
    }
  }

  private static Path distribution() throws IOException {
    try (Stream<Path> files = Files.list(Installation.BUILT)) {
      return files.filter(file -> file.toString().endsWith(".zip")).findFirst().orElseThrow();
    }
  }
}
