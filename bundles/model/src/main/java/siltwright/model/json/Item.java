package siltwright.model.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import siltwright.model.json.Shape.Apart;
import siltwright.model.json.Shape.Catalogue;
import siltwright.model.json.Shape.Choice;
import siltwright.model.json.Shape.Form;
import siltwright.model.json.Shape.ListOf;

/**
 * An object of the file whose shape has been checked, so that its values can be taken out.
 *
 * @param node the object
 * @param form its form
 * @param pointer its place in the file
 */
public record Item(JsonNode node, Form form, String pointer) {
  private static Item of(JsonNode node, Shape shape, String pointer) {
    Form form =
        shape instanceof Choice choice
            ? choice.forms().get(node.get(choice.key()).textValue())
            : shape instanceof Apart apart ? apart.form() : (Form) shape;
    return new Item(node, form, pointer);
  }

  /** Returns whether a key is there. */
  public boolean has(String key) {
    return node.has(key);
  }

  /** Returns the place of a value. */
  public String at(String key) {
    return Words.pointer(pointer, key);
  }

  /** Returns a value as messages name it. */
  public String found(String key) {
    return Words.found(node.get(key));
  }

  /** Returns a number, or the standard one where it may be left out. */
  double number(String key) {
    return has(key) ? node.get(key).doubleValue() : form.key(key).standard();
  }

  OptionalDouble optionalNumber(String key) {
    return has(key) ? OptionalDouble.of(number(key)) : OptionalDouble.empty();
  }

  /** Returns a text. */
  public String text(String key) {
    return node.get(key).textValue();
  }

  boolean flag(String key) {
    return node.get(key).booleanValue();
  }

  /** Returns an object. */
  public Item item(String key) {
    return of(node.get(key), form.key(key).shape(), at(key));
  }

  /** Returns an object that may be left out. */
  public Optional<Item> optionalItem(String key) {
    return has(key) ? Optional.of(item(key)) : Optional.empty();
  }

  /** Returns the objects of a list; none if the list is left out. */
  public List<Item> items(String key) {
    List<Item> items = new ArrayList<>();
    Shape shape = ((ListOf) form.key(key).shape()).item();
    for (JsonNode each : node.path(key)) {
      items.add(of(each, shape, at(key) + "/" + items.size()));
    }
    return items;
  }

  /** Returns the entries of a catalogue by id, in the file's order. */
  Map<String, Item> entries(String key) {
    Map<String, Item> entries = new LinkedHashMap<>();
    Shape shape = ((Catalogue) form.key(key).shape()).item();
    for (Map.Entry<String, JsonNode> e : node.get(key).properties()) {
      entries.put(e.getKey(), of(e.getValue(), shape, Words.pointer(at(key), e.getKey())));
    }
    return entries;
  }

  /** Returns the texts of a list; none if the list is left out. */
  public List<String> texts(String key) {
    List<String> texts = new ArrayList<>();
    node.path(key).forEach(each -> texts.add(each.textValue()));
    return texts;
  }

  double[] numbers(String key) {
    return numbers(node.get(key));
  }

  double[][] rows(String key) {
    double[][] rows = new double[node.get(key).size()][];
    for (int i = 0; i < rows.length; i++) {
      rows[i] = numbers(node.get(key).get(i));
    }
    return rows;
  }

  private static double[] numbers(JsonNode list) {
    double[] numbers = new double[list.size()];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] = list.get(i).doubleValue();
    }
    return numbers;
  }
}
