package siltwright.card.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Numbers;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.card.Card;
import siltwright.card.CardRequest;
import siltwright.card.Facts;
import siltwright.cleanliness.Iso4406;
import siltwright.interval.Tuning.CycleAnswer;

/** The service card of a machine. */
@Component
@Capability(namespace = "siltwright.command", name = "card")
public final class CardAnalysis implements Analysis {
  private static final Description DESCRIPTION =
      Description.of(
          "card",
          "Service card",
          "Makes the card for the change: hours, parts, steps in order with their cautions and"
              + " reasons.",
          Scope.MACHINE,
          CardRequest.parameters());

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Card card = CardRequest.card(context, values, progress);
    Facts facts = card.facts();
    Result.Builder result = Result.of(DESCRIPTION, facts.machine(), values);
    result.value("card", "Card", card.id().toString());
    result.value("procedure", "Procedure", facts.way().id());
    result.value("interval_h", "Change after", "h", facts.intervalH());
    facts
        .flatH()
        .ifPresent(
            f ->
                result.add(
                    new Entry.Value(
                        "within5pct_h", "Within 5 %", "h", new Cell.Range(f[0], f[1]))));
    result.value("today_h", "Today", "h", facts.machine().today().intervalH());
    facts.next().meterH().ifPresent(h -> result.value("next_h", "Next change at", "h", h));
    facts.next().weeks().ifPresent(w -> result.value("next_weeks", "Next change in", "weeks", w));
    facts.next().date().ifPresent(d -> result.value("nextDate", "Next change on", d.toString()));
    result.value("element", "Element", facts.machine().returnFilter().element().id());
    ways(facts, result);
    result.add(steps(card));
    result.add(list("tools", card.template().word("tools"), card.tools()));
    result.add(list("seals", card.template().word("seals"), card.seals()));
    result.add(list("inspections", card.template().word("inspect"), card.inspections()));
    result.add(samples(facts));
    findings(facts, result);
    return result.build();
  }

  private static void ways(Facts facts, Result.Builder result) {
    List<List<Cell>> rows = new ArrayList<>();
    facts.right().ifPresent(c -> rows.add(way(facts.way().id(), c, facts.rightRatio())));
    facts
        .other()
        .ifPresent(o -> o.cycle().ifPresent(c -> rows.add(way(o.procedure().id(), c, o.ratio()))));
    result.add(
        new Entry.Table(
            "ways",
            "This way and the other, at the same interval",
            Entry.Use.READ,
            List.of(
                new Entry.Column("procedure", "Procedure", ""),
                new Entry.Column("released_g", "Let into the clean side", "g"),
                new Entry.Column("ratio", "Equivalent filtration ratio, 14–21 µm(c)", "1"),
                new Entry.Column("code", "Code just after the restart", "")),
            rows));
  }

  private static List<Cell> way(String id, CycleAnswer cycle, double ratio) {
    return List.of(
        Cell.of(id),
        Cell.of(cycle.releasedG()),
        Cell.of(ratio),
        Cell.of(Iso4406.code(cycle.startPerMl()).toString()));
  }

  private static Entry.Table steps(Card card) {
    return new Entry.Table(
        "steps",
        card.template().word("steps"),
        Entry.Use.READ,
        List.of(
            new Entry.Column("number", "No.", ""),
            new Entry.Column("cautions", "Heed first", ""),
            new Entry.Column("step", "Step", ""),
            new Entry.Column("why", "Why", "")),
        card.steps().stream()
            .map(
                s ->
                    List.of(
                        Cell.of(Integer.toString(s.number())),
                        Cell.of(
                            s.cautions().stream()
                                .map(Card.Caution::name)
                                .collect(Collectors.joining(", "))),
                        Cell.of(s.text()),
                        Cell.of(String.join(" ", s.why()))))
            .toList());
  }

  private static Entry.Table list(String name, String label, List<String> lines) {
    return new Entry.Table(
        name,
        label,
        Entry.Use.READ,
        List.of(new Entry.Column("line", label, "")),
        lines.stream().map(l -> List.of(Cell.of(l))).toList());
  }

  private static Entry.Table samples(Facts facts) {
    return new Entry.Table(
        "restartSamples",
        "Oil samples after the restart",
        Entry.Use.READ,
        List.of(new Entry.Column("after_min", "Minutes after the restart", "min")),
        facts.samplesMin().stream().map(m -> List.of(Cell.of(m.doubleValue()))).toList());
  }

  private static void findings(Facts facts, Result.Builder result) {
    if (!facts.reason().isEmpty()) {
      result.finding(
          CAUTION,
          "The card bears today's interval, since no other can be told: " + facts.reason() + ".",
          "today/interval_h");
    }
    if (facts.right().isEmpty()) {
      result.finding(
          CAUTION,
          "At this interval no cycle repeats itself: the element cannot hold what comes in, so the"
              + " card tells no grams.",
          "returnFilter/element");
    }
    facts
        .machine()
        .limits()
        .makerMaximumH()
        .ifPresent(
            h -> {
              if (facts.intervalH() > h) {
                result.finding(
                    CAUTION,
                    "The interval is longer than the maker's maximum of "
                        + Numbers.text(h, "h")
                        + " h: that is the maker's to allow.",
                    "limits/makerMaximum_h");
              }
            });
    if (facts.samplesMin().isEmpty()) {
      result.finding(
          NOTE,
          "Nothing takes some sizes out of the oil, so no time for restart samples can be told.",
          "returnFilter");
    }
    result.finding(
        NOTE,
        "The machine maker's manual, local codes and licensed practice come first; where the card"
            + " differs, follow them. The model knows housing, tank, element and hours of the"
            + " machine, not its valves, seals and ladders: look at it before you print.",
        "");
  }
}
