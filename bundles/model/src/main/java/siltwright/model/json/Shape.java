package siltwright.model.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.regex.Pattern;

/** What a value of a JSON file must look like, apart from other values. */
public sealed interface Shape {
  /** Returns what is expected, in words. */
  String expected();

  /** Returns what is expected of each value of a list, in fewer words. */
  default String brief() {
    return expected();
  }

  /** Complains of all that is wrong with a value. */
  void check(JsonNode node, String pointer, Complaints complaints);

  /**
   * A number.
   *
   * @param least least value allowed
   * @param most greatest value allowed
   * @param unit its unit, as in messages; empty if it has none
   */
  record Num(double least, double most, String unit) implements Shape {
    @Override
    public String expected() {
      return "a number from " + range() + (unit.isEmpty() ? "" : " " + unit);
    }

    String range() {
      return Words.number(least) + " to " + Words.number(most);
    }

    boolean holds(double value) {
      return value >= least && value <= most;
    }

    @Override
    public void check(JsonNode node, String pointer, Complaints complaints) {
      if (!node.isNumber() || !holds(node.doubleValue())) {
        complaints.add(pointer, Words.found(node), expected());
      }
    }
  }

  /**
   * A text on one line.
   *
   * @param form regular expression, the same in Java and in JSON Schema
   * @param longest greatest number of characters (code points)
   * @param expected what is expected, in words
   */
  record Text(Pattern form, int longest, String expected) implements Shape {
    boolean holds(String text) {
      return text.codePointCount(0, text.length()) <= longest && form.matcher(text).matches();
    }

    @Override
    public void check(JsonNode node, String pointer, Complaints complaints) {
      if (!node.isTextual() || !holds(node.textValue())) {
        complaints.add(pointer, Words.found(node), expected);
      }
    }
  }

  /** One of some words. */
  record Word(List<String> words) implements Shape {
    @Override
    public String expected() {
      return Words.oneOf(words);
    }

    @Override
    public void check(JsonNode node, String pointer, Complaints complaints) {
      if (!node.isTextual() || !words.contains(node.textValue())) {
        complaints.add(pointer, Words.found(node), expected());
      }
    }
  }

  /** True or false. */
  record Flag() implements Shape {
    @Override
    public String expected() {
      return "true or false";
    }

    @Override
    public void check(JsonNode node, String pointer, Complaints complaints) {
      if (!node.isBoolean()) {
        complaints.add(pointer, Words.found(node), expected());
      }
    }
  }

  /**
   * A list of values of one shape.
   *
   * @param item shape of each value
   * @param least least number of values
   * @param most greatest number of values
   */
  record ListOf(Shape item, int least, int most) implements Shape {
    @Override
    public String expected() {
      String count = least == most ? "" + least : least + " to " + most;
      return "a list of " + count + ", each " + item.brief();
    }

    @Override
    public void check(JsonNode node, String pointer, Complaints complaints) {
      if (!node.isArray() || node.size() < least || node.size() > most) {
        complaints.add(pointer, Words.found(node), expected());
        return;
      }
      for (int i = 0; i < node.size(); i++) {
        item.check(node.get(i), pointer + "/" + i, complaints);
      }
    }
  }

  /**
   * A catalogue: an object whose keys are ids.
   *
   * @param id shape of the ids
   * @param item shape of each entry
   */
  record Catalogue(Text id, Shape item) implements Shape {
    @Override
    public String expected() {
      return "an object with an id for each entry";
    }

    @Override
    public void check(JsonNode node, String pointer, Complaints complaints) {
      if (!node.isObject()) {
        complaints.add(pointer, Words.found(node), expected());
        return;
      }
      for (Map.Entry<String, JsonNode> entry : node.properties()) {
        String key = entry.getKey();
        String place = Words.pointer(pointer, key);
        if (!id.holds(key)) {
          complaints.add(place, "key " + Words.quoted(key), id.expected());
        } else {
          item.check(entry.getValue(), place, complaints);
        }
      }
    }
  }

  /**
   * A key of an object.
   *
   * @param name the key
   * @param shape shape of its value
   * @param required whether it must be there
   * @param standard the number taken where it is not there, or null
   */
  record Key(String name, Shape shape, boolean required, Double standard) {
    /** Returns a key that must be there. */
    public static Key of(String name, Shape shape) {
      return new Key(name, shape, true, null);
    }

    /** Returns a key that may be left out. */
    public static Key optional(String name, Shape shape) {
      return new Key(name, shape, false, null);
    }

    static Key standard(String name, Shape shape, double standard) {
      return new Key(name, shape, false, standard);
    }
  }

  /**
   * An object with certain keys.
   *
   * @param title what it is, in words
   * @param keys its keys
   */
  record Form(String title, List<Key> keys) implements Shape {
    /** Returns a form. */
    public static Form of(String title, Key... keys) {
      return new Form(title, List.of(keys));
    }

    Key key(String name) {
      return keys.stream().filter(k -> k.name().equals(name)).findFirst().orElseThrow();
    }

    List<String> names() {
      return keys.stream().map(Key::name).toList();
    }

    @Override
    public String expected() {
      return brief() + " with " + Words.list(names());
    }

    @Override
    public String brief() {
      return "an object (" + title + ")";
    }

    @Override
    public void check(JsonNode node, String pointer, Complaints complaints) {
      if (!node.isObject()) {
        complaints.add(pointer, Words.found(node), expected());
        return;
      }
      List<String> names = names();
      for (Map.Entry<String, JsonNode> entry : node.properties()) {
        String name = entry.getKey();
        if (!names.contains(name)) {
          complaints.add(
              Words.pointer(pointer, name),
              "unknown key " + Words.quoted(name),
              Words.choice(name, names));
        }
      }
      for (Key key : keys) {
        JsonNode value = node.get(key.name());
        String place = Words.pointer(pointer, key.name());
        if (value != null) {
          key.shape().check(value, place, complaints);
        } else if (key.required()) {
          complaints.add(place, "nothing", key.shape().expected());
        }
      }
    }
  }

  /**
   * An object whose form depends on a word in it.
   *
   * @param key the key that holds the word
   * @param forms form for each word
   */
  record Choice(String key, Map<String, Form> forms) implements Shape {
    private Word word() {
      return new Word(List.copyOf(new TreeSet<>(forms.keySet())));
    }

    @Override
    public String expected() {
      return "an object whose " + key + " is " + word().expected();
    }

    @Override
    public void check(JsonNode node, String pointer, Complaints complaints) {
      if (!node.isObject()) {
        complaints.add(pointer, Words.found(node), expected());
        return;
      }
      JsonNode chosen = node.get(key);
      String place = Words.pointer(pointer, key);
      if (chosen == null) {
        complaints.add(place, "nothing", word().expected());
        return;
      }
      Form form = chosen.isTextual() ? forms.get(chosen.textValue()) : null;
      if (form == null) {
        word().check(chosen, place, complaints);
      } else {
        form.check(node, pointer, complaints);
      }
    }
  }

  /**
   * An object that is checked apart from what is round it, so that its problems stay its own.
   *
   * @param form its form
   */
  record Apart(Form form) implements Shape {
    @Override
    public String expected() {
      return form.expected();
    }

    @Override
    public String brief() {
      return form.brief();
    }

    @Override
    public void check(JsonNode node, String pointer, Complaints complaints) {}
  }
}
