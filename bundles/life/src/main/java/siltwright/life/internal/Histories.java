package siltwright.life.internal;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.life.ExposureClock;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * What components lived through: pieces of hours at one relative wear κ each, out of a table.
 *
 * <p>Unlike the table of lives this one must be sound as a whole, since a piece left out would move
 * every hour after it.
 *
 * @param clocks clock of each component
 * @param references reference codes at which κ is 1, where κ comes from the machine model
 */
record Histories(Map<String, ExposureClock> clocks, Set<String> references) {
  static final String COMPONENT = "component";
  private static final String FROM = "from_hours";
  private static final String TO = "to_hours";
  private static final String KAPPA = "kappa";
  private static final String MACHINE = "machine";
  private static final String CODE = "code";
  private static final String PROCEDURE = "procedure";
  private static final String INTERVAL = "interval_hours";
  private static final double LONGEST_H = 1e7;

  static final List<RecordColumn> COLUMNS =
      List.of(
          RecordColumn.word(COMPONENT, true, "the component, as in the table of lives"),
          RecordColumn.number(FROM, 0, LONGEST_H, true, "age at which the piece begins, h"),
          RecordColumn.number(TO, 0, LONGEST_H, true, "age at which it ends, h"),
          RecordColumn.number(KAPPA, 1e-6, 1e6, false, "relative wear, 1 at the reference code"),
          RecordColumn.word(MACHINE, false, "machine of the fleet file"),
          RecordColumn.word(CODE, false, "mean cleanliness code in its tank"),
          RecordColumn.word(PROCEDURE, false, "change procedure of the machine"),
          RecordColumn.number(INTERVAL, 0.1, 1e5, false, "hours from change to change"));

  private record Piece(int row, double from, double to, double kappa) {}

  /**
   * Takes the histories out of their table.
   *
   * @param fleet machine models that tell κ of codes and procedures
   * @param kind the kind of component in them
   * @throws InputException naming the rows at fault
   */
  static Histories of(Records table, Optional<Fleet> fleet, Optional<String> kind) {
    List<Problem> problems = new ArrayList<>(table.refusals().listed());
    RelativeWear wear = new RelativeWear(fleet, kind);
    Map<String, List<Piece>> pieces = new LinkedHashMap<>();
    for (int i = 0; i < table.rows(); i++) {
      try {
        Piece piece = piece(table, i, wear);
        pieces.computeIfAbsent(text(table, i, COMPONENT), c -> new ArrayList<>()).add(piece);
      } catch (InputException e) {
        problems.addAll(e.problems());
      }
    }
    Map<String, ExposureClock> clocks = new LinkedHashMap<>();
    if (problems.isEmpty()) {
      pieces.forEach((component, of) -> clocks.put(component, clock(table, of, problems)));
    }
    if (problems.isEmpty() && clocks.isEmpty()) {
      problems.add(new Problem(table.source(), "", "no row", "the pieces of each component"));
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return new Histories(clocks, new TreeSet<>(wear.references()));
  }

  private static Piece piece(Records table, int i, RelativeWear wear) {
    for (String needed : List.of(COMPONENT, FROM, TO)) {
      if (text(table, i, needed).isEmpty()) {
        throw fault(table, i, needed, "a value");
      }
    }
    double from = number(table, i, FROM);
    double to = number(table, i, TO);
    if (!(to > from)) {
      throw fault(table, i, TO, "more than from_hours, " + text(table, i, FROM));
    }
    double kappa = number(table, i, KAPPA);
    String machine = text(table, i, MACHINE);
    String code = text(table, i, CODE);
    String procedure = text(table, i, PROCEDURE);
    double interval = number(table, i, INTERVAL);
    boolean given = !Double.isNaN(kappa);
    boolean coded = !code.isEmpty();
    boolean changed = !procedure.isEmpty() || !Double.isNaN(interval);
    if ((given ? 1 : 0) + (coded ? 1 : 0) + (changed ? 1 : 0) != 1) {
      throw fault(
          table, i, "", "one of kappa, code with machine, or procedure and interval_hours with it");
    }
    if (changed && (procedure.isEmpty() || Double.isNaN(interval))) {
      throw fault(table, i, procedure.isEmpty() ? PROCEDURE : INTERVAL, "a value beside the other");
    }
    if (!given) {
      try {
        kappa = coded ? wear.at(machine, code) : wear.at(machine, procedure, interval);
      } catch (RelativeWear.Unknown e) {
        throw fault(table, i, e.column(), e.getMessage());
      }
    }
    return new Piece(i, from, to, kappa);
  }

  private static ExposureClock clock(Records table, List<Piece> pieces, List<Problem> problems) {
    pieces.sort(Comparator.comparingDouble(Piece::from));
    double end = 0;
    for (Piece p : pieces) {
      if (p.from() != end) {
        String expected =
            end == 0
                ? "0: the history begins when the component is new"
                : Say.number(end) + ", where the piece before it ends";
        problems.addAll(fault(table, p.row(), FROM, expected).problems());
        return null;
      }
      end = p.to();
    }
    return ExposureClock.of(
        pieces.stream().mapToDouble(p -> p.to() - p.from()).toArray(),
        pieces.stream().mapToDouble(Piece::kappa).toArray());
  }

  private static InputException fault(Records table, int row, String column, String expected) {
    String place = "row " + table.line(row) + (column.isEmpty() ? "" : ", column " + column);
    String found = column.isEmpty() ? "" : text(table, row, column);
    String value = column.isEmpty() || !found.isEmpty() ? found : "nothing";
    return new InputException(new Problem(table.source(), place, value, expected));
  }

  private static String text(Records table, int row, String column) {
    return table.find(column).map(c -> c.text(row)).orElse("");
  }

  private static double number(Records table, int row, String column) {
    return table.numbers(column).map(v -> v[row]).orElse(Double.NaN);
  }
}
