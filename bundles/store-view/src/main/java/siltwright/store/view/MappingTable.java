package siltwright.store.view;

import java.util.ArrayList;
import java.util.List;
import javax.swing.DefaultCellEditor;
import javax.swing.JComboBox;
import javax.swing.JTable;
import javax.swing.table.AbstractTableModel;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;
import siltwright.transfer.Mapping;
import siltwright.transfer.Preview;

/** What becomes of each column of a table; the user changes it here. */
final class MappingTable extends JTable {
  private static final long serialVersionUID = 1;
  private static final List<String> OF_ANY = List.of("machine", "date", "time", "meter_h");
  private static final List<String> OF_MACHINES =
      List.of("machine", "serial", "name", "class", "site", "site_name", "zone");

  private final Columns columns = new Columns();
  private final transient Runnable edited;

  MappingTable(Runnable edited) {
    this.edited = edited;
    setName("store.mapping");
    setModel(columns);
    getTableHeader().setReorderingAllowed(false);
    putClientProperty("terminateEditOnFocusLost", true);
  }

  /** Shows what a preview found. */
  void show(Preview preview) {
    Mapping shown = preview.mapping();
    columns.headings.clear();
    columns.fields.clear();
    columns.units.clear();
    for (String heading : preview.headings()) {
      if (!heading.isEmpty()) {
        columns.headings.add(heading);
        Mapping.Column used =
            shown.columns().stream()
                .filter(c -> c.heading().equals(heading))
                .findFirst()
                .orElse(new Mapping.Column(heading, "", ""));
        columns.fields.add(used.field());
        columns.units.add(used.unit());
      }
    }
    JComboBox<String> choices = new JComboBox<>();
    choices.addItem("");
    fields(shown.kind()).forEach(choices::addItem);
    columns.fireTableDataChanged();
    getColumnModel().getColumn(1).setCellEditor(new DefaultCellEditor(choices));
  }

  private static List<String> fields(String kind) {
    if (kind.equals(Mapping.MACHINES)) {
      return OF_MACHINES;
    }
    List<String> all = new ArrayList<>(OF_ANY);
    RecordKind.of(kind).orElseThrow().fields().stream().map(RecordField::name).forEach(all::add);
    return all;
  }

  void clear() {
    columns.headings.clear();
    columns.fireTableDataChanged();
  }

  /** Returns the columns that are used, as they stand. */
  List<Mapping.Column> columns() {
    List<Mapping.Column> used = new ArrayList<>();
    for (int i = 0; i < columns.headings.size(); i++) {
      if (!columns.fields.get(i).isEmpty()) {
        used.add(
            new Mapping.Column(
                columns.headings.get(i), columns.fields.get(i), columns.units.get(i)));
      }
    }
    return used;
  }

  private final class Columns extends AbstractTableModel {
    private static final long serialVersionUID = 1;

    private final List<String> headings = new ArrayList<>();
    private final List<String> fields = new ArrayList<>();
    private final List<String> units = new ArrayList<>();

    @Override
    public int getRowCount() {
      return headings.size();
    }

    @Override
    public int getColumnCount() {
      return 3;
    }

    @Override
    public String getColumnName(int column) {
      return Words.of(column == 0 ? "heading" : column == 1 ? "becomes" : "unit");
    }

    @Override
    public Object getValueAt(int row, int column) {
      return (column == 0 ? headings : column == 1 ? fields : units).get(row);
    }

    @Override
    public boolean isCellEditable(int row, int column) {
      return column == 1 || column == 2 && !fields.get(row).isEmpty();
    }

    @Override
    public void setValueAt(Object value, int row, int column) {
      String text = value == null ? "" : value.toString().strip();
      List<String> of = column == 1 ? fields : units;
      if (text.equals(of.get(row))) {
        return;
      }
      of.set(row, text);
      if (column == 1) {
        units.set(row, ""); // that of the heading, or the field's own
        if (!text.isEmpty()) {
          for (int i = 0; i < fields.size(); i++) {
            if (i != row && fields.get(i).equals(text)) {
              fields.set(i, ""); // a field comes from one column
            }
          }
        }
      }
      edited.run();
    }
  }
}
