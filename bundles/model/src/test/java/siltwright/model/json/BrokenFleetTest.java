package siltwright.model.json;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.model.InputException;
import siltwright.model.Machine;

/** Each broken file gets exactly its line. The files are the full one with one thing wrong. */
class BrokenFleetTest {
  private static final String LIMITS =
      "expected at most 32 levels of nesting, 100000 characters in a text, 1000 in a key, 100 in a"
          + " number and 64 MiB in all";

  @ParameterizedTest
  @CsvFileSource(resources = "broken.tsv", delimiter = '\t', quoteCharacter = '`')
  void brokenValueGetsItsLine(
      String pointer, String value, String scope, String schema, String line) throws IOException {
    JsonNode broken = FleetSamples.with(pointer, value);
    byte[] bytes = FleetSamples.MAPPER.writeValueAsBytes(broken);

    if (scope.equals("file")) {
      assertEquals(line, refusal(bytes));
    } else {
      FleetFile file = FleetReader.read(bytes, "fleet.json");
      assertEquals(List.of(line), file.problems().stream().map(Object::toString).toList());
      assertEquals(1, file.fleet().machines().size());
    }
    assertEquals(schema.equals("refuses"), !FleetSchemas.errors(broken).isEmpty(), "schema");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("documents")
  void brokenDocumentGetsItsLine(String name, String document, String line) {
    assertEquals("fleet.json" + line, refusal(document.getBytes(StandardCharsets.UTF_8)));
  }

  static Stream<Arguments> documents() {
    String full = FleetSamples.full();
    String volume = "\"volume_L\": 350";
    return Stream.of(
        Arguments.of("empty", "", " line 1, column 1: found nothing; expected a JSON object"),
        Arguments.of("blank", " \n", " line 1, column 1: found nothing; expected a JSON object"),
        Arguments.of(
            "list",
            "[]",
            ": found a list of 0; expected a JSON object with the key schema and others"),
        Arguments.of(
            "text",
            "\"x\"",
            ": found \"x\"; expected a JSON object with the key schema and others"),
        Arguments.of(
            "null", "null", ": found null; expected a JSON object with the key schema and others"),
        Arguments.of(
            "truncated",
            full.substring(0, full.indexOf(volume)),
            " line 80, column 21: found the end of the file; expected the rest of the JSON document"),
        Arguments.of(
            "truncated in a text",
            full.substring(0, full.indexOf("fleet\",")),
            " line 3, column 17: found the end of the file; expected the rest of the JSON document"),
        Arguments.of(
            "more after it",
            full + "{}",
            " line 201, column 1: found more; expected the end of the file"),
        Arguments.of(
            "text after it", full + "end", " line 201, column 1: found end; expected valid JSON"),
        Arguments.of(
            "not a number",
            full.replace(volume, "\"volume_L\": NaN"),
            " line 80, column 36: found \"volume_L\": NaN, \"pressurised\"; expected valid JSON"),
        Arguments.of(
            "infinite",
            full.replace(volume, "\"volume_L\": -Infinity"),
            " line 80, column 42: found e_L\": -Infinity, \"pressurised\"; expected valid JSON"),
        Arguments.of(
            "comma too many",
            full.replace(volume, volume + ","),
            " line 80, column 37: found volume_L\": 350,, \"pressurised\"; expected valid JSON"),
        Arguments.of(
            "comma missing",
            full.replace(volume + ",", volume),
            " line 80, column 37: found volume_L\": 350 \"pressurised\":; expected valid JSON"),
        Arguments.of(
            "comment",
            full.replace(volume, "/* tank */ " + volume),
            " line 80, column 21: found \"reservoir\": {/* tank */ \"vol; expected valid JSON"),
        Arguments.of(
            "single quotes",
            "{'schema': 1}",
            " line 1, column 2: found {'schema': 1}; expected valid JSON"),
        Arguments.of(
            "leading zero",
            full.replace(volume, "\"volume_L\": 0350"),
            " line 80, column 34: found {\"volume_L\": 0350, \"pressuris; expected valid JSON"),
        Arguments.of(
            "decimal comma",
            full.replace(volume, "\"volume_L\": 350,5"),
            " line 80, column 37: found volume_L\": 350,5, \"pressurised; expected valid JSON"),
        Arguments.of(
            "key twice",
            full.replace(volume, volume + ", " + volume),
            " line 80, column 48: found 350, \"volume_L\": 350, \"pressur, a key that was there"
                + " before; expected each key once in an object"),
        Arguments.of(
            "exponent too long",
            full.replace(volume, "\"volume_L\": 1e99999999999"),
            " line 80, column 46: found : 1e99999999999, \"pressurised\"; expected a number of"
                + " at most 100 characters within ±1e308"),
        Arguments.of(
            "number too long",
            full.replace(volume, "\"volume_L\": " + "3".repeat(101)),
            " line 80, column 134: found something too long or too deep; " + LIMITS),
        Arguments.of(
            "text of 10 MB",
            full.replace("Test fleet", "x".repeat(10_000_000)),
            " line 3, column 131085: found something too long or too deep; " + LIMITS),
        Arguments.of(
            "key too long",
            full.replace("\"note\"", '"' + "x".repeat(2000) + '"'),
            " line 4, column 2005: found something too long or too deep; " + LIMITS),
        Arguments.of(
            "nested too deep",
            full.replace("350", "[".repeat(5000) + "]".repeat(5000)),
            " line 80, column 62: found something too long or too deep; " + LIMITS));
  }

  @Test
  void textThatIsNotUtf8IsRefused() {
    byte[] latin1 =
        FleetSamples.full().replace("Test", "Tést").getBytes(StandardCharsets.ISO_8859_1);
    assertEquals("fleet.json byte 49: found 0xE9; expected text in UTF-8", refusal(latin1));
    byte[] utf16 = FleetSamples.full().getBytes(StandardCharsets.UTF_16);
    assertEquals("fleet.json byte 1: found 0xFE; expected text in UTF-8", refusal(utf16));
  }

  @Test
  void longTextOfTheRightTypeIsShortenedInTheLine() {
    JsonNode broken = FleetSamples.with("/name", '"' + "x".repeat(90_000) + '"');
    assertEquals(
        "fleet.json /name: found \""
            + "x".repeat(40)
            + "…\"; expected a text on one line, not empty, at most 200 characters",
        refusal(broken.toString().getBytes(StandardCharsets.UTF_8)));
  }

  @Test
  void allProblemsOfAMachineAreToldAndTheOthersRead() {
    String broken =
        FleetSamples.full()
            .replace("\"volume_L\": 350", "\"volume_L\": -350")
            .replace(
                "\"site\": \"quarry\",\n      \"reservoir\": {\"volume_L\": -",
                "\"reservoir\": {\"volume_L\": -");
    FleetFile file = FleetReader.read(broken.getBytes(StandardCharsets.UTF_8), "fleet.json");
    assertEquals(
        List.of(
            "fleet.json machine EX-01 /machines/0/site: found nothing; expected "
                + FleetForms.ID.expected(),
            "fleet.json machine EX-01 /machines/0/reservoir/volume_L: found -350; expected a number"
                + " from 0.01 to 1000000 L"),
        file.problems().stream().map(Object::toString).toList());
    assertEquals(List.of("EX-02"), file.fleet().machines().stream().map(Machine::id).toList());
  }

  @Test
  void allProblemsOutsideTheMachinesAreTold() {
    String broken =
        FleetSamples.full()
            .replace("\"currency\": \"EUR\"", "\"currency\": \"EURO\"")
            .replace("\"capacity_g\": 120", "\"capacity_g\": 0");
    assertEquals(
        "fleet.json /currency: found \"EURO\"; expected a currency code of ISO 4217, such as EUR\n"
            + "fleet.json /elements/fine/capacity_g: found 0; expected a number from 0.01 to 100000 g",
        refusal(broken.getBytes(StandardCharsets.UTF_8)));
  }

  @Test
  void fileThatIsNotThereGetsALine(@TempDir Path folder) {
    Path missing = folder.resolve("none.json");
    assertEquals(missing + ": found no such file; expected a fleet file (JSON)", refusal(missing));
    assertEquals(folder + ": found a directory; expected a fleet file (JSON)", refusal(folder));
  }

  @Test
  void fileTooLongIsRefused(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("long.json");
    Files.write(file, new byte[FleetDocument.LONGEST_DOCUMENT + 1]);
    assertEquals(file + ": found a longer file; expected at most 64 MiB", refusal(file));
  }

  /** A document cut off, or with a character lost or changed, is read or gets its lines. */
  @Test
  void noDamageBringsAnotherException() {
    String full = FleetSamples.full();
    for (int i = 0; i < full.length(); i += 23) {
      mayRefuse(full.substring(0, i));
      mayRefuse(full.substring(0, i) + full.substring(i + 1));
      mayRefuse(full.substring(0, i) + "9" + full.substring(i + 1));
    }
  }

  private static void mayRefuse(String document) {
    List<String> lines;
    try {
      lines =
          FleetReader.read(document.getBytes(StandardCharsets.UTF_8), "fleet.json")
              .problems()
              .stream()
              .map(Object::toString)
              .toList();
    } catch (InputException e) {
      lines = e.getMessage().lines().toList();
    }
    for (String line : lines) {
      assertTrue(line.startsWith("fleet.json "), line);
      assertFalse(line.contains("java") || line.contains("jackson"), line);
    }
  }

  private static String refusal(byte[] bytes) {
    return assertThrows(InputException.class, () -> FleetReader.read(bytes, "fleet.json"))
        .getMessage();
  }

  private static String refusal(Path file) {
    return assertThrows(InputException.class, () -> FleetReader.read(file)).getMessage();
  }
}
