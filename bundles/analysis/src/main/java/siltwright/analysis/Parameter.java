package siltwright.analysis;

import java.util.Optional;

/**
 * A typed parameter. Forms, options, help and provenance all come from it.
 *
 * @param <T> type of its value
 */
public sealed interface Parameter<T>
    permits NumberParameter,
        WholeParameter,
        TextParameter,
        ChoiceParameter,
        FlagParameter,
        ListParameter,
        FleetFileParameter,
        RecordsParameter,
        RecordsFolderParameter,
        FileParameter {
  /** Returns its name: lower case, hyphens; the option is the name behind two hyphens. */
  String name();

  /** Returns what it means, with its unit, in one clause. */
  String meaning();

  /** Returns the value it has when none is given; empty if it then has none. */
  default Optional<T> standard() {
    return Optional.empty();
  }

  /** Returns whether a value must be given. */
  default boolean required() {
    return false;
  }

  /** Returns what a value looks like, for help and for messages. */
  String form();

  /**
   * Reads a value.
   *
   * @throws IllegalArgumentException if the text is no value of this parameter; the message is
   *     {@link #form()}
   */
  T read(String text);
}
