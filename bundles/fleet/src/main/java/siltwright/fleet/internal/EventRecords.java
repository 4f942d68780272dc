package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.fleet.EventData;
import siltwright.life.Covariate;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Events of machines out of a table, row by row checked.
 *
 * @param kept the rows that are sound, with all refusals
 * @param data the machines; marks are costs, where there are any
 * @param groups the group of each machine
 * @param adjust what is to be allowed for, a value a machine
 * @param stratum within what to compare
 * @param interventionH hour of the intervention on each machine, not a number where there was none
 * @param withoutEnd machines without a row at the end of watching
 * @param withoutCost events without a cost, where there are costs
 * @param dates which day it is on each machine, where an intervention is looked at and dates tell
 */
record EventRecords(
    Records kept,
    EventData data,
    Groups groups,
    Map<String, Covariate> adjust,
    Optional<Covariate.Categorical> stratum,
    Optional<double[]> interventionH,
    int withoutEnd,
    int withoutCost,
    Optional<MachineDates> dates) {

  /**
   * Makes events of a table.
   *
   * @throws InputException if no row is sound or there are too few groups
   */
  static EventRecords of(Records table, Settings settings) {
    return new Rows(table, settings).done();
  }

  /** The rows while they are checked. */
  private static final class Rows {
    private final Records table;
    private final Settings settings;
    private final Refusals refusals;
    private final int[] machine;
    private final int machines;
    private final int[] happened;
    private final double[] hours;
    private final double[] entry;
    private final Optional<double[]> costs;
    private final Map<String, MachineValues> values = new LinkedHashMap<>();

    /** Windows as chains by machine; those made from a row at the end, and those from events. */
    private final List<double[]> windows = new ArrayList<>();

    private final int[] first;
    private final List<Integer> next = new ArrayList<>();
    private int withoutEnd;
    private int withoutCost;

    Rows(Records table, Settings settings) {
      this.table = table;
      this.settings = settings;
      refusals = table.refusals();
      Records.Words names = (Records.Words) table.find(Columns.MACHINE).orElseThrow();
      machine = names.codes();
      machines = names.words().size();
      Records.Words events = (Records.Words) table.find(Columns.EVENT).orElseThrow();
      int[] meaning = events.words().stream().mapToInt(Columns::event).toArray();
      happened = Arrays.stream(events.codes()).map(c -> c < 0 ? -1 : meaning[c]).toArray();
      hours = table.numbers(Columns.HOURS).orElseThrow();
      entry = table.numbers(Columns.ENTRY).orElseGet(() -> filled(hours.length));
      costs = table.numbers(Columns.COST);
      first = new int[machines];
      Arrays.fill(first, -1);
      List<String> columns = new ArrayList<>(settings.adjust());
      columns.add(settings.by());
      settings.stratum().ifPresent(columns::add);
      settings.interventionColumn().ifPresent(columns::add);
      for (String c : columns) {
        values.put(c, new MachineValues(table.find(c).orElseThrow(), machine, machines));
      }
      rows();
      dates();
      windows();
      events();
    }

    private static double[] filled(int n) {
      double[] none = new double[n];
      Arrays.fill(none, Double.NaN);
      return none;
    }

    /** Checks what a row says by itself. */
    private void rows() {
      boolean cut = !settings.cuts().isEmpty();
      if (cut && !(table.find(settings.by()).orElseThrow() instanceof Records.Numbers)) {
        throw CompareAnalysis.fault("--cut", settings.by(), "a column of numbers for --by");
      }
      for (int i = 0; i < hours.length; i++) {
        if (machine[i] < 0) {
          refuse(i, Columns.MACHINE, "the name of a machine");
        } else if (happened[i] < 0) {
          refuse(i, Columns.EVENT, "1 (an event) or 0 (the end of watching)");
        } else if (!(hours[i] > 0)) {
          refuse(i, Columns.HOURS, "a number above 0: the hour meter");
        } else if (entry[i] >= hours[i]) {
          refuse(i, Columns.ENTRY, "less than hours, " + text(i, Columns.HOURS));
        } else {
          attributes(i);
        }
      }
    }

    private void attributes(int i) {
      for (Map.Entry<String, MachineValues> v : values.entrySet()) {
        boolean needed = settings.interventionColumn().filter(v.getKey()::equals).isEmpty();
        if (needed && v.getValue().missing(machine[i])) {
          refuse(i, v.getKey(), "a value in one of the rows of the machine");
        } else if (v.getValue().differs(machine[i], i)) {
          refuse(
              i,
              v.getKey(),
              v.getValue().text(machine[i])
                  + " as in the machine's other rows; a machine that changes groups counts as two:"
                  + " give it two names");
        }
      }
    }

    /** Refuses rows whose date is none, or before that of a lower hour of the machine. */
    private void dates() {
      Optional<Records.Column> column = table.find(Columns.DATE);
      if (column.isEmpty()) {
        return;
      }
      Integer[] order = new Integer[hours.length];
      Arrays.setAll(order, i -> i);
      Arrays.sort(order, Comparator.comparingDouble(i -> hours[i]));
      double[] latest = new double[machines];
      Arrays.fill(latest, Double.NEGATIVE_INFINITY);
      for (int i : order) {
        if (!sound(i) || column.get().missing(i)) {
          continue;
        }
        double day = MachineDates.day(column.get().text(i));
        if (Double.isNaN(day)) {
          refuse(i, Columns.DATE, "a date such as 2026-03-31, or nothing");
        } else if (day < latest[machine[i]]) {
          refuse(i, Columns.DATE, "a date not before that of a lower hour of the machine");
        } else {
          latest[machine[i]] = day;
        }
      }
    }

    /** Returns which day it is on each machine that is kept, or nothing. */
    private Optional<MachineDates> calendar(int[] place, int n) {
      Optional<Records.Column> column = table.find(Columns.DATE);
      if (column.isEmpty()) {
        return Optional.empty();
      }
      int[] rows = new int[hours.length];
      int k = 0;
      for (int i = 0; i < hours.length; i++) {
        if (sound(i) && !column.get().missing(i)) {
          rows[k++] = i;
        }
      }
      int[] used = Arrays.copyOf(rows, k);
      return Optional.ofNullable(
          MachineDates.of(
              n,
              Arrays.stream(used).map(i -> place[machine[i]]).toArray(),
              Arrays.stream(used).mapToDouble(i -> hours[i]).toArray(),
              Arrays.stream(used)
                  .mapToDouble(i -> MachineDates.day(column.get().text(i)))
                  .toArray()));
    }

    private Optional<double[]> interventions(int[] members, Optional<MachineDates> dates) {
      if (settings.intervention().isEmpty()) {
        return Optional.empty();
      }
      if (settings.interventionColumn().isPresent()) {
        MachineValues at = values.get(settings.interventionColumn().get());
        return Optional.of(Arrays.stream(members).mapToDouble(at::number).toArray());
      }
      if (dates.isEmpty()) {
        throw new InputException(
            new Problem(
                table.source(),
                "column " + Columns.DATE,
                "a machine without two dates",
                "a date in two rows of each machine at least, to find the hour of the"
                    + " intervention"));
      }
      double[] at = new double[members.length];
      double day = MachineDates.day(settings.intervention().get());
      Arrays.setAll(at, m -> dates.get().hourH(m, day));
      return Optional.of(at);
    }

    /** Makes the windows: from the rows at an end, or up to the last event. */
    private void windows() {
      double[] late = filled(machines);
      double[] last = new double[machines];
      boolean[] spoilt = new boolean[machines];
      int[] ends = new int[machines];
      for (int i = 0; i < hours.length; i++) {
        int m = machine[i];
        if (m >= 0 && happened[i] == 0) {
          spoilt[m] |= !sound(i);
          ends[m] += sound(i) ? 1 : 0;
        }
        if (m >= 0 && sound(i)) {
          last[m] = Math.max(last[m], happened[i] == 1 ? hours[i] : 0);
          late[m] = Double.isNaN(late[m]) ? entry[i] : Math.min(late[m], orNone(entry[i]));
        }
      }
      for (int i = 0; i < hours.length; i++) {
        int m = machine[i];
        if (!sound(i)) {
          continue;
        }
        if (spoilt[m]) {
          refuse(i, Columns.MACHINE, "a machine whose end of watching could be used");
        } else if (happened[i] == 0) {
          boolean several = ends[m] > 1;
          double from = several ? entry[i] : Double.isNaN(late[m]) ? 0 : late[m];
          if (Double.isNaN(from) && first[m] >= 0) {
            refuse(
                i, Columns.ENTRY, "a number, since the machine has more than one end of watching");
          } else {
            window(i, m, Double.isNaN(from) ? 0 : from, hours[i]);
          }
        }
      }
      for (int m = 0; m < machines; m++) {
        if (first[m] < 0 && last[m] > 0 && !spoilt[m]) {
          add(m, Double.isNaN(late[m]) ? 0 : late[m], last[m]);
          withoutEnd++;
        }
      }
    }

    private static double orNone(double v) {
      return Double.isNaN(v) ? Double.POSITIVE_INFINITY : v;
    }

    private void window(int i, int m, double from, double to) {
      for (int w = first[m]; w >= 0; w = next.get(w)) {
        if (windows.get(w)[1] < to && from < windows.get(w)[2]) {
          refuse(i, Columns.HOURS, "a window that does not overlap another one of the machine");
          return;
        }
      }
      add(m, from, to);
    }

    private void add(int m, double from, double to) {
      next.add(first[m]);
      first[m] = windows.size();
      windows.add(new double[] {m, from, to});
    }

    private void events() {
      for (int i = 0; i < hours.length; i++) {
        if (!sound(i) || happened[i] == 0) {
          continue;
        }
        int w = first[machine[i]];
        while (w >= 0 && !(hours[i] > windows.get(w)[1] && hours[i] <= windows.get(w)[2])) {
          w = next.get(w);
        }
        if (w < 0) {
          refuse(i, Columns.HOURS, "an hour while the machine was watched" + watched(machine[i]));
        } else if (costs.isPresent() && Double.isNaN(costs.get()[i])) {
          withoutCost++;
        }
      }
    }

    private String watched(int m) {
      List<String> parts = new ArrayList<>();
      for (int w = first[m]; w >= 0; w = next.get(w)) {
        parts.add(
            0, Words.number(windows.get(w)[1]) + " to " + Words.number(windows.get(w)[2]) + " h");
      }
      return parts.isEmpty() ? "" : ", " + String.join(", ", parts);
    }

    EventRecords done() {
      Records kept = table.where(this::sound, refusals);
      if (kept.rows() == 0) {
        List<Problem> problems = new ArrayList<>(refusals.listed());
        problems.add(new Problem(table.source(), "", "no sound row", "at least one"));
        throw new InputException(problems);
      }
      int[] place = new int[machines];
      int[] from = new int[machines];
      int n = 0;
      for (int m = 0; m < machines; m++) {
        place[m] = first[m] >= 0 ? n : -1;
        if (first[m] >= 0) {
          from[n++] = m;
        }
      }
      from = Arrays.copyOf(from, n);
      List<String> words = ((Records.Words) table.find(Columns.MACHINE).orElseThrow()).words();
      int[] rows = new int[hours.length];
      int events = 0;
      for (int i = 0; i < hours.length; i++) {
        if (sound(i) && happened[i] == 1) {
          rows[events++] = i;
        }
      }
      int[] at = Arrays.copyOf(rows, events);
      double[] marks =
          costs
              .map(c -> Arrays.stream(at).mapToDouble(i -> Double.isNaN(c[i]) ? 0 : c[i]).toArray())
              .orElse(null);
      EventData data =
          EventData.of(
              Arrays.stream(from).mapToObj(words::get).toList(),
              windows.stream().mapToInt(w -> place[(int) w[0]]).toArray(),
              windows.stream().mapToDouble(w -> w[1]).toArray(),
              windows.stream().mapToDouble(w -> w[2]).toArray(),
              Arrays.stream(at).map(i -> place[machine[i]]).toArray(),
              Arrays.stream(at).mapToDouble(i -> hours[i]).toArray(),
              marks);
      int[] members = from;
      MachineValues by = values.get(settings.by());
      Groups groups =
          Groups.of(
              Arrays.stream(members).mapToObj(by::text).toList(),
              settings.cuts().isEmpty()
                  ? Optional.empty()
                  : Optional.of(Arrays.stream(members).mapToDouble(by::number).toArray()),
              settings,
              table);
      Optional<MachineDates> dates = calendar(place, n);
      Map<String, Covariate> adjust = new LinkedHashMap<>();
      settings.adjust().forEach(a -> adjust.put(a, values.get(a).covariate(members)));
      return new EventRecords(
          kept,
          data,
          groups,
          adjust,
          settings.stratum().map(c -> (Covariate.Categorical) values.get(c).covariate(members)),
          interventions(members, dates),
          withoutEnd,
          withoutCost,
          dates);
    }

    private String text(int row, String column) {
      return table.find(column).map(c -> c.text(row)).orElse("");
    }

    private void refuse(int row, String column, String expected) {
      String found = text(row, column);
      refusals.refuse(table.line(row), column, found.isEmpty() ? "nothing" : found, expected);
    }

    private boolean sound(int row) {
      return !refusals.refused(table.line(row));
    }
  }
}
