package siltwright.command;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.Figure;
import siltwright.analysis.Finding;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.analysis.Parameter;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.Problem;

/**
 * Results as JSON, in the form of {@code docs/schema/result-1.schema.json}: keys in a fixed order,
 * numbers with all their digits, null where there is no number.
 */
final class JsonResult {
  private static final JsonFactory FACTORY =
      JsonFactory.builder()
          .enable(StreamWriteFeature.STRICT_DUPLICATE_DETECTION)
          .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
          .build();
  private static final DefaultPrettyPrinter LAYOUT =
      new DefaultPrettyPrinter(
              Separators.createDefaultInstance()
                  .withObjectFieldValueSpacing(Separators.Spacing.AFTER))
          .withObjectIndenter(new DefaultIndenter("  ", "\n"));

  private final JsonGenerator json;

  private JsonResult(JsonGenerator json) {
    this.json = json;
  }

  /** Returns the document of one result, of parameters alone, a machine or a fleet. */
  static String of(Outcome outcome) {
    return document(
        w -> {
          Result result = outcome.results().get(0).result();
          Description d = result.description();
          w.json.writeStringField("analysis", d.id());
          if (!outcome.file().isEmpty()) {
            w.json.writeStringField("file", outcome.file());
          }
          if (d.scope() == Scope.MACHINE) {
            w.json.writeStringField("machine", outcome.results().get(0).id());
          } else if (!result.subject().isEmpty()) {
            w.json.writeStringField("subject", result.subject());
          }
          w.parameters(d, outcome.values());
          if (result.rows().isPresent()) {
            w.rows(result.rows().get());
          }
          w.body(result);
          if (d.scope() == Scope.FLEET) {
            w.problems("problems", outcome.problems());
          }
        });
  }

  /** Returns the document of the machines of a fleet. */
  static String ofMachines(Description d, Outcome outcome) {
    return document(
        w -> {
          w.json.writeStringField("analysis", d.id());
          w.json.writeStringField("file", outcome.file());
          w.parameters(d, outcome.values());
          w.json.writeArrayFieldStart("machines");
          for (Outcome.Of of : outcome.results()) {
            w.json.writeStartObject();
            w.json.writeStringField("id", of.id());
            w.json.writeStringField("name", of.name());
            w.body(of.result());
            w.json.writeEndObject();
          }
          w.json.writeEndArray();
          w.problems("problems", outcome.problems());
        });
  }

  private interface Content {
    void write(JsonResult to) throws IOException;
  }

  private static String document(Content content) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = FACTORY.createGenerator(text)) {
      json.setPrettyPrinter(LAYOUT.createInstance());
      json.writeStartObject();
      content.write(new JsonResult(json));
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.append('\n').toString();
  }

  private void parameters(Description d, Values values) throws IOException {
    json.writeObjectFieldStart("parameters");
    for (Parameter<?> p : d.parameters()) {
      Object value = values.find(p).orElse(null);
      if (value == null) {
        continue;
      }
      json.writeFieldName(p.name());
      if (value instanceof Double v) {
        number(v);
      } else if (value instanceof Long v) {
        json.writeNumber(v);
      } else if (value instanceof Boolean v) {
        json.writeBoolean(v);
      } else if (value instanceof List<?> list) {
        json.writeStartArray();
        for (Object one : list) {
          json.writeString((String) one);
        }
        json.writeEndArray();
      } else {
        json.writeString((String) value);
      }
    }
    json.writeEndObject();
  }

  private void body(Result result) throws IOException {
    for (Entry entry : result.entries()) {
      entry(entry);
    }
    json.writeObjectFieldStart("figures");
    for (Figure f : result.figures()) {
      json.writeFieldName(f.name());
      figure(f);
    }
    json.writeEndObject();
    json.writeArrayFieldStart("findings");
    for (Finding f : result.findings()) {
      json.writeStartObject();
      json.writeStringField("severity", word(f.severity()));
      json.writeStringField("text", f.text());
      json.writeStringField("pointsAt", f.pointsAt());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void entry(Entry entry) throws IOException {
    json.writeFieldName(entry.name());
    if (entry instanceof Entry.Value v) {
      cell(v.cell());
    } else if (entry instanceof Entry.Group g) {
      json.writeStartObject();
      for (Entry.Value v : g.values()) {
        entry(v);
      }
      json.writeEndObject();
    } else if (entry instanceof Entry.Table t) {
      json.writeStartArray();
      for (List<Cell> row : t.rows()) {
        json.writeStartObject();
        for (int c = 0; c < row.size(); c++) {
          json.writeFieldName(t.columns().get(c).name());
          cell(row.get(c));
        }
        json.writeEndObject();
      }
      json.writeEndArray();
    }
  }

  private void cell(Cell cell) throws IOException {
    if (cell instanceof Cell.Num n) {
      number(n.value());
    } else if (cell instanceof Cell.Text t) {
      json.writeString(t.text());
    } else if (cell instanceof Cell.Flag f) {
      json.writeBoolean(f.yes());
    } else if (cell instanceof Cell.Range r) {
      numbers(r.low(), r.high());
    } else if (cell instanceof Cell.Numbers n) {
      numbers(n.values());
    } else if (cell instanceof Cell.Named n) {
      json.writeStartObject();
      for (Map.Entry<String, Double> e : n.values().entrySet()) {
        json.writeFieldName(e.getKey());
        number(e.getValue());
      }
      json.writeEndObject();
    } else if (cell instanceof Cell.Parts p) {
      json.writeStartObject();
      for (Map.Entry<String, Cell> e : p.cells().entrySet()) {
        json.writeFieldName(e.getKey());
        cell(e.getValue());
      }
      json.writeEndObject();
    } else {
      json.writeNull();
    }
  }

  private void number(double value) throws IOException {
    if (!Double.isFinite(value)) {
      json.writeNull();
    } else if (ExactNumber.whole(value)) {
      json.writeNumber((long) value);
    } else {
      json.writeNumber(value);
    }
  }

  private void numbers(double... values) throws IOException {
    json.writeStartArray();
    for (double v : values) {
      number(v);
    }
    json.writeEndArray();
  }

  private void numbers(String name, double... values) throws IOException {
    json.writeFieldName(name);
    numbers(values);
  }

  private void number(String name, double value) throws IOException {
    json.writeFieldName(name);
    number(value);
  }

  private void figure(Figure f) throws IOException {
    json.writeStartObject();
    json.writeStringField("title", f.title());
    json.writeStringField("caption", f.caption());
    axis("x", f.x());
    json.writeArrayFieldStart("panels");
    for (Panel panel : f.panels()) {
      json.writeStartObject();
      axis("y", panel.y());
      json.writeArrayFieldStart("layers");
      for (Layer layer : panel.layers()) {
        json.writeStartObject();
        layer(layer);
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void axis(String name, Axis axis) throws IOException {
    json.writeObjectFieldStart(name);
    json.writeStringField("label", axis.label());
    json.writeStringField("unit", axis.unit());
    json.writeStringField("scale", word(axis.scale()));
    names(axis.names());
    json.writeEndObject();
  }

  private void layer(Layer layer) throws IOException {
    json.writeStringField("kind", layer.getClass().getSimpleName().toLowerCase(Locale.ROOT));
    json.writeStringField("label", layer.label());
    if (layer instanceof Layer.Line l) {
      json.writeStringField("style", word(l.style()));
      numbers("xs", l.xs());
      numbers("ys", l.ys());
    } else if (layer instanceof Layer.Steps l) {
      json.writeStringField("style", word(l.style()));
      numbers("xs", l.xs());
      numbers("ys", l.ys());
    } else if (layer instanceof Layer.Band l) {
      numbers("xs", l.xs());
      numbers("lows", l.lows());
      numbers("highs", l.highs());
    } else if (layer instanceof Layer.Stack l) {
      numbers("xs", l.xs());
      json.writeArrayFieldStart("parts");
      for (Layer.Part part : l.parts()) {
        json.writeStartObject();
        json.writeStringField("label", part.label());
        numbers("ys", part.ys());
        json.writeEndObject();
      }
      json.writeEndArray();
    } else if (layer instanceof Layer.Points l) {
      json.writeStringField("mark", word(l.mark()));
      numbers("xs", l.xs());
      numbers("ys", l.ys());
      names(l.names());
    } else if (layer instanceof Layer.At l) {
      json.writeStringField("style", word(l.style()));
      number("x", l.x());
    } else if (layer instanceof Layer.Level l) {
      number("y", l.y());
    } else if (layer instanceof Layer.Span l) {
      number("low", l.low());
      number("high", l.high());
    }
  }

  /** Writes names where there are any. */
  private void names(List<String> names) throws IOException {
    if (!names.isEmpty()) {
      json.writeArrayFieldStart("names");
      for (String name : names) {
        json.writeString(name);
      }
      json.writeEndArray();
    }
  }

  private void rows(Result.Rows rows) throws IOException {
    json.writeObjectFieldStart("rows");
    json.writeNumberField("read", rows.read());
    json.writeNumberField("kept", rows.kept());
    json.writeNumberField("refused", rows.refused());
    json.writeEndObject();
    problems("refusals", rows.refusals());
  }

  private void problems(String name, List<Problem> problems) throws IOException {
    json.writeArrayFieldStart(name);
    for (Problem p : problems) {
      json.writeStartObject();
      json.writeStringField("source", p.source());
      json.writeStringField("place", p.place());
      json.writeStringField("value", p.value());
      json.writeStringField("expected", p.expected());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT);
  }
}
