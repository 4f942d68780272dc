package siltwright.model.json;

import java.util.List;
import java.util.Optional;

/**
 * A value of a fleet file as a form shows it.
 *
 * @param pointer its JSON pointer
 * @param key its key without the unit, such as {@code cleanDrop}; its number in a list
 * @param kind what it is
 * @param unit its unit, such as {@code kPa}; empty if it has none
 * @param expected what is expected there, in words
 * @param choices what can stand there, where that is one of a few; may be added to
 * @param required whether it must be there
 * @param value what stands there, as a text; the standard one in its place is not given
 * @param standard the number taken where nothing stands there
 * @param parts parts of a group or list, those that are not there too
 */
public record Field(
    String pointer,
    String key,
    Kind kind,
    String unit,
    String expected,
    List<String> choices,
    boolean required,
    Optional<String> value,
    Optional<Double> standard,
    List<Field> parts) {
  /** What a field is. */
  public enum Kind {
    /** A number. */
    NUMBER,
    /** A text, or one of the choices. */
    TEXT,
    /** Yes or no. */
    FLAG,
    /** An object. */
    GROUP,
    /** A list. */
    LIST
  }

  public Field {
    choices = List.copyOf(choices);
    parts = List.copyOf(parts);
  }
}
