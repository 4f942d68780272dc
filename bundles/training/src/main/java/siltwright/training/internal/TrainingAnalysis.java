package siltwright.training.internal;

import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.List;
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
import siltwright.training.Pack;

/** What an instructor teaches from. */
@Component
@Capability(namespace = "siltwright.command", name = "training")
public final class TrainingAnalysis implements Analysis {
  private static final Description DESCRIPTION =
      Description.of(
          "training",
          "Training pack",
          "Shows a class what the shortcut costs on its own machines, with a quiz and its answers.",
          Scope.FLEET,
          Pack.parameters());

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Pack pack = Pack.of(context, values, progress);
    Result.Builder result = Result.of(DESCRIPTION, pack.fleet().name(), values);
    result.value("use_h_per_year", "Use", "h/year", pack.useHPerYear());
    result.value(
        "costPerYear",
        "Shortcut on all machines",
        pack.fleet().currency() + "/year",
        pack.lessons().stream().mapToDouble(l -> l.perYearMoney()).sum());
    result.add(lessons(pack));
    result.add(quiz(pack));
    pack.without()
        .forEach(
            id ->
                result.finding(
                    NOTE,
                    "No lesson from "
                        + id
                        + ": it has one way to change only, or today's interval overloads its"
                        + " element in one of them.",
                    id));
    if (pack.lessons().stream().anyMatch(l -> l.perYearMoney() < 0)) {
      result.finding(
          NOTE,
          "On some machines the shortcut comes out cheaper. Say so in class: it is so where little"
              + " dirt comes in or a filter stands before what would wear. It sheds all the same.",
          "");
    }
    result.finding(
        NOTE,
        "A pack teaches; it allows nobody to open a machine. The machine maker's manual, local codes"
            + " and licensed practice come first.",
        "");
    return result.build();
  }

  private static Entry.Table lessons(Pack pack) {
    String perH = pack.fleet().currency() + "/h";
    return new Entry.Table(
        "lessons",
        "The right and the wrong way at today's interval",
        Entry.Use.READ,
        List.of(
            new Entry.Column("machine", "Machine", ""),
            new Entry.Column("right", "Right", ""),
            new Entry.Column("wrong", "Wrong", ""),
            new Entry.Column("interval_h", "Interval", "h"),
            new Entry.Column("rightReleased_g", "Shed, right", "g"),
            new Entry.Column("wrongReleased_g", "Shed, wrong", "g"),
            new Entry.Column("rightRatio", "Ratio, right", "1"),
            new Entry.Column("wrongRatio", "Ratio, wrong", "1"),
            new Entry.Column("rightCostPerHour", "Cost, right", perH),
            new Entry.Column("wrongCostPerHour", "Cost, wrong", perH),
            new Entry.Column("perYear", "Shortcut", pack.fleet().currency() + "/year")),
        pack.lessons().stream()
            .map(
                l ->
                    List.of(
                        Cell.of(l.machine().id()),
                        Cell.of(l.right().procedure().id()),
                        Cell.of(l.wrong().procedure().id()),
                        Cell.of(l.right().cycle().intervalH()),
                        Cell.of(l.right().cycle().releasedG()),
                        Cell.of(l.wrong().cycle().releasedG()),
                        Cell.of(l.right().ratio()),
                        Cell.of(l.wrong().ratio()),
                        Cell.of(l.right().cycle().split().total()),
                        Cell.of(l.wrong().cycle().split().total()),
                        Cell.of(l.perYearMoney())))
            .toList());
  }

  private static Entry.Table quiz(Pack pack) {
    return new Entry.Table(
        "quiz",
        "Quiz",
        Entry.Use.READ,
        List.of(
            new Entry.Column("machine", "Machine", ""),
            new Entry.Column("question", "Question", ""),
            new Entry.Column("answer", "Answer", ""),
            new Entry.Column("working", "Working", "", Entry.Use.DATA)),
        pack.quiz().questions().stream()
            .map(
                q ->
                    List.of(
                        Cell.of(q.machine().id()),
                        Cell.of(q.text()),
                        Cell.of(q.answer()),
                        Cell.of(String.join(" ", q.working()))))
            .toList());
  }
}
