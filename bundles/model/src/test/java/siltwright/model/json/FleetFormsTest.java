package siltwright.model.json;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SpecVersion;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import siltwright.model.MachineParameter;
import siltwright.model.json.Shape.Apart;
import siltwright.model.json.Shape.Catalogue;
import siltwright.model.json.Shape.Choice;
import siltwright.model.json.Shape.Flag;
import siltwright.model.json.Shape.Form;
import siltwright.model.json.Shape.Key;
import siltwright.model.json.Shape.ListOf;
import siltwright.model.json.Shape.Num;
import siltwright.model.json.Shape.Text;
import siltwright.model.json.Shape.Word;

/** The reader, the published schema and the manual say the same of every key. */
class FleetFormsTest {
  @Test
  void schemaIsRightItself() {
    assertEquals(
        Set.of(),
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(SchemaLocation.of(FleetSchemas.TREE.get("$schema").textValue()))
            .validate(FleetSchemas.TREE));
  }

  @TestFactory
  List<DynamicTest> schemaAgreesWithReader() {
    return forms().values().stream()
        .map(form -> DynamicTest.dynamicTest(form.title(), () -> compare(form, schemaOf(form))))
        .toList();
  }

  @Test
  void schemaHasNoFormsBesides() {
    Set<String> expected =
        forms().keySet().stream()
            .filter(title -> !title.equals("fleet"))
            .map(FleetFormsTest::definition)
            .collect(Collectors.toCollection(TreeSet::new));
    expected.add("id");
    assertEquals(expected, names(FleetSchemas.TREE.get("$defs")));
  }

  @Test
  void manualAgreesWithReader() {
    Map<String, List<String>> expected = new LinkedHashMap<>();
    forms()
        .forEach(
            (title, form) ->
                expected.put(title, form.keys().stream().map(FleetFormsTest::row).toList()));
    assertEquals(expected, manual());
  }

  @Test
  void manualNamesEveryUncertainNumber() {
    String manual = FleetSchemas.text("file-format.md");
    for (String path : MachineParameter.forms()) {
      assertTrue(manual.contains("| `" + path + "` |"), path);
    }
  }

  @Test
  void everyUncertainNumberHasARange() {
    for (String path : MachineParameter.forms()) {
      Num range = FleetForms.range(MachineParameter.parse(path).orElseThrow());
      assertTrue(range.least() < range.most(), path);
    }
  }

  private static Map<String, Form> forms() {
    Map<String, Form> forms = new LinkedHashMap<>();
    collect(FleetForms.FLEET, forms);
    return forms;
  }

  private static void collect(Shape shape, Map<String, Form> forms) {
    if (shape instanceof Form form) {
      if (forms.putIfAbsent(form.title(), form) == null) {
        form.keys().forEach(key -> collect(key.shape(), forms));
      }
    } else if (shape instanceof ListOf list) {
      collect(list.item(), forms);
    } else if (shape instanceof Catalogue catalogue) {
      collect(catalogue.item(), forms);
    } else if (shape instanceof Apart apart) {
      collect(apart.form(), forms);
    } else if (shape instanceof Choice choice) {
      new TreeMap<>(choice.forms()).values().forEach(form -> collect(form, forms));
    }
  }

  private static JsonNode schemaOf(Form form) {
    return form.title().equals("fleet")
        ? FleetSchemas.TREE
        : FleetSchemas.TREE.get("$defs").get(definition(form.title()));
  }

  private static String definition(String title) {
    return title.replace(' ', '-');
  }

  private static Set<String> names(JsonNode object) {
    Set<String> names = new TreeSet<>();
    object.fieldNames().forEachRemaining(names::add);
    return names;
  }

  private static void compare(Form form, JsonNode schema) {
    assertEquals("object", schema.get("type").textValue());
    assertEquals(new TreeSet<>(form.names()), names(schema.get("properties")));
    assertEquals("false", schema.get("additionalProperties").asText());
    Set<String> required = new TreeSet<>();
    schema.path("required").forEach(name -> required.add(name.textValue()));
    Set<String> expected =
        form.keys().stream()
            .filter(Key::required)
            .map(Key::name)
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(expected, required);
    for (Key key : form.keys()) {
      JsonNode property = schema.get("properties").get(key.name());
      assertEquals(key.standard() != null, property.has("default"), key.name());
      if (key.standard() != null) {
        assertEquals(key.standard(), property.get("default").doubleValue(), key.name());
      }
      compare(key.shape(), property);
    }
  }

  private static void compare(Shape shape, JsonNode schema) {
    if (shape instanceof Num num) {
      assertEquals("number", schema.get("type").textValue());
      assertEquals(num.least(), schema.get("minimum").doubleValue());
      assertEquals(num.most(), schema.get("maximum").doubleValue());
    } else if (shape instanceof Text text) {
      JsonNode target =
          schema.path("$ref").asText().equals("#/$defs/id")
              ? FleetSchemas.TREE.get("$defs").get("id")
              : schema;
      assertEquals("string", target.get("type").textValue());
      assertEquals(text.form().pattern(), target.get("pattern").textValue());
      assertEquals(text.longest(), target.get("maxLength").intValue());
    } else if (shape instanceof Word word) {
      List<String> words = new ArrayList<>();
      schema.path("enum").forEach(each -> words.add(each.textValue()));
      if (schema.has("const")) {
        words.add(schema.get("const").textValue());
      }
      assertEquals(word.words(), words);
    } else if (shape instanceof Flag) {
      assertEquals("boolean", schema.get("type").textValue());
    } else if (shape instanceof ListOf list) {
      assertEquals("array", schema.get("type").textValue());
      assertEquals(list.least(), schema.get("minItems").intValue());
      assertEquals(list.most(), schema.get("maxItems").intValue());
      compare(list.item(), schema.get("items"));
    } else if (shape instanceof Catalogue catalogue) {
      assertEquals("object", schema.get("type").textValue());
      compare(catalogue.id(), schema.get("propertyNames"));
      compare(catalogue.item(), schema.get("additionalProperties"));
    } else if (shape instanceof Choice choice) {
      List<String> references = new ArrayList<>();
      schema.get("oneOf").forEach(each -> references.add(each.get("$ref").textValue()));
      assertEquals(
          new TreeMap<>(choice.forms()).values().stream().map(FleetFormsTest::reference).toList(),
          references);
    } else {
      Form form = shape instanceof Apart apart ? apart.form() : (Form) shape;
      assertEquals(reference(form), schema.get("$ref").textValue());
    }
  }

  private static String reference(Form form) {
    return "#/$defs/" + definition(form.title());
  }

  /** Reads the manual's tables: for each form the rows, without their last column. */
  private static Map<String, List<String>> manual() {
    Map<String, List<String>> tables = new LinkedHashMap<>();
    List<String> rows = new ArrayList<>();
    for (String line : FleetSchemas.text("file-format.md").lines().toList()) {
      if (line.startsWith("### ")) {
        rows = new ArrayList<>();
        tables.put(line.substring(4), rows);
      } else if (line.startsWith("## ")) {
        rows = new ArrayList<>();
      } else if (line.startsWith("| `")) {
        rows.add(line.substring(0, line.lastIndexOf(" | ") + 2));
      }
    }
    return tables;
  }

  private static String row(Key key) {
    String required =
        key.required()
            ? "yes"
            : key.standard() == null ? "no" : "no, standard " + Words.number(key.standard());
    return String.join(
        " | ", "| `" + key.name() + "`", unit(key.shape()), required, range(key.shape()) + " |");
  }

  private static String unit(Shape shape) {
    return shape instanceof Num num
        ? num.unit()
        : shape instanceof ListOf list ? unit(list.item()) : "";
  }

  private static String range(Shape shape) {
    if (shape instanceof Num num) {
      return num.range();
    } else if (shape instanceof Text text) {
      return text.equals(FleetForms.ID) ? "id" : "text, at most " + text.longest() + " characters";
    } else if (shape instanceof Word word) {
      return word.words().stream().map(w -> "`" + w + "`").collect(Collectors.joining(", "));
    } else if (shape instanceof Flag) {
      return "`true`, `false`";
    } else if (shape instanceof ListOf list) {
      String count =
          list.least() == list.most() ? "" + list.least() : list.least() + " to " + list.most();
      return "list of " + count + ": " + range(list.item());
    } else if (shape instanceof Catalogue catalogue) {
      return "by id: " + range(catalogue.item());
    } else if (shape instanceof Choice choice) {
      return new TreeMap<>(choice.forms())
          .values().stream().map(FleetFormsTest::range).collect(Collectors.joining(" or "));
    } else {
      String title = shape instanceof Apart apart ? apart.form().title() : ((Form) shape).title();
      return "[" + title + "](#" + title.toLowerCase(java.util.Locale.ROOT).replace(' ', '-') + ")";
    }
  }
}
