package siltwright.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.felix.feature.impl.FeatureServiceImpl;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.osgi.framework.Bundle;
import org.osgi.framework.ServiceReference;
import org.osgi.framework.wiring.BundleCapability;
import org.osgi.framework.wiring.BundleRevision;
import org.osgi.service.feature.FeatureBundle;
import siltwright.launcher.Feature;
import siltwright.launcher.Product;

/** Every feature file of the build is valid and starts whole. */
class FeatureFilesIT {

  private static final Path BUNDLES = Installation.BUILT.resolve("bundles");

  @TempDir Path storage;

  static List<Path> featureFiles() throws IOException {
    try (Stream<Path> files = Files.list(Installation.BUILT.resolve("features"))) {
      return files.toList();
    }
  }

  /** Outside check: the reference implementation of the OSGi Feature Service, Apache Felix's. */
  @ParameterizedTest
  @MethodSource("featureFiles")
  void anotherReaderOfFeatureFilesFindsTheSame(Path file) throws Exception {
    org.osgi.service.feature.Feature other;
    try (Reader text = Files.newBufferedReader(file)) {
      other = new FeatureServiceImpl().readFeature(text);
    }
    Set<String> theirs = new TreeSet<>();
    for (FeatureBundle bundle : other.getBundles()) {
      theirs.add(bundle.getID() + " " + bundle.getMetadata().get("start-order"));
    }
    Feature feature = Feature.read(file);
    Set<String> ours = new TreeSet<>();
    for (Feature.Artifact bundle : feature.bundles()) {
      Object order = bundle.startOrder() == Integer.MAX_VALUE ? null : bundle.startOrder();
      ours.add(bundle.group() + ":" + bundle.name() + ":" + bundle.version() + " " + order);
    }
    assertEquals(theirs, ours);
    assertEquals(other.getID().toString(), feature.id());
  }

  @ParameterizedTest
  @MethodSource("featureFiles")
  void everyBundleIsActiveAndEveryComponentSatisfied(Path file) throws Exception {
    Feature feature = Feature.read(file);
    try (Product product = Product.start(feature, BUNDLES, storage.resolve("framework"))) {
      product.startWindow();
      List<String> idle = new ArrayList<>();
      Set<String> notStarted = new TreeSet<>();
      for (Feature.Artifact artifact : feature.bundles()) {
        if (!artifact.started()) {
          notStarted.add(artifact.fileName());
        }
      }
      for (Bundle bundle : product.context().getBundles()) {
        boolean library = notStarted.stream().anyMatch(bundle.getLocation()::endsWith);
        if (bundle.getState() != (library ? Bundle.RESOLVED : Bundle.ACTIVE)) {
          idle.add(bundle + " is in state " + bundle.getState());
        }
      }
      assertEquals(List.of(), idle);
      assertEquals(feature.bundles().size() + 1, product.context().getBundles().length);
      assertEquals(List.of(), product.faultyComponents());
    }
  }

  /**
   * What a bundle declares decides for which commands it is started: all that it brings, or none.
   */
  @Test
  void bundlesDeclareTheCommandsThatTheyBring() throws Exception {
    Feature feature = Feature.read(Installation.BUILT.resolve("features/desk.json"));
    try (Product product = Product.start(feature, BUNDLES, storage.resolve("framework"))) {
      Map<String, Set<String>> brought = new TreeMap<>();
      for (String type : List.of("Analysis", "Action")) {
        for (ServiceReference<?> service :
            product.context().getAllServiceReferences("siltwright.analysis." + type, null)) {
          brought
              .computeIfAbsent(service.getBundle().getSymbolicName(), b -> new TreeSet<>())
              .add(id(product.context().getService(service)));
        }
      }
      Map<String, Set<String>> declared = new TreeMap<>();
      for (Bundle bundle : product.context().getBundles()) {
        for (BundleCapability command :
            bundle.adapt(BundleRevision.class).getDeclaredCapabilities("siltwright.command")) {
          declared
              .computeIfAbsent(bundle.getSymbolicName(), b -> new TreeSet<>())
              .add(String.valueOf(command.getAttributes().get("siltwright.command")));
        }
      }
      // the one tells what is there, the other is there for the records of all
      brought.keySet().removeAll(List.of("siltwright.addons", "siltwright.store"));
      assertEquals(brought, declared);
    }
  }

  /** The interface is the bundles' own: this test has another of the same name. */
  private static String id(Object service) throws ReflectiveOperationException {
    Object description = service.getClass().getMethod("description").invoke(service);
    return String.valueOf(description.getClass().getMethod("id").invoke(description));
  }

  /** Who adds a bundle to one adds it to the other. */
  @Test
  void batchIsTheDeskWithoutItsWindow() throws Exception {
    List<Feature.Artifact> desk =
        new ArrayList<>(Feature.read(Installation.BUILT.resolve("features/desk.json")).bundles());
    desk.removeIf(bundle -> bundle.stage() == Feature.Stage.WINDOW);
    assertEquals(
        lines(desk),
        lines(Feature.read(Installation.BUILT.resolve("features/batch.json")).bundles()));
  }

  /** Without the places in the starting order, which only a window needs. */
  private static Set<String> lines(List<Feature.Artifact> bundles) {
    Set<String> lines = new TreeSet<>();
    bundles.forEach(b -> lines.add(b.fileName() + " " + b.stage() + " " + b.started()));
    return lines;
  }

  /**
   * The POM makes jars available, the feature files use them: neither knows more than the other.
   */
  @Test
  void featureFilesAndPomAgreeOnTheBundles() throws Exception {
    Set<String> listed = new TreeSet<>();
    for (Path file : featureFiles()) {
      Feature.read(file).bundles().forEach(bundle -> listed.add(bundle.fileName()));
    }
    Set<String> available = new TreeSet<>();
    try (Stream<Path> jars = Files.list(BUNDLES)) {
      jars.forEach(jar -> available.add(jar.getFileName().toString()));
    }
    assertEquals(listed, available);
    assertTrue(listed.size() > 1);
  }
}
