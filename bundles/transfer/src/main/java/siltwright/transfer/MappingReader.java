package siltwright.transfer;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;

/**
 * Reads a mapping as it is kept. A store may come out of an archive that somebody else made, so
 * each value is judged here: what is found later would be told as an option that nobody gave.
 */
final class MappingReader {
  private static final ObjectMapper JSON =
      new ObjectMapper(
              JsonFactory.builder()
                  .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                  .streamReadConstraints(
                      StreamReadConstraints.builder().maxNestingDepth(10).build())
                  .build())
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS);

  private static final int MOST_COLUMNS = 1000;

  private final String source;

  MappingReader(String source) {
    this.source = source;
  }

  Mapping read(String json) {
    JsonNode o;
    try {
      o = JSON.readTree(json);
    } catch (JsonProcessingException e) {
      throw fault("", e.getOriginalMessage(), "a mapping as it was kept");
    }
    checkNames(
        "",
        o,
        List.of(
            "kind",
            "sheet",
            "encoding",
            "delimiter",
            "decimal",
            "dates",
            "zone",
            "match",
            "rule",
            "columns"));
    String kind = text(o, "/kind", MappingReader::isKind, "a kind of record, or machine");
    return new Mapping(
        kind,
        text(o, "/sheet", s -> true, ""),
        text(o, "/encoding", s -> s.isEmpty() || TableFile.isCharset(s), "an encoding"),
        text(
            o,
            "/delimiter",
            s -> s.isEmpty() || TableFile.isDelimiter(s),
            "one character, or the word tab"),
        text(o, "/decimal", Set.of(".", ",")::contains, "a point or a comma"),
        DateOrder.of(text(o, "/dates", s -> DateOrder.of(s).isPresent(), "ymd, dmy or mdy"))
            .orElseThrow(),
        text(o, "/zone", s -> s.isEmpty() || isZone(s), "a time zone such as Europe/Lisbon"),
        text(o, "/match", Set.of("auto", "id", "serial")::contains, "auto, id or serial"),
        text(o, "/rule", s -> s.isEmpty() || MachineFinder.isRule(s), "REGEX=>ID"),
        columns(kind, o));
  }

  private InputException fault(String place, String found, String expected) {
    return new InputException(new Problem(source, place, found, expected));
  }

  private void checkNames(String place, JsonNode o, List<String> names) {
    if (!o.isObject()) {
      throw fault(place, "what is no object", "an object with " + String.join(", ", names));
    }
    for (Iterator<String> i = o.fieldNames(); i.hasNext(); ) {
      String name = i.next();
      if (!names.contains(name)) {
        throw fault(place, name, "one of " + String.join(", ", names));
      }
    }
  }

  private String text(JsonNode o, String place, Predicate<String> sound, String expected) {
    JsonNode value = o.at(place);
    if (!value.isTextual()) {
      throw fault(place, value.isMissingNode() ? "nothing" : value.toString(), "a text");
    }
    if (!sound.test(value.textValue())) {
      throw fault(place, value.toString(), expected);
    }
    return value.textValue();
  }

  private List<Mapping.Column> columns(String kind, JsonNode o) {
    JsonNode all = o.path("columns");
    if (!all.isArray() || all.size() > MOST_COLUMNS) {
      throw fault(
          "/columns",
          all.isArray() ? all.size() + " columns" : "what is no list",
          "at most " + MOST_COLUMNS + " columns");
    }
    List<Mapping.Column> columns = new ArrayList<>();
    Set<String> taken = new HashSet<>();
    List<String> fields = Mapping.fields(kind);
    for (int i = 0; i < all.size(); i++) {
      String place = "/columns/" + i;
      checkNames(place, all.get(i), List.of("heading", "field", "unit"));
      String field =
          text(o, place + "/field", fields::contains, "one of " + String.join(", ", fields));
      if (!taken.add(field)) {
        throw fault(place + "/field", field + " a second time", "each field once");
      }
      Optional<RecordField> number =
          RecordKind.of(kind)
              .flatMap(k -> k.field(field))
              .filter(f -> f.type() == RecordField.Type.NUMBER);
      String unit =
          text(
              o,
              place + "/unit",
              u -> u.isEmpty() || number.flatMap(f -> Units.find(f, u)).isPresent(),
              number.map(Units::choices).orElse("no unit"));
      columns.add(new Mapping.Column(text(o, place + "/heading", h -> true, ""), field, unit));
    }
    return columns;
  }

  private static boolean isKind(String word) {
    return word.equals(Mapping.MACHINES) || RecordKind.of(word).isPresent();
  }

  static boolean isZone(String text) {
    try {
      ZoneId.of(text);
      return true;
    } catch (DateTimeException e) {
      return false;
    }
  }
}
