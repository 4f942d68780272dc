package siltwright.store.view;

import java.util.List;
import javax.swing.JTable;
import javax.swing.ListSelectionModel;
import javax.swing.SwingConstants;
import javax.swing.table.DefaultTableCellRenderer;
import javax.swing.table.DefaultTableModel;
import javax.swing.table.TableColumn;

/** A table of texts that is only read. */
final class Grid extends JTable {
  private static final long serialVersionUID = 1;
  private static final int WIDEST = 420;
  private static final int LOOKED_AT = 50;

  Grid(String name) {
    setName(name);
    setAutoResizeMode(AUTO_RESIZE_OFF);
    setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    getTableHeader().setReorderingAllowed(false);
  }

  void show(List<String> heads, List<List<String>> rows) {
    DefaultTableModel model =
        new DefaultTableModel(heads.toArray(), 0) {
          private static final long serialVersionUID = 1;

          @Override
          public boolean isCellEditable(int row, int column) {
            return false;
          }
        };
    rows.forEach(r -> model.addRow(r.toArray()));
    setModel(model);
    for (int c = 0; c < getColumnCount(); c++) {
      int width = width(heads.get(c));
      boolean numbers = !rows.isEmpty();
      for (List<String> row : rows.subList(0, Math.min(LOOKED_AT, rows.size()))) {
        width = Math.max(width, width(row.get(c)));
        numbers &= row.get(c).matches("-?[\\d.]*");
      }
      boolean last = c == getColumnCount() - 1;
      TableColumn column = getColumnModel().getColumn(c);
      column.setPreferredWidth(last ? width : Math.min(WIDEST, width));
      if (numbers) {
        DefaultTableCellRenderer right = new DefaultTableCellRenderer();
        right.setHorizontalAlignment(SwingConstants.TRAILING);
        column.setCellRenderer(right);
      }
    }
  }

  private int width(String text) {
    return getFontMetrics(getFont()).stringWidth(text) + 20;
  }
}
