package siltwright.life.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.life.ExposureClock;
import siltwright.life.LifeData;
import siltwright.model.CleanlinessCode;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Records of lives out of a table, row by row checked.
 *
 * @param kept the rows that are sound, with all refusals
 * @param data the rows as lives, failures of other modes than the one studied taken as removals
 * @param modes the rows with the mode of each failure, where the table has modes and they are
 *     wanted
 * @param modeNames failure modes in the table
 */
public record LifeRecords(
    Records kept, LifeData data, Optional<LifeData> modes, List<String> modeNames) {
  private static final double LONGEST_H = 1e7;
  private static final String HOURS = "hours";
  private static final String EVENT = "event";
  private static final String ENTRY = "entry_hours";
  private static final String LOWER = "lower_hours";
  private static final String UPPER = "upper_hours";
  private static final String COUNT = "count";
  private static final String MODE = "mode";
  private static final List<String> OURS = List.of(HOURS, EVENT, ENTRY, LOWER, UPPER, COUNT);

  /** Makes lives of a table with covariates and nothing else, for {@code LifeTable}. */
  public static LifeRecords of(Records table, List<String> covariates) {
    Settings plain =
        new Settings(
            List.of(),
            covariates,
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            false,
            false,
            Laws.CONFIDENCE,
            Optional.empty(),
            0,
            0);
    return of(table, plain, Optional.empty());
  }

  static List<RecordColumn> columns(Settings settings) {
    List<RecordColumn> columns =
        new ArrayList<>(
            List.of(
                RecordColumn.number(
                    HOURS, 0, LONGEST_H, false, "age when it failed or was last seen, h"),
                RecordColumn.word(EVENT, false, "1 failed, 0 taken out or still running"),
                RecordColumn.number(
                    ENTRY, 0, LONGEST_H, false, "age when watching began, h; empty if new"),
                RecordColumn.number(
                    LOWER, 0, LONGEST_H, false, "age when last seen alive before it failed, h"),
                RecordColumn.number(UPPER, 0, LONGEST_H, false, "age when first seen failed, h"),
                RecordColumn.number(COUNT, 0, 1e9, false, "components the row stands for")));
    columns.add(RecordColumn.word(MODE, settings.mode().isPresent(), "failure mode, for failures"));
    if (settings.histories() && !settings.covariates().contains(Histories.COMPONENT)) {
      columns.add(RecordColumn.word(Histories.COMPONENT, true, "the component of the history"));
    }
    for (String name : settings.covariates()) {
      if (OURS.contains(name)) {
        throw new InputException(
            new Problem("option", "--covariate", name, "a column beside those of the life itself"));
      }
      if (settings.clean().filter(name::equals).isPresent()) {
        columns.removeIf(c -> c.name().equals(name));
        columns.add(RecordColumn.word(name, true, "cleanliness code"));
      } else if (!name.equals(MODE)) {
        columns.add(RecordColumn.either(name, "a covariate"));
      } else {
        throw new InputException(
            new Problem(
                "option", "--covariate", name, "--mode, since modes are known of failures only"));
      }
    }
    return columns;
  }

  /**
   * Makes lives of a table.
   *
   * @param histories what the components lived through, if lives are told on the exposure clock
   * @throws InputException if no row is sound or the mode wanted does not occur
   */
  static LifeRecords of(Records table, Settings settings, Optional<Histories> histories) {
    boolean bounds = table.find(LOWER).isPresent() && table.find(UPPER).isPresent();
    for (String needed : List.of(HOURS, EVENT)) {
      if (table.find(needed).isEmpty() && !bounds) {
        String notes = table.notes().isEmpty() ? "" : "; " + String.join(" ", table.notes());
        throw new InputException(
            new Problem(
                table.source(),
                "row 1",
                "no column " + needed,
                "columns hours and event, or lower_hours and upper_hours" + notes));
      }
    }
    Rows rows = new Rows(table, settings);
    histories.ifPresent(h -> rows.onto(h.clocks()));
    boolean all = rows.refusals.count() == table.refusals().count();
    Records kept = all ? table : table.where(rows::sound, rows.refusals);
    if (kept.rows() == 0) {
      List<Problem> problems = new ArrayList<>(rows.refusals.listed());
      problems.add(new Problem(table.source(), "", "no sound row", "at least one"));
      throw new InputException(problems);
    }
    LifeData data =
        all
            ? LifeData.ofColumns(rows.lower, rows.upper, rows.entry, rows.count)
            : LifeData.ofColumns(
                rows.picked(rows.lower),
                rows.picked(rows.upper),
                rows.picked(rows.entry),
                rows.picked(rows.count));
    for (String name : settings.covariates()) {
      data = withCovariate(data, kept, name, settings);
    }
    List<String> names = modeNames(kept, data);
    if (settings.mode().isEmpty()) {
      return new LifeRecords(kept, data, Optional.empty(), names);
    }
    String mode = settings.mode().get();
    if (!names.contains(mode)) {
      throw new InputException(
          new Problem("option", "--mode", mode, "one of " + String.join(", ", names)));
    }
    Records.Column column = kept.find(MODE).orElseThrow();
    String[] of = new String[kept.rows()];
    Arrays.setAll(of, column::text);
    LifeData every = data.withModes(of);
    double[] lower = new double[of.length];
    double[] upper = new double[of.length];
    for (int i = 0; i < of.length; i++) {
      boolean other = every.failed(i) && !of[i].equals(mode);
      lower[i] = every.lowerH(i);
      upper[i] = other ? Double.POSITIVE_INFINITY : every.upperH(i);
    }
    double[] entry = new double[of.length];
    double[] count = new double[of.length];
    Arrays.setAll(entry, every::entryH);
    Arrays.setAll(count, every::countAt);
    LifeData one = LifeData.ofColumns(lower, upper, entry, count);
    for (String name : settings.covariates()) {
      one = withCovariate(one, kept, name, settings);
    }
    return new LifeRecords(
        kept, one, every.hasIntervals() ? Optional.empty() : Optional.of(every), names);
  }

  private static List<String> modeNames(Records kept, LifeData data) {
    Optional<Records.Column> column = kept.find(MODE);
    if (column.isEmpty()) {
      return List.of();
    }
    List<String> names = new ArrayList<>();
    for (int i = 0; i < kept.rows(); i++) {
      String mode = column.get().text(i);
      if (data.failed(i) && !mode.isEmpty() && !names.contains(mode)) {
        names.add(mode);
      }
    }
    names.sort(null);
    return List.copyOf(names);
  }

  private static LifeData withCovariate(
      LifeData data, Records kept, String name, Settings settings) {
    Records.Column column = kept.find(name).orElseThrow();
    if (settings.clean().filter(name::equals).isPresent()) {
      double[] codes = new double[kept.rows()];
      Arrays.setAll(codes, i -> code(column.text(i)));
      return data.withCovariate(name, codes);
    }
    if (column instanceof Records.Numbers numbers) {
      return data.withCovariate(name, numbers.values());
    }
    String[] words = new String[kept.rows()];
    Arrays.setAll(words, column::text);
    return data.withCovariate(name, words);
  }

  /** Returns the number at 6 µm(c) of a cleanliness, or no number if the text is none. */
  static double code(String text) {
    try {
      double number =
          text.indexOf('/') < 0
              ? Double.parseDouble(text.replace(',', '.'))
              : CleanlinessCode.parse(text).at6();
      return number >= 0 && number <= CleanlinessCode.HIGHEST ? number : Double.NaN;
    } catch (IllegalArgumentException e) {
      return Double.NaN;
    }
  }

  /** The rows while they are checked. */
  private static final class Rows {
    private final Records table;
    private final Settings settings;
    final Refusals refusals;
    final double[] lower;
    final double[] upper;
    final double[] entry;
    final double[] count;

    Rows(Records table, Settings settings) {
      this.table = table;
      this.settings = settings;
      refusals = table.refusals();
      int n = table.rows();
      lower = new double[n];
      upper = new double[n];
      double[] allHours = table.numbers(HOURS).orElse(null);
      Records.Words events = (Records.Words) table.find(EVENT).orElse(null);
      int[] failed =
          events == null ? null : events.words().stream().mapToInt(Rows::event).toArray();
      double[] lowers = table.numbers(LOWER).orElse(null);
      double[] uppers = table.numbers(UPPER).orElse(null);
      for (int i = 0; i < n; i++) {
        int code = events == null ? -1 : events.codes()[i];
        double hours = allHours == null ? Double.NaN : allHours[i];
        double from = lowers == null ? Double.NaN : lowers[i];
        double to = uppers == null ? Double.NaN : uppers[i];
        boolean bounds = !Double.isNaN(from) || !Double.isNaN(to);
        int event = code >= 0 ? failed[code] : bounds ? (Double.isNaN(to) ? 0 : 1) : -1;
        if (event < 0) {
          refuse(i, EVENT, "1 (failed) or 0 (taken out or still running)");
        } else if (bounds && !Double.isNaN(to)) {
          between(i, hours, from, to, event);
        } else {
          at(i, hours, from, event);
        }
      }
      entry = table.numbers(ENTRY).map(this::entries).orElse(null);
      count = table.numbers(COUNT).map(this::counts).orElse(null);
      covariates();
      modes();
    }

    /** Turns hours into hours of exposure. */
    void onto(Map<String, ExposureClock> clocks) {
      Records.Column column = table.find(Histories.COMPONENT).orElseThrow();
      for (int i = 0; i < table.rows(); i++) {
        if (!sound(i)) {
          continue;
        }
        ExposureClock clock = clocks.get(column.text(i));
        double end = upper[i] == Double.POSITIVE_INFINITY ? lower[i] : upper[i];
        if (clock == null) {
          refuse(i, Histories.COMPONENT, "a component of the table --history");
        } else if (end > clock.coveredH() * (1 + 1e-12)) {
          String covered = "at most " + Say.number(clock.coveredH()) + ", where its history ends";
          refuse(i, text(i, HOURS).isEmpty() ? UPPER : HOURS, covered);
        } else {
          lower[i] = clock.exposureH(lower[i]);
          upper[i] = clock.exposureH(upper[i]);
          if (entry != null) {
            entry[i] = clock.exposureH(entry[i]);
          }
        }
      }
    }

    private double[] entries(double[] read) {
      double[] entries = new double[read.length];
      for (int i = 0; i < read.length; i++) {
        entries[i] = Double.isNaN(read[i]) ? 0 : read[i];
        double end = upper[i] == Double.POSITIVE_INFINITY ? lower[i] : upper[i];
        if (entries[i] > 0 && entries[i] >= end) {
          refuse(i, ENTRY, "less than the age when it was last seen");
        }
      }
      return entries;
    }

    private double[] counts(double[] read) {
      double[] counts = new double[read.length];
      for (int i = 0; i < read.length; i++) {
        counts[i] = Double.isNaN(read[i]) ? 1 : read[i];
        if (counts[i] == 0) {
          refuse(i, COUNT, "a number above 0");
        }
      }
      return counts;
    }

    private static int event(String word) {
      return switch (word) {
        case "1", "1.0", "1,0" -> 1;
        case "0", "0.0", "0,0" -> 0;
        default -> -1;
      };
    }

    private void between(int i, double hours, double from, double to, int event) {
      if (event == 0) {
        refuse(i, UPPER, "nothing, since event says that it did not fail");
      } else if (!(to > 0)) {
        refuse(i, UPPER, "a number above 0");
      } else if (from > to) {
        refuse(i, UPPER, "at least lower_hours, " + text(i, LOWER));
      } else if (hours < to) {
        refuse(i, HOURS, "at least upper_hours, " + text(i, UPPER) + ", or nothing");
      }
      lower[i] = Double.isNaN(from) ? 0 : from;
      upper[i] = to;
    }

    private void at(int i, double hours, double from, int event) {
      if (event == 1) {
        if (Double.isNaN(hours)) {
          refuse(i, HOURS, "a number: the age at which it failed, or lower_hours and upper_hours");
        } else if (hours == 0) {
          refuse(i, HOURS, "a number above 0, since it failed");
        } else if (!Double.isNaN(from)) {
          refuse(i, UPPER, "a number, since lower_hours says that it failed within an interval");
        }
        lower[i] = hours;
        upper[i] = hours;
        return;
      }
      double seen = Double.isNaN(hours) ? from : hours;
      if (Double.isNaN(seen)) {
        refuse(i, HOURS, "a number: the age when it was last seen");
      } else if (from > seen) {
        refuse(i, LOWER, "at most hours, " + text(i, HOURS));
      }
      lower[i] = seen;
      upper[i] = Double.POSITIVE_INFINITY;
    }

    private void covariates() {
      for (String name : settings.covariates()) {
        Records.Column column = table.find(name).orElseThrow();
        boolean clean = settings.clean().filter(name::equals).isPresent();
        boolean[] unsound = new boolean[0];
        if (clean && column instanceof Records.Words words) {
          unsound = new boolean[words.words().size()];
          for (int k = 0; k < unsound.length; k++) {
            unsound[k] = Double.isNaN(code(words.words().get(k)));
          }
        }
        for (int i = 0; i < table.rows(); i++) {
          if (column.missing(i)) {
            refuse(i, name, "a value, since it is a covariate");
          } else if (clean && unsound[((Records.Words) column).codes()[i]]) {
            refuse(
                i, name, "a cleanliness code such as 18/16/13, or one number of it from 0 to 28");
          }
        }
      }
    }

    private void modes() {
      if (settings.mode().isEmpty()) {
        return;
      }
      Records.Column column = table.find(MODE).orElseThrow();
      for (int i = 0; i < table.rows(); i++) {
        if (column.missing(i) && upper[i] != Double.POSITIVE_INFINITY) {
          refuse(i, MODE, "the mode of the failure");
        }
      }
    }

    private String text(int row, String column) {
      return table.find(column).map(c -> c.text(row)).orElse("");
    }

    private void refuse(int row, String column, String expected) {
      String found = text(row, column);
      refusals.refuse(table.line(row), column, found.isEmpty() ? "nothing" : found, expected);
    }

    boolean sound(int row) {
      return !refusals.refused(table.line(row));
    }

    /** Returns the sound rows of a column, null of none. */
    double[] picked(double[] column) {
      if (column == null) {
        return null;
      }
      double[] picked = new double[column.length];
      int n = 0;
      for (int i = 0; i < column.length; i++) {
        if (sound(i)) {
          picked[n++] = column[i];
        }
      }
      return Arrays.copyOf(picked, n);
    }
  }
}
