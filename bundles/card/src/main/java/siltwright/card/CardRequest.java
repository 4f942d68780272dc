package siltwright.card;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.FileParameter;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Parameter;
import siltwright.analysis.Progress;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.model.ChangeProcedure;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;

/** What a card is asked for with: the parameters, and the card that their values make. */
public final class CardRequest {
  private static final String TUNED = "tuned";

  /** Which procedure. */
  public static final TextParameter PROCEDURE =
      TextParameter.optional(
          "procedure",
          "the id of a change procedure of the file",
          "how the element is changed; the way that sheds least when left out");

  /** Which interval. */
  public static final ChoiceParameter HOURS =
      new ChoiceParameter(
          "hours",
          List.of(TUNED, "today"),
          TUNED,
          "hours on the card: those that cost least with this procedure, or today's");

  /** Hour meter at this change. */
  public static final NumberParameter METER =
      NumberParameter.optional(
          "meter",
          "h",
          0,
          1_000_000,
          "hour meter at this change, to print when the next one is due; left open when left out");

  /** Use of the machine. */
  public static final NumberParameter USE =
      NumberParameter.optional(
          "use",
          "h/week",
          0.1,
          168,
          "hours of operation a week, to project the next change; not projected when left out");

  /** Day of this change. */
  public static final TextParameter DATE =
      TextParameter.optional(
          "date", "a day such as 2026-03-31", "day of this change; left open when left out");

  /** Language of the standard template. */
  public static final ChoiceParameter LANGUAGE =
      new ChoiceParameter(
          "language",
          TemplateReader.LANGUAGES,
          TemplateReader.LANGUAGES.get(0),
          "language of the standard template; a template of your own has its own");

  /** A template of the team's own. */
  public static final FileParameter TEMPLATE =
      new FileParameter(
          "template", "a card template (JSON)", "your own template; the standard one if left out");

  /** Size of the paper. */
  public static final ChoiceParameter PAGE =
      new ChoiceParameter("page", List.of("a4", "letter"), "a4", "size of the paper");

  private CardRequest() {}

  /** Returns the parameters in the order shown. */
  public static Parameter<?>[] parameters() {
    return new Parameter<?>[] {PROCEDURE, HOURS, METER, USE, DATE, LANGUAGE, TEMPLATE, PAGE};
  }

  /**
   * Returns the template that values ask for.
   *
   * @throws InputException if it is at fault
   */
  public static Template template(Values values) {
    return values
        .find(TEMPLATE)
        .map(file -> TemplateReader.read(file.text(), file.name()))
        .orElseGet(() -> TemplateReader.standard(values.get(LANGUAGE)));
  }

  /**
   * Returns the card of a machine.
   *
   * @throws InputException if template, procedure or date is at fault, or the template has no steps
   *     for the procedure
   */
  public static Card card(Context context, Values values, Progress progress) {
    Machine machine = context.machine();
    Template template = template(values);
    ChangeProcedure way = way(machine, template, values);
    Facts.Hours hours =
        new Facts.Hours(
            values.get(HOURS).equals(TUNED),
            optional(values.find(METER)),
            optional(values.find(USE)),
            values.find(DATE).map(CardRequest::date));
    return Card.of(
        template, Facts.of(context.fleet().orElseThrow(), machine, way, hours, progress));
  }

  private static OptionalDouble optional(Optional<Double> value) {
    return value.map(OptionalDouble::of).orElseGet(OptionalDouble::empty);
  }

  private static LocalDate date(String text) {
    try {
      return LocalDate.parse(text);
    } catch (DateTimeParseException e) {
      throw refusal(DATE, text, DATE.form());
    }
  }

  private static ChangeProcedure way(Machine machine, Template template, Values values) {
    ChangeProcedure cleanest = Facts.cleanest(machine);
    List<ChangeProcedure> described =
        template.procedures().isEmpty()
            ? List.of(cleanest)
            : machine.procedures().stream()
                .filter(p -> template.procedures().contains(p.id()))
                .toList();
    String ids = described.stream().map(ChangeProcedure::id).collect(Collectors.joining(", "));
    Optional<String> asked = values.find(PROCEDURE);
    if (asked.isEmpty() && !described.isEmpty()) {
      return described.contains(cleanest) ? cleanest : described.get(0);
    }
    String id = asked.orElse(cleanest.id());
    return described.stream()
        .filter(p -> p.id().equals(id))
        .findFirst()
        .orElseThrow(
            () ->
                refusal(
                    PROCEDURE,
                    id,
                    (ids.isEmpty() ? "a procedure of " + machine.id() : ids)
                        + ", whose steps the template "
                        + template.id()
                        + " tells for "
                        + machine.id()
                        + "; for others give a template that names them"));
  }

  private static InputException refusal(Parameter<?> p, String found, String expected) {
    return new InputException(new Problem("option", "--" + p.name(), found, expected));
  }
}
