package siltwright.fleet.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import siltwright.analysis.NaturalOrder;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.RecordsParameter;
import siltwright.analysis.Result;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Saved selections: a table that says of machines which selection each belongs to, so that groups
 * need no column of the records.
 *
 * @param table the records of the machines that are selected, with their selection as a column
 * @param unselected machines with records that are in no selection, in natural order
 * @param leftOut rows of those
 * @param unknown machines that are selected but have no record, in natural order
 */
record Selections(Records table, List<String> unselected, int leftOut, List<String> unknown) {
  /** Name of the column that a selection becomes. */
  static final String COLUMN = "selection";

  static final RecordsParameter PARAMETER =
      new RecordsParameter(
          "selections",
          List.of(
              RecordColumn.word(Columns.MACHINE, true, "name of the machine, as in the records"),
              RecordColumn.word(COLUMN, true, "selection that it belongs to")),
          "saved selections: a table with columns machine and selection, a row a machine; the"
              + " selection is then the column "
              + COLUMN
              + " for --by, and machines in none are left out");

  /** Machines named in a sentence; the others are counted. */
  private static final int MOST_NAMED = 8;

  /**
   * Gives each row of the records the selection of its machine.
   *
   * @throws InputException if a row of the selections is incomplete, a machine is in two of them,
   *     the records have no column machine, or none of their machines is selected
   */
  static Selections join(Records table, Records selections) {
    Map<String, String> of = read(selections);
    if (!(table.find(Columns.MACHINE).orElse(null) instanceof Records.Words machines)) {
      throw new InputException(
          new Problem(
              table.source(),
              "row 1",
              "no column " + Columns.MACHINE,
              "a column " + Columns.MACHINE + ", by which --selections finds its machines"));
    }
    Set<String> known = Set.copyOf(machines.words());
    List<String> names = of.values().stream().distinct().toList();
    int[] code =
        machines.words().stream().mapToInt(m -> names.indexOf(of.getOrDefault(m, ""))).toArray();
    if (Arrays.stream(code).allMatch(c -> c < 0)) {
      throw new InputException(
          new Problem(
              selections.source(),
              "column " + Columns.MACHINE,
              named(List.copyOf(of.keySet())),
              "machines of " + table.source() + ", such as " + named(machines.words())));
    }
    int[] byRow = Arrays.stream(machines.codes()).map(m -> m < 0 ? -1 : code[m]).toArray();
    List<Records.Column> columns = new ArrayList<>(table.columns());
    columns.add(new Records.Words(COLUMN, names, byRow));
    int[] lines = IntStream.range(0, table.rows()).map(table::line).toArray();
    // A row without a machine stays, to be refused with its reason.
    Records joined =
        new Records(table.source(), lines, columns, table.refusals(), table.notes())
            .where(i -> byRow[i] >= 0 || machines.missing(i), table.refusals());
    return new Selections(
        joined,
        IntStream.range(0, code.length)
            .filter(m -> code[m] < 0)
            .mapToObj(machines.words()::get)
            .sorted(NaturalOrder::compare)
            .toList(),
        table.rows() - joined.rows(),
        of.keySet().stream()
            .filter(m -> !known.contains(m))
            .sorted(NaturalOrder::compare)
            .toList());
  }

  /** Returns the selection of each machine, in the table's order. */
  private static Map<String, String> read(Records selections) {
    List<Problem> problems = new ArrayList<>(selections.refusals().listed());
    Records.Column machine = selections.find(Columns.MACHINE).orElseThrow();
    Records.Column selection = selections.find(COLUMN).orElseThrow();
    Map<String, String> of = new LinkedHashMap<>();
    Map<String, Integer> line = new HashMap<>();
    for (int i = 0; i < selections.rows(); i++) {
      String m = machine.text(i);
      String s = selection.text(i);
      String row = "row " + selections.line(i) + ", column ";
      if (m.isEmpty()) {
        problems.add(
            new Problem(
                selections.source(), row + Columns.MACHINE, "nothing", "the name of a machine"));
      } else if (s.isEmpty()) {
        problems.add(
            new Problem(selections.source(), row + COLUMN, "nothing", "the name of a selection"));
      } else if (!of.getOrDefault(m, s).equals(s)) {
        problems.add(
            new Problem(
                selections.source(),
                row + COLUMN,
                s,
                of.get(m)
                    + ", as machine "
                    + m
                    + " has in row "
                    + line.get(m)
                    + ": a machine belongs to one selection"));
      } else {
        of.put(m, s);
        line.putIfAbsent(m, selections.line(i));
      }
    }
    if (problems.isEmpty() && of.isEmpty()) {
      problems.add(new Problem(selections.source(), "", "no row", "at least one machine"));
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return of;
  }

  /** Tells who is missing on either side. */
  void findings(Result.Builder result) {
    if (!unknown.isEmpty()) {
      result.finding(
          CAUTION,
          Words.count(unknown.size(), "selected machine has", "selected machines have")
              + " no record here: "
              + named(unknown)
              + ". Is the name written as in the records?",
          "groups");
    }
    if (!unselected.isEmpty()) {
      result.finding(
          NOTE,
          Words.count(unselected.size(), "machine is", "machines are")
              + " in no selection and left out, with "
              + Words.count(leftOut, "row", "rows")
              + ": "
              + named(unselected)
              + ".",
          "groups");
    }
  }

  private static String named(List<String> machines) {
    return machines.size() <= MOST_NAMED
        ? Words.list(machines)
        : String.join(", ", machines.subList(0, MOST_NAMED))
            + " and "
            + (machines.size() - MOST_NAMED)
            + " more";
  }
}
