package siltwright.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.features.Installation.Outcome;
import siltwright.launcher.Feature;
import siltwright.launcher.LaunchException;
import siltwright.launcher.Product;

/** Faults of the input through the whole product: exit code 2, one clear line, no stack trace. */
class BadInputIT {
  private static final Path FLEET = Path.of("..", "demo-data", "three-pits.json");

  @TempDir static Path folder;
  private static Product product;
  private static String demo;

  @BeforeAll
  static void start() throws Exception {
    demo = Files.readString(FLEET);
    product =
        Product.start(
            Feature.read(Installation.BUILT.resolve("features/desk.json")),
            Installation.BUILT.resolve("bundles"),
            folder.resolve("cache"));
  }

  @AfterAll
  static void stop() {
    product.close();
  }

  @Test
  void aTruncatedFileIsNotRead() throws Exception {
    refuses(changed(demo.substring(0, demo.length() / 2)), "fleet.json");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", " ", "null", "[]", "3", "{}", "{\"machines\":[]}", "\u0000", "%PDF-1"})
  void whatIsNoFleetIsNotRead(String text) throws Exception {
    refuses(changed(text), "fleet.json");
  }

  @ParameterizedTest
  @ValueSource(strings = {"NaN", "Infinity", "-1", "1e308", "1e999", "\"620\"", "null", "{}", "01"})
  void aVolumeThatIsNoneIsNamed(String volume) throws Exception {
    String text = demo.replaceFirst("\"volume_L\": *[0-9.]+", "\"volume_L\": " + volume);
    assertFalse(text.equals(demo));
    Outcome outcome = run("tune", changed(text), "--json", "--draws", "0", "--machine", "EX-11");
    assertFault(outcome, "");
    assertTrue(outcome.err().contains("volume_L") || outcome.err().contains("line"), outcome.err());
    assertEquals("", outcome.out());
  }

  @Test
  void aTextOfTenMillionSignsIsNotRead() throws Exception {
    String text = demo.replaceFirst("\"EX-11\"", "\"" + "x".repeat(10_000_000) + "\"");
    assertFalse(text.equals(demo));
    Outcome outcome = run("simulate", changed(text));
    assertFault(outcome, "100000 characters");
    assertTrue(outcome.err().length() < 2000, "a message of " + outcome.err().length());
  }

  @Test
  void machinesOfOneIdAreNamed() throws Exception {
    assertFault(run("simulate", changed(demo.replace("\"EX-12\"", "\"EX-11\""))), "EX-11");
  }

  @ParameterizedTest
  @ValueSource(strings = {"\"siltwright-fleet/99\"", "\"another/1\"", "\"\"", "1", "null"})
  void anUnknownVersionIsNotGuessed(String version) throws Exception {
    String text = demo.replace("\"siltwright-fleet/1\"", version);
    assertFalse(text.equals(demo));
    refuses(changed(text), "/schema");
  }

  @Test
  void theOtherMachinesAreDone() throws Exception {
    String text = demo.replaceFirst("\"volume_L\": *[0-9.]+", "\"volume_L\": -5");
    Outcome outcome = run("simulate", changed(text), "--json");
    assertFault(outcome, "/machines/0");
    assertTrue(
        outcome.err().contains("EX-11") && outcome.err().contains("volume_L"), outcome.err());
    JsonNode json = new ObjectMapper().readTree(outcome.out());
    int all = new ObjectMapper().readTree(demo).get("machines").size();
    assertEquals(all - 1, json.get("machines").size());
    assertEquals("EX-12", json.get("machines").get(0).get("id").asText());
    assertEquals(1, json.get("problems").size());
  }

  @Test
  void filesThatCannotBeReadAreNamed() throws Exception {
    refuses(folder.resolve("none.json"), "none.json");
    refuses(folder, folder.getFileName().toString());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "tune FLEET --machine EX-99; EX-99",
        "simulate FLEET --machine EX-11 --procedure flush; flush",
        "simulate FLEET --machine EX-11 --interval -3; --interval",
        "simulate FLEET --machine EX-11 --interval NaN; --interval",
        "simulate FLEET --cycles 1.5; --cycles",
        "simulate FLEET --cycles 100000000; --cycles",
        "tune FLEET --horizon 1e9; --horizon",
        "tune FLEET --draws -1; --draws",
        "tune FLEET --draws many; --draws",
        "tune FLEET --seed 99999999999999999999; --seed",
        "tune FLEET --seeds 1; --seed",
        "tune FLEET FLEET; three-pits",
        "tune; FILE",
        "tunes FLEET; tune",
        "code --counts 4=-1; --counts",
        "code --counts 4; --counts",
        "code --counts 5=10; --counts",
        "code --code 18/16; --code",
        "life none.csv; none.csv",
        "card FLEET --machine EX-11 --procedure slow-lift; --procedure",
        "card FLEET --machine EX-11 --date 31.12.2026; --date",
        "card FLEET --machine EX-11 --meter -1; --meter",
        "card FLEET --machine EX-11 --language xx; --language",
        "card FLEET --machine EX-11 --template none.json; --template",
        "card FLEET --machine EX-11 --template FLEET; /schema",
        "card FLEET --machine EX-11 --card FOLDER/card.doc; --card",
        "card FLEET --machine EX-11 --card FOLDER/none/card.pdf; --card",
        "card-template --template FLEET; /steps",
        "card-record none.csv; none.csv",
        "training FLEET --use 0; --use",
        "training FLEET --pack FOLDER/none/pack; --pack",
        "element none.csv --limit-kPa 100; none.csv",
        "element FLEET; --limit-kPa",
        "element ../demo-data/pit-element.csv --limit-kPa -1; --limit-kPa",
        "element ../demo-data/pit-element.csv --limit-kPa 100 --train none; --train",
        "restart ../demo-data/pit-samples.csv; --fleet",
        "restart FLEET --fleet FLEET; machine",
        "counter ../demo-data/pit-counter.csv --fleet FLEET --of EX-99; --of",
        "sampling FLEET --bottles 0; --bottles",
        "samples ../demo-data/pit-samples.csv --target 18; --target",
        "fit ../demo-data/pit-samples.csv; --fleet",
        "fit ../demo-data/pit-samples.csv --fleet FLEET --into FLEET; --into",
        "simulate FLEET --machine EX-11 --report FOLDER/none/x.html; --report",
        "simulate FLEET --machine EX-11 --report FOLDER; --report",
        "simulate FLEET --machine EX-11 --csv FOLDER/none/tables; --csv",
      })
  void optionsAtFaultAreNamed(String line) throws Exception {
    String[] parts = line.split("; ");
    List<String> arguments = new ArrayList<>();
    for (String word : parts[0].split(" ")) {
      arguments.add(word.replace("FLEET", FLEET.toString()).replace("FOLDER", folder.toString()));
    }
    arguments.add("--json");
    Outcome outcome = run(arguments.toArray());
    assertFault(outcome, parts[1]);
    assertEquals("", outcome.out());
  }

  @Test
  void aReportThatCannotBeWrittenTakesNothingFromTheResult() throws Exception {
    // A folder in which nobody, not even the superuser, can make a file.
    Path nowhere = Path.of("/proc/self");
    assumeTrue(Files.isDirectory(nowhere));
    Outcome outcome =
        run(
            "simulate",
            FLEET,
            "--machine",
            "EX-11",
            "--json",
            "--report",
            nowhere.resolve("x.html"));
    assertFault(outcome, "x.html");
    new ObjectMapper().readTree(outcome.out());
  }

  private static void refuses(Path file, String named) {
    Outcome outcome = run("simulate", file, "--json");
    assertFault(outcome, named);
    assertEquals("", outcome.out());
  }

  private static Path changed(String text) throws IOException {
    return Files.writeString(folder.resolve("fleet.json"), text);
  }

  private static void assertFault(Outcome outcome, String named) {
    assertEquals(2, outcome.code(), outcome.err());
    assertTrue(outcome.err().contains(named), outcome.err());
    assertFalse(
        outcome.err().contains("Exception") || outcome.err().contains("\tat "), outcome.err());
    assertTrue(outcome.err().lines().allMatch(l -> l.length() < 1000), outcome.err());
  }

  /** Runs a command in this process, with its standard streams kept. */
  private static Outcome run(Object... arguments) {
    PrintStream out = System.out;
    PrintStream err = System.err;
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    ByteArrayOutputStream told = new ByteArrayOutputStream();
    System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
    System.setErr(new PrintStream(told, true, StandardCharsets.UTF_8));
    try {
      String[] texts = Arrays.stream(arguments).map(Object::toString).toArray(String[]::new);
      int code = product.entry().applyAsInt(texts);
      return new Outcome(
          code, printed.toString(StandardCharsets.UTF_8), told.toString(StandardCharsets.UTF_8));
    } catch (LaunchException e) {
      throw new IllegalStateException(e);
    } finally {
      System.setOut(out);
      System.setErr(err);
    }
  }
}
