package siltwright.large;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import siltwright.fleet.EventData;
import siltwright.parquet.ParquetRows;

/**
 * Machines with their events out of a range of rows, by group. The rows of a machine stand
 * together; a machine is of the range in which its first row is.
 *
 * @param groups machines by group
 * @param ids a number for each machine, the same for the same name
 * @param openEnded machines without an end of watching
 * @param faults how the rows fared
 */
record EventMachines(TreeMap<String, EventData> groups, long[] ids, long openEnded, Faults faults) {
  static final String MACHINE = "machine";
  static final String HOURS = "hours";
  static final String EVENT = "event";
  private static final String ENTRY = "entry_hours";
  private static final String COST = "cost";

  /** Reads the machines of a range. */
  static EventMachines read(RowRange range, String by) {
    return new Reading(range, by).read();
  }

  /** Columns of a group as they grow. */
  private static final class Columns {
    private final List<String> machines = new ArrayList<>();
    private final List<double[]> windows = new ArrayList<>();
    private final List<double[]> events = new ArrayList<>();

    EventData build() {
      return EventData.of(
          machines,
          windows.stream().mapToInt(w -> (int) w[0]).toArray(),
          windows.stream().mapToDouble(w -> w[1]).toArray(),
          windows.stream().mapToDouble(w -> w[2]).toArray(),
          events.stream().mapToInt(e -> (int) e[0]).toArray(),
          events.stream().mapToDouble(e -> e[1]).toArray(),
          events.stream().mapToDouble(e -> e[2]).toArray());
    }

    void add(Columns machine) {
      int at = machines.size();
      machines.addAll(machine.machines);
      machine.windows.forEach(w -> windows.add(new double[] {at, w[1], w[2]}));
      machine.events.forEach(e -> events.add(new double[] {at, e[1], e[2]}));
    }
  }

  private static final class Reading {
    private final RowRange range;
    private final String by;
    private final TreeMap<String, Columns> groups = new TreeMap<>();
    private final List<Long> ids = new ArrayList<>();
    private final Faults faults = new Faults();
    private long openEnded;
    private String machine = "";
    private final List<Object[]> own = new ArrayList<>();
    private long firstRow;

    Reading(RowRange range, String by) {
      this.range = range;
      this.by = by;
    }

    EventMachines read() {
      int before = range.from() > 0 ? 1 : 0;
      try (ParquetRows rows = range.open(List.of(MACHINE, HOURS, EVENT, ENTRY, COST, by), before)) {
        String skipped = before == 1 ? Cells.text(rows.next()[0]) : null;
        long row = range.from();
        for (Object[] cells = rows.next(); cells != null; cells = rows.next(), row++) {
          String name = Cells.text(cells[0]);
          if (name.equals(skipped)) {
            continue; // of the range before
          }
          skipped = null;
          boolean another = own.isEmpty() || !name.equals(machine);
          if (another && row >= range.to()) {
            break;
          }
          if (another) {
            end();
            machine = name;
            firstRow = row;
          }
          own.add(cells);
        }
      }
      end();
      TreeMap<String, EventData> built = new TreeMap<>();
      groups.forEach((group, columns) -> built.put(group, columns.build()));
      return new EventMachines(built, ids.stream().mapToLong(i -> i).toArray(), openEnded, faults);
    }

    /** Takes up the machine whose rows have been read. */
    private void end() {
      if (own.isEmpty()) {
        return;
      }
      faults.read(own.size());
      ids.add(id(machine));
      Columns columns = new Columns();
      columns.machines.add(machine);
      String group = Cells.text(own.get(0)[5]);
      String fault = machine.isEmpty() ? "the name of a machine" : null;
      String column = MACHINE;
      double last = 0;
      for (int i = 0; i < own.size() && fault == null; i++) {
        Object[] cells = own.get(i);
        double hours = Cells.number(cells[1]);
        double event = Cells.number(cells[2]);
        double entry = cells[3] == null ? 0 : Cells.number(cells[3]);
        double cost = cells[4] == null ? 0 : Cells.number(cells[4]);
        if (!(hours > 0 && Double.isFinite(hours))) {
          column = HOURS;
          fault = "a number above 0: the hour meter";
        } else if (event != 0 && event != 1) {
          column = EVENT;
          fault = "1 (an event) or 0 (the end of watching)";
        } else if (!(entry >= 0 && entry < hours)) {
          column = ENTRY;
          fault = "from 0 h to below hours";
        } else if (!Double.isFinite(cost)) {
          column = COST;
          fault = "a number, or nothing";
        } else if (!Cells.text(cells[5]).equals(group) || group.isEmpty()) {
          column = by;
          fault = "one value in all rows of the machine";
        } else if (event == 1) {
          columns.events.add(new double[] {0, hours, cost});
          last = Math.max(last, hours);
        } else {
          columns.windows.add(new double[] {0, entry, hours});
        }
      }
      if (fault == null && columns.windows.isEmpty()) {
        double entry = Cells.number(own.get(0)[3]);
        columns.windows.add(new double[] {0, Double.isNaN(entry) ? 0 : entry, last});
        openEnded++;
      }
      if (fault == null) {
        try {
          columns.build();
        } catch (IllegalArgumentException e) {
          column = "";
          fault = "rows of a machine that fit together (" + e.getMessage() + ")";
        }
      }
      if (fault == null) {
        groups.computeIfAbsent(group, g -> new Columns()).add(columns);
      } else {
        faults.refuse(own.size(), range, firstRow, column, machine, fault);
      }
      own.clear();
    }

    /** 64 bits of a name: two of a million are alike with a chance of some 10⁻⁸. */
    private static long id(String name) {
      long id = 0xcbf29ce484222325L;
      for (int i = 0; i < name.length(); i++) {
        id = (id ^ name.charAt(i)) * 0x100000001b3L;
      }
      id = (id ^ id >>> 33) * 0xff51afd7ed558ccdL;
      return id ^ id >>> 33;
    }
  }
}
