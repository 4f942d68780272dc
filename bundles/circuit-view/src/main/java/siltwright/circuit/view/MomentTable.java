package siltwright.circuit.view;

import java.awt.event.MouseEvent;
import java.util.List;
import javax.swing.JTable;
import javax.swing.table.AbstractTableModel;
import siltwright.circuit.view.Readings.Row;

/** The numbers of a moment, a column for each way to change. */
final class MomentTable extends AbstractTableModel {
  private static final long serialVersionUID = 1;

  private transient List<List<Row>> columns = List.of();
  private transient List<String> heads = List.of();
  private String first = "";

  /** Returns a component that shows it; cells tell their whole text under the mouse. */
  JTable component(String accessibleName) {
    JTable component =
        new JTable(this) {
          private static final long serialVersionUID = 1;

          @Override
          public String getToolTipText(MouseEvent e) {
            int row = rowAtPoint(e.getPoint());
            int column = columnAtPoint(e.getPoint());
            return row < 0 || column < 0
                ? null
                : getValueAt(row, 0) + (column == 0 ? "" : ": " + getValueAt(row, column));
          }
        };
    component.setName("numbers");
    component.setFillsViewportHeight(true);
    component.getAccessibleContext().setAccessibleName(accessibleName);
    return component;
  }

  /** Shows other numbers; keeps selection and widths where it has the same rows and columns. */
  void show(String quantity, List<String> ways, List<List<Row>> rows) {
    boolean structure = !ways.equals(heads) || !quantity.equals(first);
    boolean length = columns.isEmpty() || columns.get(0).size() != rows.get(0).size();
    first = quantity;
    heads = List.copyOf(ways);
    columns = List.copyOf(rows);
    if (structure) {
      fireTableStructureChanged();
    } else if (length) {
      fireTableDataChanged();
    } else {
      fireTableRowsUpdated(0, getRowCount() - 1);
    }
  }

  @Override
  public int getRowCount() {
    return columns.isEmpty() ? 0 : columns.get(0).size();
  }

  @Override
  public int getColumnCount() {
    return heads.size() + 1;
  }

  @Override
  public String getColumnName(int column) {
    return column == 0 ? first : heads.get(column - 1);
  }

  @Override
  public Object getValueAt(int row, int column) {
    return column == 0 ? columns.get(0).get(row).name() : columns.get(column - 1).get(row).value();
  }
}
