package siltwright.card.view;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import siltwright.analysis.Progress;
import siltwright.card.Card;
import siltwright.card.Facts;
import siltwright.card.RecordField;
import siltwright.card.Template;
import siltwright.card.TemplateReader;
import siltwright.model.ChangeProcedure;
import siltwright.model.Fleet;
import siltwright.model.Machine;

/**
 * What is to be written down on a card.
 *
 * @param id id of the card as it would be printed now; empty where that is not known
 * @param fields places of the card in order, with what is printed beside each
 * @param template the template, whose words are those of the card
 */
record Printed(Optional<Card.Id> id, Map<RecordField, String> fields, Template template) {
  /** Returns every place that a card can have, for one whose template is not here. */
  static Printed everything() {
    Map<RecordField, String> fields = new LinkedHashMap<>();
    for (RecordField f : RecordField.values()) {
      fields.put(f, capital(f.meaning()));
    }
    return new Printed(
        Optional.empty(), fields, TemplateReader.standard(TemplateReader.LANGUAGES.get(0)));
  }

  private static String capital(String text) {
    return Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }

  /** Computes what is printed on the card of a machine with the hours that cost least. */
  static Printed of(
      Fleet fleet, Machine machine, ChangeProcedure way, Template template, Progress progress) {
    Facts.Hours hours =
        new Facts.Hours(true, OptionalDouble.empty(), OptionalDouble.empty(), Optional.empty());
    Card card = Card.of(template, Facts.of(fleet, machine, way, hours, progress));
    return new Printed(Optional.of(card.id()), card.fields(), template);
  }

  /** Returns the procedures of a machine whose steps a template tells. */
  static List<ChangeProcedure> ways(Machine machine, Template template) {
    return template.procedures().isEmpty()
        ? List.of(Facts.cleanest(machine))
        : machine.procedures().stream()
            .filter(p -> template.procedures().contains(p.id()))
            .toList();
  }

  /** Returns what stands beside a field, without the unit, which stands behind it. */
  static String label(RecordField field, String printed) {
    String unit = ", " + field.unit();
    String text =
        !field.unit().isEmpty() && printed.endsWith(unit)
            ? printed.substring(0, printed.length() - unit.length())
            : printed;
    return text.endsWith(":") ? text.substring(0, text.length() - 1) : text;
  }
}
