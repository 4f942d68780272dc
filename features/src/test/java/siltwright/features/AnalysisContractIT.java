package siltwright.features;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiFunction;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.osgi.framework.ServiceReference;
import siltwright.launcher.Feature;
import siltwright.launcher.Product;

/** Every analysis of the product keeps the contract; a new one is covered without a line here. */
class AnalysisContractIT {
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final Path FLEET = DEMO.resolve("three-pits.json");
  private static final Path TABLE = DEMO.resolve("pump-lives.csv");

  private static final ObjectMapper JSON =
      new ObjectMapper()
          .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS);

  @TempDir static Path folder;
  private static Product product;
  private static Map<String, List<String>> breaches;

  @BeforeAll
  static void start() throws Exception {
    Installation installation =
        Installation.copyTo(folder.resolve("home"), folder.resolve("temporary"));
    installation.addBundle(
        "contract",
        "<implementation class='siltwright.features.AnalysisContract'/>"
            + "<service><provide interface='java.util.function.BiFunction'/></service>",
        types());
    Path feature = installation.feature("contract", List.of(), List.of("contract"));
    product =
        Product.start(
            Feature.read(feature), installation.home().resolve("bundles"), folder.resolve("cache"));
    ServiceReference<?> contract = product.context().getServiceReference(BiFunction.class);
    @SuppressWarnings("unchecked") // what the component above is
    BiFunction<String, String, Map<String, List<String>>> check =
        (BiFunction<String, String, Map<String, List<String>>>)
            product.context().getService(contract);
    // what the contract writes stands beside the tables
    Path data = Files.createDirectory(folder.resolve("demo-data"));
    try (Stream<Path> files = Files.list(DEMO)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        Files.copy(file, data.resolve(file.getFileName()));
      }
    }
    Path table = data.resolve(TABLE.getFileName());
    breaches = check.apply(FLEET.toString(), table.toString());
  }

  private static Class<?>[] types() {
    List<Class<?>> types = new ArrayList<>(List.of(AnalysisContract.class));
    types.addAll(List.of(AnalysisContract.class.getDeclaredClasses()));
    return types.toArray(Class<?>[]::new);
  }

  @AfterAll
  static void stop() {
    product.close();
  }

  @Test
  void theProductsAnalysesAreLookedAt() {
    Set<String> ids = new TreeSet<>();
    breaches.keySet().forEach(command -> ids.add(command.split(" ")[0]));
    assertTrue(
        ids.containsAll(
            Set.of(
                "code",
                "simulate",
                "tune",
                "life",
                "bearing",
                "seal-ring",
                "plug-torque",
                "element",
                "restart",
                "sampling",
                "fit",
                "samples")),
        ids.toString());
  }

  @TestFactory
  Stream<DynamicTest> keepsTheContract() {
    return breaches.entrySet().stream()
        .map(e -> dynamicTest(e.getKey(), () -> assertEquals(List.of(), e.getValue())));
  }

  /** Outside check: an independent validator of JSON Schema (networknt) on the published schema. */
  @TestFactory
  Stream<DynamicTest> printsTheJsonOfTheSchema() throws Exception {
    JsonSchema schema =
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(
                JSON.readTree(Path.of("..", "docs", "schema", "result-1.schema.json").toFile()));
    return breaches.keySet().stream()
        .map(
            command ->
                dynamicTest(
                    command,
                    () -> {
                      String text = printedBy(command + " --json");
                      JsonNode node = JSON.readTree(text);
                      assertEquals(Set.of(), schema.validate(node));
                      assertEquals(node, JSON.readTree(node.toString()));
                    }));
  }

  private static String printedBy(String command) throws Exception {
    PrintStream out = System.out;
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    System.setOut(new PrintStream(printed, true, UTF_8));
    try {
      assertEquals(0, product.entry().applyAsInt(command.split(" ")));
    } finally {
      System.setOut(out);
    }
    return printed.toString(UTF_8);
  }
}
