package siltwright.interval.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import siltwright.analysis.Numbers;
import siltwright.cleanliness.Iso4406;
import siltwright.interval.Trial;
import siltwright.interval.Tuning.CycleAnswer;
import siltwright.model.Machine;
import siltwright.model.Units;

/**
 * What is read at an interval of a curve, one text a row.
 *
 * @param machine the machine under the supposition
 * @param trial the supposition
 * @param intervalH interval, h
 * @param cycle the cycle there; empty where none repeats itself
 */
record Reading(Machine machine, Trial trial, double intervalH, Optional<CycleAnswer> cycle) {
  static final List<String> ROWS =
      List.of(
          "interval",
          "procedure",
          "element",
          "cost",
          "saving",
          "codeAfter",
          "codeMean",
          "codeEnd",
          "drop",
          "bypass",
          "load",
          "released");

  /** Returns the heading of a row, with its unit. */
  static String heading(String row, String currency, Units units) {
    String unit =
        switch (row) {
          case "interval" -> "h";
          case "cost", "saving" -> currency + "/h";
          case "drop" -> units.unit("kPa");
          case "bypass" -> "%";
          case "released" -> "g";
          default -> "";
        };
    return Words.of("row." + row) + (unit.isEmpty() ? "" : " (" + unit + ")");
  }

  /**
   * Returns the texts in the order of {@link #ROWS}.
   *
   * @param todayPerH cost of today's way as the file has it; not a number where there is none
   */
  List<String> texts(double todayPerH, String currency, Units units) {
    List<String> texts = new ArrayList<>();
    texts.add(Numbers.text(Math.rint(intervalH), "h"));
    texts.add(trial.procedure());
    texts.add(machine.returnFilter().element().id());
    if (cycle.isEmpty()) {
      texts.add(Words.of("noCycle"));
      while (texts.size() < ROWS.size()) {
        texts.add(Numbers.NONE);
      }
      return texts;
    }
    CycleAnswer c = cycle.get();
    String money = currency + "/h";
    texts.add(Numbers.text(c.split().total(), money));
    texts.add(Numbers.text(todayPerH - c.split().total(), money));
    texts.add(Iso4406.code(c.startPerMl()).toString());
    texts.add(Iso4406.code(c.meanPerMl()).toString());
    texts.add(Iso4406.code(c.endPerMl()).toString());
    int warm = machine.indicatorStateIndex();
    texts.add(Numbers.text(units.shown(c.dropKPa()[warm], "kPa")));
    texts.add(Numbers.text(Math.rint(1000 * c.bypassShare()[warm]) / 10));
    texts.add(Numbers.text(c.retainedG() / machine.returnFilter().element().capacityG()));
    texts.add(Numbers.text(c.releasedG()));
    return texts;
  }
}
