package siltwright.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.features.Installation.Outcome;

/** Records become a life in a fleet file, from which the next command draws. */
class LifeIntoFleetIT {
  private static final Path DEMO = Path.of("..", "demo-data").toAbsolutePath();
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir static Path folder;
  private static Path fleet;
  private static JsonNode fit;

  @BeforeAll
  static void lifeGoesIntoTheFile() throws Exception {
    fleet = folder.resolve("fleet.json");
    Files.copy(DEMO.resolve("three-pits.json"), fleet);
    Outcome life =
        run(
            "life",
            DEMO.resolve("pump-lives.csv").toString(),
            "--clean-column",
            "code",
            "--distribution",
            "weibull",
            "--into",
            fleet.toString(),
            "--component",
            "axial piston pump",
            "--json");
    assertEquals(0, life.code(), life.err());
    assertTrue(life.err().contains("36 numbers of 12 machines revised"), life.err());
    fit = JSON.readTree(life.out()).get("fits").get(0);
  }

  @Test
  void everythingElseStaysByteForByte() throws Exception {
    String before = Files.readString(DEMO.resolve("three-pits.json"));
    String after = Files.readString(fleet);
    // What is revised, taken out of both; one machine has told its pump's uncertainty on four
    // lines.
    String told =
        " *\\{\\s*\"parameter(\": \"|s\": \\[\")components/pump/(life/(scale_h|shape)|exponent)\"[^}]*\\},?\n";
    assertEquals(numberless(before.replaceAll(told, "")), numberless(after.replaceAll(told, "")));
    String[] lines = before.replaceAll(told, "").split("\n", -1);
    String[] now = after.replaceAll(told, "").split("\n", -1);
    List<String> revised = new ArrayList<>();
    for (int i = 0; i < lines.length; i++) {
      if (!lines[i].equals(now[i])) {
        revised.add(now[i].contains("\"exponent\"") ? "exponent" : "life");
      }
    }
    assertEquals(24, revised.size());
    String joint =
        "{\"parameters\": [\"components/pump/life/shape\", \"components/pump/life/scale_h\","
            + " \"components/pump/exponent\"], \"distribution\": \"joint-lognormal\"";
    assertEquals(12, after.split(Pattern.quote(joint), -1).length - 1);
    for (String kind : List.of("exponent", "life")) {
      assertEquals(12, revised.stream().filter(kind::equals).count(), kind);
    }
    JsonNode pump = machine(JSON.readTree(fleet.toFile())).get("components").get(0);
    assertEquals(
        fit.get("parameters").get("shape").asDouble(),
        pump.get("life").get("shape").asDouble(),
        1e-8);
    assertEquals(
        -fit.get("coefficients").get("code").asDouble() / Math.log(2),
        pump.get("exponent").asDouble(),
        1e-8);
  }

  /** Wald errors and their correlation come from the fit; without the one the draws are others. */
  @Test
  void tuneDrawsTheNumbersTogether() throws Exception {
    JsonNode covariance = null;
    for (JsonNode u : machine(JSON.readTree(fleet.toFile())).get("uncertainty")) {
      covariance = u.has("logCovariance") ? u.get("logCovariance") : covariance;
    }
    double logShape =
        fit.get("standardErrors").get("shape").asDouble()
            / fit.get("parameters").get("shape").asDouble();
    assertEquals(logShape * logShape, covariance.get(0).get(0).asDouble(), 1e-9);
    JsonNode together = band(Files.readString(fleet));
    JsonNode apart =
        band(
            Files.readString(fleet)
                .replaceAll(
                    "(\"logCovariance\": )\\[\\[([^,]+), [^,]+, [^,]+\\], \\[[^,]+, ([^,]+), [^,]+\\],"
                        + " \\[[^,]+, [^,]+, ([^,]+)\\]\\]",
                    "$1[[$2, 0, 0], [0, $3, 0], [0, 0, $4]]"));
    JsonNode known =
        band(
            Files.readString(fleet)
                .replaceAll(
                    "(\"logCovariance\": )\\[\\[.*\\]\\]",
                    "$1[[1e-12, 0, 0], [0, 1e-12, 0], [0, 0, 1e-12]]"));
    assertNotEquals(together, apart);
    assertNotEquals(together, known);
    assertNotEquals(apart, known);
    assertEquals(together, band(Files.readString(fleet)), "the same seed gives the same");
  }

  /** Takes the numbers out of the lines that may be revised; all other lines stay as they are. */
  private static String numberless(String text) {
    return Pattern.compile("(?m)^ *\"(exponent|life)\": .*$")
        .matcher(text)
        .replaceAll(m -> m.group().replaceAll("[-0-9.]+", "#"));
  }

  private static JsonNode band(String text) throws Exception {
    Path file = Files.writeString(folder.resolve("other.json"), text);
    Outcome tune =
        run(
            "tune",
            file.toString(),
            "--machine",
            "EX-11",
            "--draws",
            "20",
            "--seed",
            "7",
            "--json");
    assertEquals(0, tune.code(), tune.err());
    return JSON.readTree(tune.out()).get("uncertainty").get("costPerHour90");
  }

  private static JsonNode machine(JsonNode file) {
    for (JsonNode m : file.get("machines")) {
      if (m.get("id").asText().equals("EX-11")) {
        return m;
      }
    }
    throw new AssertionError("no EX-11");
  }

  private static Outcome run(String... arguments) throws Exception {
    List<String> command = Installation.quickJava();
    command.add("-jar");
    command.add(Installation.BUILT.resolve("siltwright.jar").toString());
    command.addAll(List.of(arguments));
    return Installation.run(new ProcessBuilder(command));
  }
}
