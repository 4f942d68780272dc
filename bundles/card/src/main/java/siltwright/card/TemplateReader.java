package siltwright.card;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import siltwright.model.Housing;
import siltwright.model.InputException;
import siltwright.model.json.Complaints;
import siltwright.model.json.FleetDocument;
import siltwright.model.json.Item;
import siltwright.model.json.Shape;
import siltwright.model.json.Shape.Form;
import siltwright.model.json.Shape.Key;
import siltwright.model.json.Shape.ListOf;
import siltwright.model.json.Shape.Text;
import siltwright.model.json.Shape.Word;

/**
 * Reads card templates, strictly: an unknown key, word or placeholder is refused, and so is an
 * order of steps that would hurt someone or let the dirt into the clean side.
 */
public final class TemplateReader {
  /** Languages of the standard template. */
  public static final List<String> LANGUAGES = List.of("en", "de");

  private static final String SCHEMA = "siltwright-card/1";
  private static final int MOST_STEPS = 60;
  private static final Text ID =
      new Text(
          Pattern.compile("^[\\p{L}\\p{N}][\\p{L}\\p{N}._-]*$"),
          40,
          "letters, digits, '.', '_' and '-', at most 40 characters");
  private static final Text LINE =
      new Text(
          Pattern.compile("^[^\\x00-\\x20\\x7f][^\\x00-\\x1f\\x7f]*$"),
          600,
          "a text on one line, not empty, at most 600 characters");
  private static final ListOf LINES = new ListOf(LINE, 1, 8);
  private static final Word HOUSING = new Word(words(Housing.values()));
  private static final Word TANK = new Word(List.of("pressurised", "vented"));
  private static final Form CAUTION =
      Form.of("caution", Key.of("name", LINE), Key.of("text", LINE));
  private static final Form STEP =
      Form.of(
          "step",
          Key.of("does", new Word(Operation.words())),
          Key.of("text", LINE),
          Key.of("why", LINES),
          Key.optional("hazards", new ListOf(new Word(Hazard.words()), 1, 8)),
          Key.optional("housing", HOUSING),
          Key.optional("tank", TANK));
  private static final Form ENTRY =
      Form.of(
          "line",
          Key.of("text", LINE),
          Key.optional("housing", HOUSING),
          Key.optional("tank", TANK));
  private static final Form FIELD =
      Form.of("field", Key.of("field", new Word(RecordField.columns())), Key.of("text", LINE));
  private static final Form TEMPLATE =
      Form.of(
          "card template",
          Key.of("schema", new Word(List.of(SCHEMA))),
          Key.of("id", ID),
          Key.of("version", ID),
          Key.of(
              "language",
              new Text(
                  Pattern.compile("^[a-z]{2,3}(-[A-Za-z0-9]+)*$"),
                  20,
                  "a language tag such as en or pt-BR")),
          Key.of("decimalMark", new Word(List.of(".", ","))),
          Key.optional("procedures", new ListOf(ID, 1, 100)),
          Key.of("words", form("fixed words", Template.WORDS, LINE)),
          Key.of("cautions", form("cautions by hazard", Hazard.words(), CAUTION)),
          Key.of("steps", new ListOf(STEP, 1, MOST_STEPS)),
          Key.of("tools", new ListOf(ENTRY, 0, 30)),
          Key.of("seals", new ListOf(ENTRY, 0, 30)),
          Key.of("inspect", new ListOf(ENTRY, 0, 30)),
          Key.of("otherWay", form("texts by housing", words(Housing.values()), LINES)),
          Key.of("record", new ListOf(FIELD, 1, RecordField.values().length)),
          Key.of("notice", LINES));

  private TemplateReader() {}

  /** Returns the standard template in one of {@link #LANGUAGES}. */
  public static Template standard(String language) {
    return read(standardText(language), "standard template, " + language);
  }

  /** Returns the standard template as its file, to be edited. */
  public static String standardText(String language) {
    try (InputStream in =
        TemplateReader.class.getResourceAsStream("standard-" + language + ".json")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Reads a template.
   *
   * @param text text of its file (JSON)
   * @param source name of the file in messages
   * @throws InputException with all that is wrong
   */
  public static Template read(String text, String source) {
    JsonNode document = FleetDocument.parse(text.getBytes(StandardCharsets.UTF_8), source);
    Complaints complaints = new Complaints(source, "");
    TEMPLATE.check(document, "", complaints);
    refuse(complaints);
    Item item = new Item(document, TEMPLATE, "");
    Template template = template(item);
    checkSteps(template, item, complaints);
    checkPlaceholders(item, complaints);
    refuse(complaints);
    return template;
  }

  private static void refuse(Complaints complaints) {
    if (!complaints.isEmpty()) {
      throw new InputException(complaints.problems());
    }
  }

  private static Form form(String title, List<String> keys, Shape shape) {
    return Form.of(title, keys.stream().map(k -> Key.of(k, shape)).toArray(Key[]::new));
  }

  private static List<String> words(Housing... housings) {
    return Stream.of(housings).map(Housing::word).toList();
  }

  private static Template template(Item item) {
    Item words = item.item("words");
    Map<Hazard, Template.Caution> cautions = new EnumMap<>(Hazard.class);
    for (Hazard h : Hazard.values()) {
      Item caution = item.item("cautions").item(h.word());
      cautions.put(h, new Template.Caution(caution.text("name"), caution.text("text")));
    }
    Map<Housing, List<String>> otherWay = new EnumMap<>(Housing.class);
    for (Housing h : Housing.values()) {
      otherWay.put(h, item.item("otherWay").texts(h.word()));
    }
    Map<RecordField, String> fields = new LinkedHashMap<>();
    item.items("record").forEach(f -> fields.put(RecordField.of(f.text("field")), f.text("text")));
    return new Template(
        item.text("id"),
        item.text("version"),
        item.text("language"),
        item.text("decimalMark"),
        item.texts("procedures"),
        Template.WORDS.stream().collect(Collectors.toMap(k -> k, words::text)),
        cautions,
        item.items("steps").stream().map(TemplateReader::step).toList(),
        lines(item, "tools"),
        lines(item, "seals"),
        lines(item, "inspect"),
        otherWay,
        fields,
        item.texts("notice"));
  }

  private static Template.Step step(Item item) {
    Set<Hazard> hazards = EnumSet.noneOf(Hazard.class);
    item.texts("hazards").forEach(h -> hazards.add(Hazard.of(h)));
    return new Template.Step(
        Operation.of(item.text("does")), item.text("text"), item.texts("why"), hazards, when(item));
  }

  private static List<Template.Line> lines(Item item, String key) {
    return item.items(key).stream().map(i -> new Template.Line(i.text("text"), when(i))).toList();
  }

  private static Template.When when(Item item) {
    Optional<String> housing = optional(item, "housing");
    Optional<String> tank = optional(item, "tank");
    return new Template.When(
        housing.map(
            word ->
                Stream.of(Housing.values())
                    .filter(h -> h.word().equals(word))
                    .findFirst()
                    .orElseThrow()),
        tank.map(t -> t.equals("pressurised")));
  }

  private static Optional<String> optional(Item item, String key) {
    return item.has(key) ? Optional.of(item.text(key)) : Optional.empty();
  }

  /** Each kind of machine gets its steps in an order that hurts nobody. */
  private static void checkSteps(Template template, Item item, Complaints complaints) {
    Set<String> expected = new TreeSet<>();
    for (Housing housing : Housing.values()) {
      for (boolean pressurised : new boolean[] {true, false}) {
        List<Operation> does =
            template.steps(housing, pressurised).stream().map(Template.Step::does).toList();
        for (StepOrder order : StepOrder.of(housing)) {
          order.broken(does).ifPresent(e -> expected.add(e + " (" + housing.word() + ")"));
        }
      }
    }
    expected.forEach(e -> complaints.add(item.at("steps"), "another order", e));
    for (RecordField f : RecordField.values()) {
      if (f.required() && !template.fields().containsKey(f)) {
        complaints.add(item.at("record"), "no " + f.column(), "a field " + f.column());
      }
    }
  }

  private static void checkPlaceholders(Item item, Complaints complaints) {
    Set<String> all = new TreeSet<>(Placeholders.ALWAYS);
    all.addAll(Placeholders.SOMETIMES);
    Set<Operation> needed = EnumSet.noneOf(Operation.class);
    for (Housing h : Housing.values()) {
      StepOrder.of(h).forEach(o -> needed.addAll(List.of(o.first(), o.then())));
    }
    for (Item step : item.items("steps")) {
      boolean must = needed.contains(Operation.of(step.text("does")));
      check(step.text("text"), step.at("text"), must ? Placeholders.ALWAYS : all, complaints);
      checkAll(step, "why", all, complaints);
    }
    for (Item field : item.items("record")) {
      boolean must = RecordField.of(field.text("field")).required();
      check(field.text("text"), field.at("text"), must ? Placeholders.ALWAYS : all, complaints);
    }
    for (String key : List.of("tools", "seals", "inspect")) {
      item.items(key).forEach(i -> check(i.text("text"), i.at("text"), all, complaints));
    }
    for (Housing h : Housing.values()) {
      checkAll(item.item("otherWay"), h.word(), all, complaints);
    }
    for (Hazard h : Hazard.values()) {
      Item caution = item.item("cautions").item(h.word());
      check(caution.text("text"), caution.at("text"), Placeholders.ALWAYS, complaints);
    }
    checkAll(item, "notice", Placeholders.ALWAYS, complaints);
  }

  private static void checkAll(Item item, String key, Set<String> allowed, Complaints complaints) {
    List<String> texts = new ArrayList<>(item.texts(key));
    for (int i = 0; i < texts.size(); i++) {
      check(texts.get(i), item.at(key) + "/" + i, allowed, complaints);
    }
  }

  private static void check(
      String text, String pointer, Set<String> allowed, Complaints complaints) {
    for (String name : Placeholders.in(text)) {
      if (!allowed.contains(name)) {
        complaints.add(
            pointer,
            "{" + name + "}",
            "one of the placeholders " + String.join(", ", new TreeSet<>(allowed)));
      }
    }
  }
}
