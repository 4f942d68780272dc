package siltwright.workbench.parts;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.Toolkit;
import java.awt.datatransfer.StringSelection;
import java.awt.event.ActionEvent;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.IntStream;
import javax.swing.AbstractAction;
import javax.swing.JButton;
import javax.swing.JCheckBoxMenuItem;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JPopupMenu;
import javax.swing.JScrollPane;
import javax.swing.JTable;
import javax.swing.JTextField;
import javax.swing.KeyStroke;
import javax.swing.ListSelectionModel;
import javax.swing.RowFilter;
import javax.swing.RowSorter;
import javax.swing.SwingConstants;
import javax.swing.table.AbstractTableModel;
import javax.swing.table.DefaultTableCellRenderer;
import javax.swing.table.TableCellRenderer;
import javax.swing.table.TableColumn;
import javax.swing.table.TableRowSorter;
import siltwright.analysis.Cell;
import siltwright.analysis.Cells;
import siltwright.analysis.Entry;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.Numbers;

/**
 * A table of a result: sorted by a click on a column's head, filtered by words, copied to a
 * spreadsheet with all digits, its columns chosen.
 */
public final class EntryTable extends JPanel {
  private static final long serialVersionUID = 1;
  private static final int MOST_ROWS_SHOWN = 14;
  private static final int WIDEST = 420;

  private transient Entry.Table table;
  private final JTable grid = new JTable();
  private final JTextField filter = new JTextField(6);
  private final JLabel count = new JLabel();
  private final JButton choose = new JButton(Words.of("table.columns"));
  private final Set<String> hidden = new HashSet<>();
  private transient TableRowSorter<Model> sorter;

  /** Makes a table without rows. */
  public EntryTable() {
    super(new BorderLayout(0, 4));
    setOpaque(false);
    grid.setAutoResizeMode(JTable.AUTO_RESIZE_OFF);
    grid.setSelectionMode(ListSelectionModel.MULTIPLE_INTERVAL_SELECTION);
    grid.setCellSelectionEnabled(false);
    grid.setRowSelectionAllowed(true);
    grid.setFillsViewportHeight(false);
    grid.getTableHeader().setReorderingAllowed(true);
    KeyStroke copy = KeyStroke.getKeyStroke("ctrl C");
    grid.getInputMap().put(copy, "copyTable");
    grid.getInputMap().put(KeyStroke.getKeyStroke("meta C"), "copyTable");
    grid.getActionMap()
        .put(
            "copyTable",
            new AbstractAction() {
              private static final long serialVersionUID = 1;

              @Override
              public void actionPerformed(ActionEvent e) {
                copy();
              }
            });
    Bar bar = Bar.flush();
    filter.putClientProperty("JTextField.placeholderText", Words.of("table.filter"));
    filter.getAccessibleContext().setAccessibleName(Words.of("table.filter"));
    filter.getDocument().addDocumentListener(new Typed(this::applyFilter));
    JButton copyAll = new JButton(Words.of("table.copy"));
    copyAll.addActionListener(e -> copy());
    choose.addActionListener(e -> columnMenu().show(choose, 0, choose.getHeight()));
    bar.add(filter);
    bar.addTogether(copyAll, choose);
    bar.add(count);
    add(bar, BorderLayout.NORTH);
    JScrollPane scroll = new JScrollPane(grid);
    scroll.setVerticalScrollBarPolicy(JScrollPane.VERTICAL_SCROLLBAR_AS_NEEDED);
    scroll.setWheelScrollingEnabled(false);
    Wheel.passOn(scroll);
    add(scroll, BorderLayout.CENTER);
  }

  /** Shows a table, in the units to be seen. What was sorted, filtered and hidden stays so. */
  public void show(Entry.Table shown) {
    List<? extends RowSorter.SortKey> keys = sorter == null ? List.of() : sorter.getSortKeys();
    boolean same = table != null && table.columns().equals(shown.columns());
    table = shown;
    Model model = new Model(shown);
    grid.setModel(model);
    sorter = new TableRowSorter<>(model);
    for (int c = 0; c < shown.columns().size(); c++) {
      sorter.setComparator(c, Comparator.comparing((Cell cell) -> Key.of(cell)));
    }
    grid.setRowSorter(sorter);
    if (same) {
      sorter.setSortKeys(keys);
    }
    grid.getAccessibleContext().setAccessibleName(shown.label());
    arrange();
    applyFilter();
  }

  private void arrange() {
    List<TableColumn> all = new ArrayList<>();
    for (int c = 0; c < table.columns().size(); c++) {
      TableColumn column = new TableColumn(c);
      Entry.Column of = table.columns().get(c);
      List<Cell> cells = cells(c);
      boolean right = Cells.standsRight(cells);
      column.setCellRenderer(new Renderer(of.unit(), right, Cells.decimals(cells, of.unit())));
      column.setHeaderRenderer(new Head(grid.getTableHeader().getDefaultRenderer(), right));
      column.setHeaderValue(head(of));
      column.setIdentifier(of.name());
      column.setPreferredWidth(width(column, cells));
      all.add(column);
    }
    while (grid.getColumnCount() > 0) {
      grid.removeColumn(grid.getColumnModel().getColumn(0));
    }
    all.stream().filter(c -> !hidden.contains(c.getIdentifier())).forEach(grid::addColumn);
    resize();
  }

  private List<Cell> cells(int column) {
    return table.rows().stream().map(row -> row.get(column)).toList();
  }

  private static String head(Entry.Column column) {
    String unit = Numbers.shown(column.unit());
    return unit.isEmpty() ? column.label() : column.label() + " (" + unit + ")";
  }

  private int width(TableColumn column, List<Cell> cells) {
    Component head =
        column
            .getHeaderRenderer()
            .getTableCellRendererComponent(grid, column.getHeaderValue(), false, false, -1, 0);
    int width = head.getPreferredSize().width + 22;
    for (Cell cell : cells.subList(0, Math.min(60, cells.size()))) {
      Component c =
          column.getCellRenderer().getTableCellRendererComponent(grid, cell, false, false, 0, 0);
      width = Math.max(width, c.getPreferredSize().width + 14);
    }
    return Math.min(width, WIDEST);
  }

  /** As high as its rows, up to a height from which on it scrolls. */
  private void resize() {
    int rows = Math.min(Math.max(1, grid.getRowCount()), MOST_ROWS_SHOWN);
    int width = grid.getColumnModel().getTotalColumnWidth();
    grid.setPreferredScrollableViewportSize(
        new Dimension(Math.min(width, 1200), rows * grid.getRowHeight()));
    revalidate();
  }

  private void applyFilter() {
    if (sorter == null) {
      return;
    }
    String[] words = filter.getText().strip().toLowerCase(Locale.ROOT).split("\\s+");
    sorter.setRowFilter(
        filter.getText().isBlank()
            ? null
            : new RowFilter<>() {
              @Override
              public boolean include(RowFilter.Entry<? extends Model, ? extends Integer> row) {
                String text = text(row.getIdentifier()).toLowerCase(Locale.ROOT);
                for (String word : words) {
                  if (!text.contains(word)) {
                    return false;
                  }
                }
                return true;
              }
            });
    int shown = grid.getRowCount();
    int all = table.rows().size();
    count.setText(
        shown == all ? Words.of("table.rows", all) : Words.of("table.rowsOf", shown, all));
    resize();
  }

  private String text(int row) {
    StringBuilder text = new StringBuilder();
    for (int c = 0; c < table.columns().size(); c++) {
      String unit = table.columns().get(c).unit();
      text.append(Cells.text(table.rows().get(row).get(c), unit)).append('\t');
    }
    return text.toString();
  }

  private JPopupMenu columnMenu() {
    JPopupMenu menu = new JPopupMenu();
    for (Entry.Column column : table == null ? List.<Entry.Column>of() : table.columns()) {
      JCheckBoxMenuItem item = new JCheckBoxMenuItem(head(column), !hidden.contains(column.name()));
      item.addActionListener(
          e -> {
            if (!hidden.remove(column.name())) {
              hidden.add(column.name());
            }
            if (hidden.size() == table.columns().size()) {
              hidden.remove(column.name());
            }
            arrange();
          });
      menu.add(item);
    }
    return menu;
  }

  /** Copies the selected rows, or all shown if none is, with heads, all digits and tabs between. */
  private void copy() {
    Toolkit.getDefaultToolkit()
        .getSystemClipboard()
        .setContents(new StringSelection(tabbed()), null);
  }

  /** Returns the selected rows, or all shown if none is, as a spreadsheet takes them. */
  public String tabbed() {
    StringBuilder out = new StringBuilder();
    List<Integer> columns = new ArrayList<>();
    for (int c = 0; c < grid.getColumnCount(); c++) {
      columns.add(grid.convertColumnIndexToModel(c));
      out.append(c == 0 ? "" : "\t").append(grid.getColumnModel().getColumn(c).getHeaderValue());
    }
    int[] rows =
        grid.getSelectedRowCount() > 0
            ? grid.getSelectedRows()
            : IntStream.range(0, grid.getRowCount()).toArray();
    for (int r : rows) {
      List<Cell> row = table.rows().get(grid.convertRowIndexToModel(r));
      out.append('\n');
      for (int i = 0; i < columns.size(); i++) {
        Cell cell = row.get(columns.get(i));
        String unit = table.columns().get(columns.get(i)).unit();
        String text = cell instanceof Cell.Num n ? ExactNumber.text(n.value()) : plain(cell, unit);
        out.append(i == 0 ? "" : "\t").append(text);
      }
    }
    return out.toString();
  }

  private static String plain(Cell cell, String unit) {
    return cell instanceof Cell.None
        ? ""
        : Cells.text(cell, unit).replaceAll("[\\u202f\\u00a0]", " ").replaceAll("[\\t\\n]", " ");
  }

  /** Returns the grid, to select rows in. */
  public JTable grid() {
    return grid;
  }

  /** What a column is sorted by: nothing last, numbers by size, all else by its text. */
  private record Key(int kind, double number, String text) implements Comparable<Key> {
    static Key of(Cell cell) {
      if (cell instanceof Cell.Num n) {
        return new Key(0, n.value(), "");
      }
      if (cell instanceof Cell.Range r) {
        return new Key(0, r.low(), "");
      }
      return cell instanceof Cell.None
          ? new Key(2, 0, "")
          : new Key(1, 0, Cells.text(cell, "").toLowerCase(Locale.ROOT));
    }

    @Override
    public int compareTo(Key o) {
      return Comparator.comparingInt(Key::kind)
          .thenComparingDouble(Key::number)
          .thenComparing(Key::text)
          .compare(this, o);
    }
  }

  private static final class Model extends AbstractTableModel {
    private static final long serialVersionUID = 1;

    private final transient Entry.Table table;

    Model(Entry.Table table) {
      this.table = table;
    }

    @Override
    public int getRowCount() {
      return table.rows().size();
    }

    @Override
    public int getColumnCount() {
      return table.columns().size();
    }

    @Override
    public Object getValueAt(int row, int column) {
      return table.rows().get(row).get(column);
    }

    @Override
    public String getColumnName(int column) {
      return head(table.columns().get(column));
    }

    @Override
    public Class<?> getColumnClass(int column) {
      return Cell.class;
    }
  }

  private static final class Renderer extends DefaultTableCellRenderer {
    private static final long serialVersionUID = 1;

    private final String unit;
    private final transient OptionalInt decimals;

    Renderer(String unit, boolean right, OptionalInt decimals) {
      this.unit = unit;
      this.decimals = decimals;
      setHorizontalAlignment(right ? SwingConstants.TRAILING : SwingConstants.LEADING);
    }

    @Override
    protected void setValue(Object value) {
      String text = value instanceof Cell cell ? Cells.text(cell, unit, decimals) : "";
      setText(text);
      setToolTipText(text.length() > 40 ? text : null);
    }
  }

  /** A head that stands over its numbers. */
  private record Head(TableCellRenderer given, boolean right) implements TableCellRenderer {
    @Override
    public Component getTableCellRendererComponent(
        JTable t, Object value, boolean selected, boolean focus, int row, int column) {
      Component c = given.getTableCellRendererComponent(t, value, selected, focus, row, column);
      if (c instanceof JLabel label) {
        label.setHorizontalAlignment(right ? SwingConstants.TRAILING : SwingConstants.LEADING);
        label.setFont(label.getFont().deriveFont(Font.BOLD));
      }
      return c;
    }
  }
}
