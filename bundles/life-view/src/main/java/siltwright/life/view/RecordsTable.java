package siltwright.life.view;

import java.awt.Component;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JTable;
import javax.swing.ListSelectionModel;
import javax.swing.UIManager;
import javax.swing.table.AbstractTableModel;
import javax.swing.table.DefaultTableCellRenderer;
import siltwright.analysis.Numbers;
import siltwright.analysis.Records;

/** The records with the reasons of those left out. */
final class RecordsTable {
  private final Model model = new Model();
  private final JTable table = new JTable(model);

  RecordsTable() {
    table.setAutoCreateRowSorter(true);
    table.setAutoResizeMode(JTable.AUTO_RESIZE_OFF);
    table.setSelectionMode(ListSelectionModel.MULTIPLE_INTERVAL_SELECTION);
    table.getAccessibleContext().setAccessibleName(Words.of("records"));
    table.setName("life.records");
    DefaultTableCellRenderer renderer =
        new DefaultTableCellRenderer() {
          private static final long serialVersionUID = 1;

          @Override
          public Component getTableCellRendererComponent(
              JTable t, Object value, boolean selected, boolean focus, int row, int column) {
            Component c =
                super.getTableCellRendererComponent(t, value, selected, focus, row, column);
            boolean out = model.isOut(t.convertRowIndexToModel(row));
            if (!selected) {
              c.setForeground(
                  out ? UIManager.getColor("Label.disabledForeground") : t.getForeground());
            }
            if (value instanceof Double number) {
              setText(Numbers.text(number));
            }
            setHorizontalAlignment(value instanceof Number ? TRAILING : LEADING);
            return c;
          }
        };
    table.setDefaultRenderer(Object.class, renderer);
    table.setDefaultRenderer(Double.class, renderer);
    table.setDefaultRenderer(Integer.class, renderer);
  }

  JTable component() {
    return table;
  }

  /** Shows a table; what is left out reads its reasons from the exclusions. */
  void show(Records records, Exclusions exclusions) {
    boolean same = model.records == records;
    model.records = records;
    model.exclusions = exclusions;
    if (same) {
      int[] selected = table.getSelectedRows();
      model.fireTableDataChanged();
      for (int row : selected) {
        table.addRowSelectionInterval(row, row);
      }
    } else {
      model.fireTableStructureChanged();
      for (int c = 0; c < table.getColumnCount(); c++) {
        table.getColumnModel().getColumn(c).setPreferredWidth(c == 0 ? 48 : c == 1 ? 108 : 72);
      }
    }
  }

  /** Returns the rows of the records, from 0, that are selected. */
  List<Integer> selected() {
    List<Integer> rows = new ArrayList<>();
    for (int row : table.getSelectedRows()) {
      rows.add(table.convertRowIndexToModel(row));
    }
    return rows;
  }

  /** Selects records. */
  void select(List<Integer> rows) {
    table.clearSelection();
    for (int row : rows) {
      int at = table.convertRowIndexToView(row);
      table.addRowSelectionInterval(at, at);
      table.scrollRectToVisible(table.getCellRect(at, 0, true));
    }
  }

  private static final class Model extends AbstractTableModel {
    private static final long serialVersionUID = 1;

    private transient Records records;
    private transient Exclusions exclusions;

    boolean isOut(int row) {
      return exclusions.reasons().containsKey(records.line(row));
    }

    @Override
    public int getRowCount() {
      return records == null ? 0 : records.rows();
    }

    @Override
    public int getColumnCount() {
      return records == null ? 0 : 2 + records.columns().size();
    }

    @Override
    public String getColumnName(int column) {
      return column == 0
          ? Words.of("line")
          : column == 1 ? Words.of("out") : records.columns().get(column - 2).name();
    }

    @Override
    public Class<?> getColumnClass(int column) {
      if (column == 0) {
        return Integer.class;
      }
      return column > 1 && records.columns().get(column - 2) instanceof Records.Numbers
          ? Double.class
          : Object.class;
    }

    @Override
    public Object getValueAt(int row, int column) {
      if (column == 0) {
        return records.line(row);
      }
      if (column == 1) {
        return exclusions.reasons().getOrDefault(records.line(row), "");
      }
      Records.Column c = records.columns().get(column - 2);
      if (c instanceof Records.Numbers n) {
        return n.missing(row) ? null : (Object) n.values()[row];
      }
      return c.text(row);
    }
  }
}
