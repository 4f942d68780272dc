package siltwright.workbench.internal;

import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntConsumer;
import javax.swing.JTable;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.model.Machine;
import siltwright.workbench.parts.EntryTable;

/** Tables with a row a machine. */
final class MachineRows {
  private MachineRows() {}

  /** Returns a table with the ids of its machines before all else. */
  static Entry.Table named(Entry.Table table, List<Machine> machines) {
    List<Entry.Column> columns =
        new ArrayList<>(List.of(new Entry.Column("machine", Texts.of("analysis.machine"), "")));
    columns.addAll(table.columns());
    List<List<Cell>> rows = new ArrayList<>();
    for (int i = 0; i < table.rows().size(); i++) {
      List<Cell> row = new ArrayList<>(List.of(Cell.of(machines.get(i).id())));
      row.addAll(table.rows().get(i));
      rows.add(row);
    }
    return new Entry.Table(table.name(), table.label(), table.use(), columns, rows);
  }

  /** Has double clicks told, once however often the table is shown; given the row, from 0. */
  static void follow(EntryTable table, IntConsumer clicked) {
    JTable grid = table.grid();
    if (grid.getClientProperty(MachineRows.class) == null) {
      grid.putClientProperty(MachineRows.class, true);
      grid.addMouseListener(
          new MouseAdapter() {
            @Override
            public void mouseClicked(MouseEvent e) {
              int row = grid.rowAtPoint(e.getPoint());
              if (e.getClickCount() == 2 && row >= 0) {
                clicked.accept(grid.convertRowIndexToModel(row));
              }
            }
          });
    }
  }
}
