package siltwright.card;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.zip.CRC32;
import siltwright.model.Housing;

/**
 * A card, ready to be printed: every text in its place and filled.
 *
 * @param id what card and record are known by
 * @param template the template
 * @param facts the numbers
 * @param steps steps in order
 * @param tools tools and materials
 * @param seals seals and small parts
 * @param inspections what to look at
 * @param otherWay what goes wrong the other way
 * @param fields what to write down, in order, with its label
 * @param notice what comes before everything
 * @param values values of the placeholders, as printed
 */
public record Card(
    Id id,
    Template template,
    Facts facts,
    List<Step> steps,
    List<String> tools,
    List<String> seals,
    List<String> inspections,
    List<String> otherWay,
    Map<RecordField, String> fields,
    List<String> notice,
    Map<String, String> values) {

  /**
   * A caution before a step.
   *
   * @param hazard what can hurt
   * @param name its name
   * @param text what the harm is and how to keep clear of it
   * @param first whether it is the first on the card; later ones are reminders by name
   */
  public record Caution(Hazard hazard, String name, String text, boolean first) {}

  /**
   * A step.
   *
   * @param number its number, from 1
   * @param does what it does
   * @param cautions what to heed before it, in order
   * @param text what to do
   * @param why why, sentence by sentence
   */
  public record Step(
      int number, Operation does, List<Caution> cautions, String text, List<String> why) {
    public Step {
      cautions = List.copyOf(cautions);
      why = List.copyOf(why);
    }
  }

  /**
   * What a card is known by. Ids of fleet and template hold no slash, so that it can be taken
   * apart.
   *
   * @param machine id of the machine
   * @param procedure id of the procedure
   * @param template id of the template
   * @param version version of the template
   * @param sum check sum of all that is printed: cards that differ have different ones
   */
  public record Id(String machine, String procedure, String template, String version, String sum) {
    private static final int PARTS = 5;

    @Override
    public String toString() {
      return String.join("/", machine, procedure, template, version, sum);
    }

    /**
     * Reads an id.
     *
     * @throws IllegalArgumentException if it is none
     */
    public static Id of(String text) {
      String[] parts = text.split("/", -1);
      if (parts.length != PARTS
          || List.of(parts).contains("")
          || !parts[PARTS - 1].matches("[0-9a-f]{8}")) {
        throw new IllegalArgumentException(
            "an id as printed on a card: machine/procedure/template/version/check sum");
      }
      return new Id(parts[0], parts[1], parts[2], parts[3], parts[4]);
    }
  }

  /** Fills a template with the numbers of a machine. */
  public static Card of(Template template, Facts facts) {
    Map<String, String> values = facts.values(template.decimalMark());
    Housing housing = facts.machine().returnFilter().housing();
    boolean pressurised = facts.machine().reservoir().pressurised();
    List<Step> steps = new ArrayList<>();
    Set<Hazard> told = EnumSet.noneOf(Hazard.class);
    for (Template.Step step : template.steps(housing, pressurised)) {
      Placeholders.fill(step.text(), values)
          .ifPresent(
              text ->
                  steps.add(
                      new Step(
                          steps.size() + 1,
                          step.does(),
                          cautions(step, template, values, told),
                          text,
                          filled(step.why(), values))));
    }
    List<String> tools = lines(template.tools(), housing, pressurised, values);
    List<String> seals = lines(template.seals(), housing, pressurised, values);
    List<String> inspections = lines(template.inspections(), housing, pressurised, values);
    List<String> otherWay = filled(template.otherWay().get(housing), values);
    Map<RecordField, String> fields = new LinkedHashMap<>();
    template
        .fields()
        .forEach((f, text) -> Placeholders.fill(text, values).ifPresent(t -> fields.put(f, t)));
    List<String> notice = filled(template.notice(), values);
    Id id =
        new Id(
            facts.machine().id(),
            facts.way().id(),
            template.id(),
            template.version(),
            sum(steps, tools, seals, inspections, otherWay, notice, values, fields));
    return new Card(
        id, template, facts, steps, tools, seals, inspections, otherWay, fields, notice, values);
  }

  /** In the order of the hazards, each told in full the first time. */
  private static List<Caution> cautions(
      Template.Step step, Template template, Map<String, String> values, Set<Hazard> told) {
    Set<Hazard> hazards = new TreeSet<>(step.does().hazards());
    hazards.addAll(step.hazards());
    return hazards.stream()
        .map(
            h -> {
              Template.Caution c = template.cautions().get(h);
              String text = Placeholders.fill(c.text(), values).orElseThrow();
              return new Caution(h, c.name(), text, told.add(h));
            })
        .toList();
  }

  private static List<String> lines(
      List<Template.Line> lines, Housing housing, boolean pressurised, Map<String, String> values) {
    return filled(
        lines.stream()
            .filter(l -> l.when().holds(housing, pressurised))
            .map(Template.Line::text)
            .toList(),
        values);
  }

  private static List<String> filled(List<String> texts, Map<String, String> values) {
    return texts.stream().flatMap(t -> Placeholders.fill(t, values).stream()).toList();
  }

  private static String sum(Object... printed) {
    CRC32 sum = new CRC32();
    sum.update(List.of(printed).toString().getBytes(StandardCharsets.UTF_8));
    return String.format(Locale.ROOT, "%08x", sum.getValue());
  }
}
