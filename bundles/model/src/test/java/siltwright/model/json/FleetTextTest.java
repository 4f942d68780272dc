package siltwright.model.json;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import siltwright.model.Fleet;
import siltwright.model.InputException;

class FleetTextTest {
  private static byte[] demo;

  @BeforeAll
  static void readDemo() throws IOException {
    demo = Files.readAllBytes(Path.of("../../demo-data/three-pits.json"));
  }

  private static FleetText text() {
    return FleetText.of(demo, "three-pits.json", Extensions.UNASKED);
  }

  @Test
  void withoutEditsItIsTheBytesThatWereRead() {
    assertArrayEquals(demo, text().bytes());
    assertTrue(same(FleetReader.read(demo, "three-pits.json").fleet(), text().fleet()));
  }

  /** Some records hold arrays or lambdas, which are equal by address only. */
  private static boolean same(Fleet a, Fleet b) {
    String address = "@[0-9a-f]+";
    return a.toString().replaceAll(address, "").equals(b.toString().replaceAll(address, ""));
  }

  @Test
  void numberIsPutInPlaceAndNothingElseMoves() {
    FleetText before = text();
    String pointer = before.pointer("EX-11").orElseThrow();
    FleetText after = before.edited(List.of(Edit.number(pointer + "/today/interval_h", 740)));
    assertEquals(740, after.fleet().machine("EX-11").orElseThrow().today().intervalH());
    assertEquals(
        new String(demo, UTF_8)
            .replaceFirst(
                "\"today\": \\{\"interval_h\": 500, \"procedure\": \"pull-in-place\"",
                "\"today\": {\"interval_h\": 740, \"procedure\": \"pull-in-place\""),
        new String(after.bytes(), UTF_8));
    // what was not touched is shared
    assertSame(before.fleet().machines().get(1), after.fleet().machines().get(1));
  }

  @Test
  void whatTheReaderRefusesIsNotMade() {
    FleetText text = text();
    InputException e =
        assertThrows(
            InputException.class,
            () -> text.edited(List.of(Edit.number("/machines/0/reservoir/volume_L", -1))));
    assertTrue(e.getMessage().contains("/machines/0/reservoir/volume_L"), e.getMessage());
    assertThrows(
        InputException.class, () -> text.edited(List.of(Edit.number("/machines/99/x", 1))));
    assertThrows(InputException.class, () -> text.edited(List.of(Edit.json("/machines/0/x", "{"))));
    assertThrows(
        InputException.class,
        () -> text.edited(List.of(Edit.text("/machines/1/id", "EX-11"))),
        "an id twice");
  }

  @Test
  void idMayChangeAndSharedDataTakesPart() {
    FleetText text = text();
    assertTrue(text.edited(List.of(Edit.text("/machines/0/id", "EX-19"))).ids().contains("EX-19"));
    FleetText priced = text.edited(List.of(Edit.number("/elements/mat-m/price_money", 111)));
    assertEquals(
        111, priced.fleet().machine("EX-11").orElseThrow().returnFilter().element().priceMoney());
  }

  @Test
  void keysAndItemsComeAndGoInTheMannerOfTheFile() {
    assertEdited("{\"a\": 1}", Edit.number("/b", 2), "{\"a\": 1, \"b\": 2}");
    assertEdited("{\n  \"a\": 1\n}", Edit.number("/b", 2), "{\n  \"a\": 1,\n  \"b\": 2\n}");
    assertEdited("{}", Edit.text("/a~1b", "x\"y"), "{\"a/b\": \"x\\\"y\"}");
    assertEdited("{\"a\": 1, \"b\": 2}", Edit.removal("/a"), "{\"b\": 2}");
    assertEdited("{\"a\": 1, \"b\": 2}", Edit.removal("/b"), "{\"a\": 1}");
    assertEdited("{ \"a\": 1 }", Edit.removal("/a"), "{}");
    assertEdited("{\"a\": [1, 2]}", Edit.number("/a/-", 3), "{\"a\": [1, 2, 3]}");
    assertEdited("{\"a\": [1, 2]}", Edit.removal("/a/0"), "{\"a\": [2]}");
    assertEdited("[[], 4]", Edit.flag("/0/0", true), "[[true], 4]");
    assertEdited("{\"a\": 1}", Edit.removal("/none"), "{\"a\": 1}");
  }

  private static void assertEdited(String before, Edit edit, String after) {
    byte[] bytes = Spliced.edited(before.getBytes(UTF_8), "x", edit.pointer(), edit);
    assertEquals(after, new String(bytes, UTF_8));
  }

  /** Cross-check: Jackson's tree, changed by its own methods, is what the bytes parse to. */
  @Test
  void editedBytesParseToWhatAnotherEditorMakes() throws IOException {
    ObjectMapper mapper = new ObjectMapper();
    Random random = new Random(11);
    FleetText text = text();
    JsonNode tree = mapper.readTree(demo);
    for (int i = 0; i < 200; i++) {
      int machine = random.nextInt(text.ids().size());
      double volume = 100 + random.nextInt(1000) / 8.0;
      text =
          text.edited(List.of(Edit.number("/machines/" + machine + "/reservoir/volume_L", volume)));
      ((ObjectNode) tree.get("machines").get(machine).get("reservoir")).put("volume_L", volume);
    }
    JsonNode now = mapper.readTree(text.bytes());
    for (int m = 0; m < text.ids().size(); m++) {
      assertEquals(
          tree.at("/machines/" + m + "/reservoir/volume_L").doubleValue(),
          now.at("/machines/" + m + "/reservoir/volume_L").doubleValue());
    }
    assertTrue(same(FleetReader.read(text.bytes(), "three-pits.json").fleet(), text.fleet()));
  }

  @Test
  void fieldsTellUnitRangeAndChoices() {
    List<Field> fields = text().fields("/machines/0");
    Field reservoir = field(fields, "reservoir");
    Field volume = field(reservoir.parts(), "volume");
    assertEquals("/machines/0/reservoir/volume_L", volume.pointer());
    assertEquals("L", volume.unit());
    assertEquals("240", volume.value().orElseThrow());
    assertTrue(volume.expected().contains("L"), volume.expected());
    assertTrue(field(fields, "fluid").choices().contains("vg-46"));
    assertTrue(field(fields, "pressureFilter").value().isEmpty());
    assertEquals(4, field(fields, "duty").parts().size());
    assertTrue(text().fields("/machines/500").isEmpty());
    assertTrue(text().fields("").stream().anyMatch(f -> f.key().equals("elements")));
  }

  private static Field field(List<Field> fields, String key) {
    return fields.stream().filter(f -> f.key().equals(key)).findFirst().orElseThrow();
  }
}
