package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.fleet.Compliance;
import siltwright.model.CleanlinessCode;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Oil samples out of a table, row by row checked.
 *
 * @param kept the rows that are sound, with all refusals
 * @param hours the hours of each machine within the target
 * @param groups the group of each machine
 */
record SampleRecords(Records kept, Compliance hours, Groups groups) {
  /**
   * Makes samples of a table.
   *
   * @throws InputException if no row is sound or there are too few groups
   */
  static SampleRecords of(Records table, Settings s) {
    Refusals refusals = table.refusals();
    Records.Words names = (Records.Words) table.find(Columns.MACHINE).orElseThrow();
    int[] machine = names.codes();
    int machines = names.words().size();
    double[] at = table.numbers(Columns.HOURS).orElseThrow();
    Records.Words codes = (Records.Words) table.find(s.clean().orElseThrow()).orElseThrow();
    CleanlinessCode target = s.target().orElseThrow();
    int[] within = codes.words().stream().mapToInt(word -> within(word, target)).toArray();
    MachineValues by = new MachineValues(table.find(s.by()).orElseThrow(), machine, machines);
    if (!s.cuts().isEmpty() && !(table.find(s.by()).orElseThrow() instanceof Records.Numbers)) {
      throw CompareAnalysis.fault("--cut", s.by(), "a column of numbers for --by");
    }
    Set<List<Double>> seen = new HashSet<>();
    for (int i = 0; i < at.length; i++) {
      int code = codes.codes()[i];
      String wrong = null;
      String column = Columns.HOURS;
      if (machine[i] < 0) {
        column = Columns.MACHINE;
        wrong = "the name of a machine";
      } else if (Double.isNaN(at[i])) {
        wrong = "a number: the hour meter when the sample was taken";
      } else if (code < 0 || within[code] < 0) {
        column = s.clean().get();
        wrong = "a cleanliness code such as 18/16/13";
      } else if (by.missing(machine[i])) {
        column = s.by();
        wrong = "a value in one of the rows of the machine";
      } else if (by.differs(machine[i], i)) {
        column = s.by();
        wrong = by.text(machine[i]) + " as in the machine's other rows";
      } else if (!seen.add(List.of((double) machine[i], at[i]))) {
        wrong = "an hour of its own: there is a sample of the machine at this hour already";
      }
      if (wrong != null) {
        int row = i;
        String found = table.find(column).map(c -> c.text(row)).orElse("");
        refusals.refuse(table.line(i), column, found.isEmpty() ? "nothing" : found, wrong);
      }
    }
    Records kept = table.where(i -> !refusals.refused(table.line(i)), refusals);
    if (kept.rows() == 0) {
      List<Problem> problems = new ArrayList<>(refusals.listed());
      problems.add(new Problem(table.source(), "", "no sound row", "at least one"));
      throw new InputException(problems);
    }
    int[] place = new int[machines];
    Arrays.fill(place, -1);
    List<Integer> from = new ArrayList<>();
    int[] keptMachine = ((Records.Words) kept.find(Columns.MACHINE).orElseThrow()).codes();
    for (int m : keptMachine) {
      if (place[m] < 0) {
        place[m] = from.size();
        from.add(m);
      }
    }
    Records.Words keptCodes = (Records.Words) kept.find(s.clean().get()).orElseThrow();
    boolean[] good = new boolean[kept.rows()];
    for (int i = 0; i < good.length; i++) {
      good[i] = within[keptCodes.codes()[i]] == 1;
    }
    Groups groups =
        Groups.of(
            from.stream().map(by::text).toList(),
            s.cuts().isEmpty()
                ? Optional.empty()
                : Optional.of(from.stream().mapToDouble(by::number).toArray()),
            s,
            table);
    return new SampleRecords(
        kept,
        Compliance.of(
            from.size(),
            Arrays.stream(keptMachine).map(m -> place[m]).toArray(),
            kept.numbers(Columns.HOURS).orElseThrow(),
            good),
        groups);
  }

  /** Returns whether a code is within a target (1) or not (0); -1 if it is no code. */
  private static int within(String word, CleanlinessCode target) {
    try {
      CleanlinessCode code = CleanlinessCode.parse(word);
      return code.at4() <= target.at4()
              && code.at6() <= target.at6()
              && code.at14() <= target.at14()
          ? 1
          : 0;
    } catch (IllegalArgumentException e) {
      return -1;
    }
  }
}
