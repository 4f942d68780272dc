package siltwright.cleanliness.view;

import java.awt.Component;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.stream.IntStream;
import javax.swing.JTable;
import javax.swing.ListSelectionModel;
import javax.swing.table.AbstractTableModel;
import javax.swing.table.DefaultTableCellRenderer;
import siltwright.analysis.Numbers;
import siltwright.model.SizeBands;
import siltwright.samples.OilRecord;
import siltwright.samples.OilRecords;
import siltwright.samples.SampleLimit;

/**
 * The samples of a machine. Cells are made when they are seen and the order is computed elsewhere,
 * so that hundreds of thousands of rows cost nothing on the event thread.
 */
final class SamplesTable {
  private static final int SIZES = 3;

  /** A column: its head and its cell, a number, a text, or null for none. */
  private record Column(String head, int width, Function<OilRecord, Object> cell) {}

  /**
   * How the table is ordered.
   *
   * @param column place of the column; -1 for the order of hours
   * @param falling whether the greatest come first
   * @param doubtfulOnly whether sound samples are left out
   */
  record Order(int column, boolean falling, boolean doubtfulOnly) {
    static final Order HOURS = new Order(-1, false, false);
  }

  /**
   * What is shown: made off the event thread.
   *
   * @param samples the samples
   * @param columns the columns
   * @param order the order
   * @param rows places of the samples in that order
   */
  record Contents(MachineSamples samples, List<Column> columns, Order order, int[] rows) {
    static Contents of(MachineSamples m, Order order) {
      List<Column> columns = SamplesTable.columns(m);
      List<OilRecord> all = m.samples();
      IntStream places = IntStream.range(0, all.size());
      if (order.doubtfulOnly()) {
        places = places.filter(i -> m.doubts().containsKey(all.get(i)));
      }
      int[] rows = places.toArray();
      if (order.column() < 0 || order.column() >= columns.size()) {
        return new Contents(m, columns, order, rows);
      }
      Object[] cells = all.stream().map(columns.get(order.column()).cell()).toArray();
      Comparator<Integer> byCell = Comparator.comparing(i -> cells[i], SamplesTable::compare);
      Integer[] sorted = Arrays.stream(rows).boxed().toArray(Integer[]::new);
      Arrays.sort(sorted, order.falling() ? byCell.reversed() : byCell);
      return new Contents(
          m, columns, order, Arrays.stream(sorted).mapToInt(Integer::intValue).toArray());
    }
  }

  private final Model model = new Model();
  private final JTable table = new JTable(model);

  SamplesTable() {
    table.setAutoResizeMode(JTable.AUTO_RESIZE_OFF);
    table.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    table.setName("cleanliness.table");
    table.getAccessibleContext().setAccessibleName(Words.of("samples"));
    table.setDefaultRenderer(
        Object.class,
        new DefaultTableCellRenderer() {
          private static final long serialVersionUID = 1;

          @Override
          public Component getTableCellRendererComponent(
              JTable t, Object value, boolean selected, boolean focus, int row, int column) {
            String text =
                value instanceof Double d ? Numbers.text(d) : value == null ? "" : value + "";
            super.getTableCellRendererComponent(t, text, selected, focus, row, column);
            setHorizontalAlignment(value instanceof Number ? TRAILING : LEADING);
            setToolTipText(text.length() > 20 ? text : null);
            return this;
          }
        });
  }

  private static int compare(Object a, Object b) {
    if (a == null || b == null) {
      return a == b ? 0 : a == null ? -1 : 1;
    }
    return a instanceof Number x && b instanceof Number y
        ? Double.compare(x.doubleValue(), y.doubleValue())
        : a.toString().compareTo(b.toString());
  }

  private static Object number(double v) {
    return Double.isNaN(v) ? null : (Object) v;
  }

  private static List<Column> columns(MachineSamples m) {
    List<Column> columns = new ArrayList<>();
    columns.add(new Column(Words.of("column.hours"), 64, r -> number(r.hours())));
    columns.add(new Column(Words.of("column.date"), 96, r -> r.word("date")));
    columns.add(new Column(Words.of("column.code"), 76, OilRecord::codeText));
    if (!m.limits().isEmpty()) {
      columns.add(
          new Column(
              Words.of("column.state"),
              96,
              r ->
                  Double.isNaN(r.minutes())
                      ? SampleLimit.exceeded(r, m.limits())
                          .map(l -> Words.of("over", l.kind()))
                          .orElse(r.counted() ? Words.of("within") : "")
                      : ""));
    }
    columns.add(new Column(Words.of("column.doubt"), 220, r -> String.join("; ", m.doubtsOf(r))));
    for (int i = 0; i < SIZES; i++) {
      int size = i;
      columns.add(
          new Column(
              Words.of("column.count", SizeBands.edgeUmC(i)), 116, r -> number(r.perMl()[size])));
    }
    if (m.samples().stream().anyMatch(r -> !Double.isNaN(r.minutes()))) {
      columns.add(new Column(Words.of("column.minutes"), 120, r -> number(r.minutes())));
    }
    for (String name : OilRecords.measures()) {
      if (m.samples().stream().anyMatch(r -> r.numbers().containsKey(name))) {
        columns.add(new Column(name.replace("_ppm", " ppm"), 80, r -> r.numbers().get(name)));
      }
    }
    columns.add(new Column(Words.of("column.line"), 56, OilRecord::line));
    return columns;
  }

  JTable component() {
    return table;
  }

  /** Shows other contents; what was selected stays so. */
  void show(Contents contents) {
    int selected =
        model.contents != null && model.contents.samples() == contents.samples() ? selected() : -1;
    boolean same =
        model.contents != null
            && heads(model.contents).equals(heads(contents))
            && model.contents.order().equals(contents.order());
    model.contents = contents;
    if (same) {
      model.fireTableDataChanged();
    } else {
      model.fireTableStructureChanged();
      for (int c = 0; c < contents.columns().size(); c++) {
        table.getColumnModel().getColumn(c).setPreferredWidth(contents.columns().get(c).width());
      }
    }
    if (selected >= 0) {
      select(selected);
    }
  }

  private static List<String> heads(Contents contents) {
    return contents.columns().stream().map(Column::head).toList();
  }

  /** Returns the place of the selected sample among the machine's, or -1. */
  int selected() {
    int row = table.getSelectedRow();
    return row < 0 || model.contents == null ? -1 : model.contents.rows()[row];
  }

  /** Selects a sample by its place among the machine's, if it is shown. */
  void select(int place) {
    int[] rows = model.contents.rows();
    for (int row = 0; row < rows.length; row++) {
      if (rows[row] == place) {
        table.setRowSelectionInterval(row, row);
        table.scrollRectToVisible(table.getCellRect(row, 0, true));
        return;
      }
    }
  }

  private static final class Model extends AbstractTableModel {
    private static final long serialVersionUID = 1;

    private transient Contents contents;

    @Override
    public int getRowCount() {
      return contents == null ? 0 : contents.rows().length;
    }

    @Override
    public int getColumnCount() {
      return contents == null ? 0 : contents.columns().size();
    }

    @Override
    public String getColumnName(int column) {
      String head = contents.columns().get(column).head();
      return contents.order().column() != column
          ? head
          : head + (contents.order().falling() ? " \u25be" : " \u25b4");
    }

    @Override
    public Object getValueAt(int row, int column) {
      return contents
          .columns()
          .get(column)
          .cell()
          .apply(contents.samples().samples().get(contents.rows()[row]));
    }
  }
}
