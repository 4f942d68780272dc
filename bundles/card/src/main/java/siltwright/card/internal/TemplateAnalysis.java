package siltwright.card.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.card.CardRequest;
import siltwright.card.Hazard;
import siltwright.card.Template;

/** A card template: whether it can be used, and what is in it. */
@Component
@Capability(namespace = "siltwright.command", name = "card-template")
public final class TemplateAnalysis implements Analysis {
  static final Description DESCRIPTION =
      Description.of(
          "card-template",
          "Card template",
          "Checks a card template and lists its steps; the standard one is a start for your own.",
          Scope.NONE,
          CardRequest.LANGUAGE,
          CardRequest.TEMPLATE);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Template template = CardRequest.template(values);
    List<List<Cell>> rows = new ArrayList<>();
    for (Template.Step s : template.steps()) {
      Set<Hazard> hazards = new TreeSet<>(s.does().hazards());
      hazards.addAll(s.hazards());
      rows.add(
          List.of(
              Cell.of(s.does().word()),
              Cell.of(
                  s.when().housing().map(h -> h.word()).orElse("every")
                      + s.when()
                          .pressurised()
                          .map(p -> p ? ", pressurised" : ", vented")
                          .orElse("")),
              Cell.of(hazards.stream().map(Hazard::word).collect(Collectors.joining(", "))),
              Cell.of(s.text())));
    }
    return Result.of(DESCRIPTION, "", values)
        .value("template", "Template", template.id())
        .value("version", "Version", template.version())
        .value("language", "Language", template.language())
        .value(
            "procedures",
            "Procedures",
            template.procedures().isEmpty()
                ? "the one that sheds least"
                : String.join(", ", template.procedures()))
        .add(
            new Entry.Table(
                "steps",
                "Steps",
                Entry.Use.READ,
                List.of(
                    new Entry.Column("does", "Does", ""),
                    new Entry.Column("for", "For", ""),
                    new Entry.Column("hazards", "Hazards", ""),
                    new Entry.Column("text", "Text", "")),
                rows))
        .build();
  }
}
