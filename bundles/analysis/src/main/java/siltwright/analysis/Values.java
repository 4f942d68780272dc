package siltwright.analysis;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** A value for each parameter of an analysis, read and in range. */
public final class Values {
  private final Map<String, Object> byName;
  private final Map<String, String> asGiven;

  private Values(Map<String, Object> byName, Map<String, String> asGiven) {
    this.byName = byName;
    this.asGiven = asGiven;
  }

  /** Returns the standard values of an analysis. */
  public static Values standard(Description description) {
    return of(description, Map.of());
  }

  /**
   * Reads values.
   *
   * @param description the analysis
   * @param texts texts by parameter name; a missing one takes its standard value
   * @throws InputException if a text is no value of its parameter, has no parameter, or a required
   *     one is missing
   */
  public static Values of(Description description, Map<String, String> texts) {
    Map<String, Object> byName = new LinkedHashMap<>();
    Map<String, String> shown = new LinkedHashMap<>();
    for (Parameter<?> p : description.parameters()) {
      String text = texts.get(p.name());
      if (text != null) {
        byName.put(p.name(), read(p, text));
        shown.put(p.name(), text);
      } else if (p.required()) {
        throw new InputException(new Problem("option", "--" + p.name(), "", p.form()));
      } else {
        p.standard()
            .ifPresent(
                v -> {
                  byName.put(p.name(), v);
                  shown.put(p.name(), v.toString());
                });
      }
    }
    for (String name : texts.keySet()) {
      if (description.parameters().stream().noneMatch(p -> p.name().equals(name))) {
        throw new InputException(
            new Problem("option", "--" + name, name, "a parameter of " + description.id()));
      }
    }
    return new Values(byName, shown);
  }

  private static Object read(Parameter<?> p, String text) {
    try {
      return p.read(text);
    } catch (IllegalArgumentException e) {
      throw new InputException(new Problem("option", "--" + p.name(), text, e.getMessage()));
    }
  }

  /**
   * Returns the value of a parameter.
   *
   * @throws IllegalArgumentException if it has none
   */
  public <T> T get(Parameter<T> parameter) {
    return find(parameter)
        .orElseThrow(() -> new IllegalArgumentException("no value of " + parameter.name()));
  }

  /** Returns the value of a parameter, or nothing if none was given and it has no standard. */
  @SuppressWarnings("unchecked")
  public <T> Optional<T> find(Parameter<T> parameter) {
    return Optional.ofNullable((T) byName.get(parameter.name()));
  }

  /** Returns all values as texts, by parameter name, for the record. */
  public Map<String, String> asTexts() {
    return Map.copyOf(asGiven);
  }
}
