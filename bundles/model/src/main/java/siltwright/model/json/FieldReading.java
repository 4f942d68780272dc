package siltwright.model.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.model.ChangeProcedure;
import siltwright.model.Site;
import siltwright.model.json.Field.Kind;
import siltwright.model.json.Shape.Apart;
import siltwright.model.json.Shape.Catalogue;
import siltwright.model.json.Shape.Choice;
import siltwright.model.json.Shape.Flag;
import siltwright.model.json.Shape.Form;
import siltwright.model.json.Shape.Key;
import siltwright.model.json.Shape.ListOf;
import siltwright.model.json.Shape.Num;
import siltwright.model.json.Shape.Word;

/** Makes fields of what stands in a file and of what its form allows. */
final class FieldReading {
  // Of a key's name the unit is what follows the first underscore.
  private static final Map<String, String> UNITS =
      Map.ofEntries(
          Map.entry("degC", "°C"),
          Map.entry("L_per_min", "L/min"),
          Map.entry("mm2_per_s", "mm²/s"),
          Map.entry("kg_per_m3", "kg/m³"),
          Map.entry("um_c", "µm(c)"),
          Map.entry("mg_per_h", "mg/h"),
          Map.entry("money_per_h", "money/h"),
          Map.entry("money_per_L", "money/L"),
          Map.entry("per_h", "1/h"),
          Map.entry("per_mL", "1/mL"));

  private final Shared shared;
  private final List<String> dutyStates = new ArrayList<>();

  private FieldReading(Shared shared) {
    this.shared = shared;
  }

  static List<Field> of(JsonNode node, Form form, String pointer, Shared shared) {
    FieldReading reading = new FieldReading(shared);
    node.path("duty").forEach(state -> reading.dutyStates.add(state.path("id").asText()));
    return reading.keys(node, form, pointer);
  }

  private List<Field> keys(JsonNode node, Form form, String pointer) {
    List<Field> fields = new ArrayList<>();
    for (Key key : form.keys()) {
      if (!(key.shape() instanceof ListOf list && list.item() instanceof Apart)) {
        fields.add(field(node.get(key.name()), key, Words.pointer(pointer, key.name())));
      }
    }
    return fields;
  }

  private Field field(JsonNode node, Key key, String pointer) {
    int underscore = key.name().indexOf('_');
    String name = underscore < 0 ? key.name() : key.name().substring(0, underscore);
    String unit = underscore < 0 ? "" : key.name().substring(underscore + 1);
    return field(
        node,
        key.shape(),
        pointer,
        name,
        UNITS.getOrDefault(unit, unit),
        key.required(),
        Optional.ofNullable(key.standard()));
  }

  private Field field(
      JsonNode node,
      Shape shape,
      String pointer,
      String key,
      String unit,
      boolean required,
      Optional<Double> standard) {
    Kind kind = Kind.TEXT;
    List<String> choices = List.of();
    List<Field> parts = new ArrayList<>();
    if (shape instanceof Num) {
      kind = Kind.NUMBER;
    } else if (shape instanceof Flag) {
      kind = Kind.FLAG;
    } else if (shape instanceof Word word) {
      choices = word.words();
    } else if (shape instanceof ListOf list) {
      kind = Kind.LIST;
      for (int i = 0; node != null && i < node.size(); i++) {
        parts.add(
            field(
                node.get(i), list.item(), pointer + "/" + i, "" + i, unit, true, Optional.empty()));
      }
    } else if (shape instanceof Catalogue catalogue) {
      kind = Kind.GROUP;
      if (node != null) {
        for (Map.Entry<String, JsonNode> e : node.properties()) {
          String place = Words.pointer(pointer, e.getKey());
          parts.add(
              field(e.getValue(), catalogue.item(), place, e.getKey(), "", true, Optional.empty()));
        }
      }
    } else if (shape instanceof Form || shape instanceof Choice) {
      kind = Kind.GROUP;
      if (node != null) {
        parts.addAll(keys(node, form(shape, node), pointer));
      }
    } else {
      choices = ids(key);
    }
    boolean whole = kind == Kind.GROUP || kind == Kind.LIST;
    Optional<String> value = Optional.ofNullable(node).map(n -> whole ? n.toString() : n.asText());
    return new Field(
        pointer, key, kind, unit, shape.expected(), choices, required, value, standard, parts);
  }

  private static Form form(Shape shape, JsonNode node) {
    if (shape instanceof Choice choice) {
      Form chosen = choice.forms().get(node.path(choice.key()).asText());
      return chosen == null ? Form.of("", Key.of(choice.key(), new Word(List.of()))) : chosen;
    }
    return (Form) shape;
  }

  /** Returns the ids that a key can name. */
  private List<String> ids(String key) {
    return switch (key) {
      case "fluid" -> List.copyOf(shared.fluids().keySet());
      case "element" -> List.copyOf(shared.elements().keySet());
      case "distribution", "handlingDirt" -> List.copyOf(shared.distributions().keySet());
      case "site" -> shared.sites().stream().map(Site::id).toList();
      case "procedure" -> shared.procedures().stream().map(ChangeProcedure::id).toList();
      case "readIn" -> dutyStates;
      default -> List.of();
    };
  }
}
