package siltwright.features;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicNode;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.osgi.framework.Bundle;
import org.osgi.framework.ServiceReference;
import org.osgi.framework.wiring.BundleWire;
import org.osgi.framework.wiring.BundleWiring;
import siltwright.launcher.Feature;
import siltwright.launcher.Product;

/** Any bundle with an analysis can be left out of any product, which goes on without it. */
class DropIT {
  private static final List<String> OFFERS =
      List.of("siltwright.analysis.Analysis", "siltwright.analysis.Action");

  @TempDir Path folder;
  private int started;

  private static final String COMMAND = "siltwright.command";

  /** What a whole product offers: commands by bundle, and the bundles that each builds on. */
  private record Whole(Map<String, Set<String>> commands, Map<String, Set<String>> needs) {
    /** The commands that stay when a bundle goes. */
    Set<String> without(String bundle) {
      Set<String> left = new TreeSet<>();
      commands.forEach(
          (of, ids) -> {
            if (!of.equals(bundle) && !needs.get(of).contains(bundle)) {
              left.addAll(ids);
            }
          });
      return left;
    }
  }

  @TestFactory
  Stream<DynamicNode> productsWorkWithoutAnyOneAnalysis() {
    return Stream.of("desk", "batch", "field").flatMap(this::each);
  }

  private Stream<DynamicTest> each(String name) {
    try {
      Feature feature = Feature.read(Installation.BUILT.resolve("features/" + name + ".json"));
      Whole whole = whole(feature);
      assertTrue(whole.commands().size() > 2, whole.toString());
      return whole.commands().keySet().stream()
          // what the command line itself is made of is no analysis
          .filter(bundle -> !whole.needs().get(COMMAND).contains(bundle))
          .map(
              bundle ->
                  dynamicTest(
                      name + " without " + bundle, () -> worksWithout(feature, whole, bundle)));
    } catch (Exception e) {
      throw new IllegalStateException(name, e);
    }
  }

  private void worksWithout(Feature feature, Whole whole, String bundle) throws Exception {
    List<Feature.Artifact> rest = new ArrayList<>(feature.bundles());
    assertTrue(rest.removeIf(a -> a.name().replace('-', '.').equals(bundle)), bundle);
    Set<String> left = whole.without(bundle);
    assertFalse(left.isEmpty(), bundle);
    PrintStream err = System.err;
    ByteArrayOutputStream told = new ByteArrayOutputStream();
    System.setErr(new PrintStream(told, true, UTF_8));
    try (Product product = start(new Feature(feature.id(), rest))) {
      product.startWindow();
      String help = printedBy(product, "--help");
      for (Set<String> ids : whole.commands().values()) {
        for (String id : ids) {
          boolean listed = help.lines().anyMatch(line -> line.startsWith("  " + id + " "));
          assertEquals(left.contains(id), listed, id + "\n" + help);
        }
      }
      printedBy(product, "help", left.iterator().next());
    } finally {
      System.setErr(err);
    }
    // what builds on the bundle is named, and what it lacks
    String text = told.toString(UTF_8);
    boolean alone = whole.needs().values().stream().noneMatch(n -> n.contains(bundle));
    assertEquals(alone, text.isEmpty(), text);
    assertFalse(text.contains("\tat "), text);
    assertTrue(alone || text.contains("it needs package " + bundle), text);
  }

  private Product start(Feature feature) throws Exception {
    return Product.start(
        feature, Installation.BUILT.resolve("bundles"), folder.resolve("framework" + started++));
  }

  private static String printedBy(Product product, String... arguments) throws Exception {
    PrintStream out = System.out;
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    System.setOut(new PrintStream(printed, true, UTF_8));
    try {
      assertEquals(0, product.entry().applyAsInt(arguments));
    } finally {
      System.setOut(out);
    }
    return printed.toString(UTF_8);
  }

  private Whole whole(Feature feature) throws Exception {
    Map<String, Set<String>> commands = new TreeMap<>();
    Map<String, Set<String>> needs = new TreeMap<>();
    try (Product product = start(feature)) {
      product.startWindow();
      for (Bundle bundle : product.context().getBundles()) {
        needs.put(bundle.getSymbolicName(), new TreeSet<>());
        addNeeds(bundle, needs.get(bundle.getSymbolicName()));
      }
      for (String type : OFFERS) {
        ServiceReference<?>[] offers = product.context().getAllServiceReferences(type, null);
        for (ServiceReference<?> offer : offers == null ? new ServiceReference<?>[0] : offers) {
          Object service = product.context().getService(offer);
          Object description = service.getClass().getMethod("description").invoke(service);
          commands
              .computeIfAbsent(offer.getBundle().getSymbolicName(), b -> new TreeSet<>())
              .add(description.getClass().getMethod("id").invoke(description).toString());
        }
      }
    }
    return new Whole(commands, needs);
  }

  private static void addNeeds(Bundle bundle, Set<String> needs) {
    BundleWiring wiring = bundle.adapt(BundleWiring.class);
    if (wiring == null) {
      return;
    }
    for (BundleWire wire : wiring.getRequiredWires("osgi.wiring.package")) {
      Bundle provider = wire.getProviderWiring().getBundle();
      if (needs.add(provider.getSymbolicName())) {
        addNeeds(provider, needs);
      }
    }
  }

  @ParameterizedTest
  @CsvSource({"batch, tune, card, open", "field, card, plan, tune"})
  void smallerProductsHaveTheirCommandsAlone(String name, String one, String two, String not)
      throws Exception {
    Set<String> commands = new TreeSet<>();
    whole(Feature.read(Installation.BUILT.resolve("features/" + name + ".json")))
        .commands()
        .values()
        .forEach(commands::addAll);
    assertTrue(commands.contains(one) && commands.contains(two), commands.toString());
    assertFalse(commands.contains(not), commands.toString());
  }
}
