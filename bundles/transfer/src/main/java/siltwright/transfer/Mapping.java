package siltwright.transfer;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import siltwright.model.InputException;
import siltwright.model.history.RecordKind;

/**
 * How a table is written and what becomes of it.
 *
 * @param kind word of the kind of record, or {@value #MACHINES} for a list of machines
 * @param sheet sheet of a spreadsheet; empty for its first
 * @param encoding character encoding; empty for a spreadsheet
 * @param delimiter what parts the cells; empty for a spreadsheet
 * @param decimal what parts the fraction of a number written as text: a point or a comma
 * @param dates order of dates written as text
 * @param zone time zone of times that name none; empty for that of the machine's site
 * @param match how machines are found: auto, id, serial
 * @param rule how a machine's id is made of what stands in the table, {@code REGEX=>ID}; or empty
 * @param columns what becomes of each column that is used
 */
public record Mapping(
    String kind,
    String sheet,
    String encoding,
    String delimiter,
    String decimal,
    DateOrder dates,
    String zone,
    String match,
    String rule,
    List<Column> columns) {
  /** The kind of a list of machines. */
  public static final String MACHINES = "machine";

  private static final ObjectMapper JSON = new ObjectMapper();

  public Mapping {
    columns = List.copyOf(columns);
  }

  /**
   * A column that is used.
   *
   * @param heading its heading
   * @param field what it is: a field of the kind, machine, date or time
   * @param unit unit of its numbers; empty for texts
   */
  public record Column(String heading, String field, String unit) {}

  /** Returns it as JSON, as it is kept. */
  public String toJson() {
    ObjectNode o = JSON.createObjectNode();
    o.put("kind", kind);
    o.put("sheet", sheet);
    o.put("encoding", encoding);
    o.put("delimiter", delimiter);
    o.put("decimal", decimal);
    o.put("dates", dates.word());
    o.put("zone", zone);
    o.put("match", match);
    o.put("rule", rule);
    ArrayNode all = o.putArray("columns");
    for (Column c : columns) {
      all.addObject().put("heading", c.heading()).put("field", c.field()).put("unit", c.unit());
    }
    return o.toString();
  }

  /**
   * Reads what {@link #toJson} wrote.
   *
   * @param json text
   * @param source what it is called in messages
   * @throws InputException if it is not that
   */
  static Mapping of(String json, String source) {
    return new MappingReader(source).read(json);
  }

  /** Returns what a column of a table of a kind can be. */
  static List<String> fields(String kind) {
    List<String> fields = new ArrayList<>(List.of(Headings.MACHINE));
    RecordKind.of(kind)
        .ifPresentOrElse(
            k -> {
              fields.addAll(List.of(Headings.DATE, Headings.TIME, RecordKind.METER_H.name()));
              k.fields().forEach(f -> fields.add(f.name()));
            },
            () -> fields.addAll(Headings.MACHINE_FIELDS.stream().sorted().toList()));
    return fields;
  }
}
