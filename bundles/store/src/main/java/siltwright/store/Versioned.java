package siltwright.store;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;

/**
 * A table whose rows are made by one action, ended by another, and never changed.
 *
 * @param table name
 * @param columns columns besides the row's number and those two actions
 */
record Versioned(String table, List<String> columns) {
  static final Versioned SITE = new Versioned("site_state", List.of("site_id", "name", "zone"));
  static final Versioned MACHINE =
      new Versioned(
          "machine_state", List.of("machine_id", "serial", "name", "machine_class", "site_id"));
  static final Versioned MAPPING = new Versioned("mapping", List.of("name", "body"));

  Versioned {
    columns = List.copyOf(columns);
  }

  /** Returns the table of a kind of record. */
  static Versioned of(RecordKind kind) {
    List<String> columns = new ArrayList<>(List.of("machine_id", "at_ms", "whole_day", "meter_h"));
    kind.fields().stream().map(RecordField::column).forEach(columns::add);
    return new Versioned(kind.table(), columns);
  }

  /** Returns all of them, those first that others refer to. */
  static List<Versioned> all() {
    return Stream.concat(
            Stream.of(SITE, MACHINE, MAPPING), Stream.of(RecordKind.values()).map(Versioned::of))
        .toList();
  }

  /** Returns the columns with commas between them. */
  String list() {
    return String.join(", ", columns);
  }
}
