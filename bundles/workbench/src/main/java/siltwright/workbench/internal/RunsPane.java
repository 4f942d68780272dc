package siltwright.workbench.internal;

import java.awt.Component;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JProgressBar;
import javax.swing.JScrollPane;
import javax.swing.JTable;
import javax.swing.ListSelectionModel;
import javax.swing.Timer;
import javax.swing.table.AbstractTableModel;
import javax.swing.table.TableCellRenderer;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.Numbers;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;

/** What is computed and was computed: how far, how long, and a way to stop it. */
final class RunsPane implements Pane {
  private static final int TICK_MS = 200;

  private final Runs runs;
  private final JPanel panel =
      new JPanel(new MigLayout("insets 8, wrap 1, fill", "[grow, fill]", "[][grow, fill]"));
  private final Model model = new Model();
  private final JTable table = new JTable(model);
  private final JButton cancel = new JButton(Texts.of("runs.cancel"));
  private final JButton clear = new JButton(Texts.of("runs.clear"));
  private final Timer tick = new Timer(TICK_MS, e -> refresh());
  private final Runnable follow = this::changed;

  RunsPane(Bench bench) {
    this.runs = bench.runs();
    cancel.setName("runs.cancel");
    cancel.addActionListener(e -> cancel());
    clear.addActionListener(e -> runs.clear());
    panel.add(cancel, "split 2, growx 0");
    panel.add(clear, "growx 0");
    table.setName("runs.table");
    table.getAccessibleContext().setAccessibleName(Texts.of("view.runs"));
    table.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    table.setRowHeight(24);
    table.setDefaultRenderer(Double.class, new Bar());
    table.getSelectionModel().addListSelectionListener(e -> enable());
    int[] widths = {260, 120, 140, 90, 380};
    for (int i = 0; i < widths.length; i++) {
      table.getColumnModel().getColumn(i).setPreferredWidth(widths[i]);
    }
    panel.add(new JScrollPane(table), "grow, wmin 0, hmin 0");
    runs.addListener(follow);
    changed();
  }

  private void cancel() {
    int row = table.getSelectedRow();
    model.rows.stream()
        .filter(r -> row < 0 || r == model.rows.get(row))
        .filter(r -> !r.isOver())
        .forEach(runs::cancel);
  }

  private void changed() {
    refresh();
    if (!runs.isIdle()) {
      tick.start();
    }
  }

  private void refresh() {
    List<Runs.Run> now = runs.list();
    if (now.equals(model.rows)) {
      model.fireTableRowsUpdated(0, Math.max(0, now.size() - 1));
    } else {
      model.rows = now;
      model.fireTableDataChanged();
    }
    if (runs.isIdle()) {
      tick.stop();
    }
    enable();
  }

  private void enable() {
    cancel.setEnabled(!runs.isIdle());
    clear.setEnabled(!model.rows.isEmpty());
  }

  @Override
  public JComponent component() {
    return panel;
  }

  @Override
  public void show(Scenario scenario) {
    refresh();
  }

  @Override
  public void close() {
    tick.stop();
    runs.removeListener(follow);
  }

  private static final class Model extends AbstractTableModel {
    private static final long serialVersionUID = 1;
    private static final List<String> HEADS =
        List.of("title", "state", "progress", "elapsed", "doing");

    private transient List<Runs.Run> rows = List.of();

    @Override
    public int getRowCount() {
      return rows.size();
    }

    @Override
    public int getColumnCount() {
      return HEADS.size();
    }

    @Override
    public String getColumnName(int column) {
      return Texts.of("runs." + HEADS.get(column));
    }

    @Override
    public Class<?> getColumnClass(int column) {
      return column == 2 ? Double.class : Object.class;
    }

    @Override
    public Object getValueAt(int row, int column) {
      Runs.Run r = rows.get(row);
      return switch (column) {
        case 0 -> r.title();
        case 1 -> Texts.of("runs.state." + r.state());
        case 2 -> r.state() == Runs.State.DONE ? 1.0 : r.share();
        case 3 -> Numbers.fixed(r.elapsedS(), 1) + " s";
        default -> r.doing();
      };
    }
  }

  private static final class Bar extends JProgressBar implements TableCellRenderer {
    private static final long serialVersionUID = 1;

    Bar() {
      super(0, 100);
      setStringPainted(true);
    }

    @Override
    public Component getTableCellRendererComponent(
        JTable t, Object value, boolean selected, boolean focus, int row, int column) {
      int share = (int) Math.round(100 * (Double) value);
      setValue(share);
      setString(share + " %");
      return this;
    }
  }
}
