package siltwright.workbench.internal;

import java.awt.Component;
import java.awt.event.ActionEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.util.Comparator;
import java.util.List;
import javax.swing.AbstractAction;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTable;
import javax.swing.JTextArea;
import javax.swing.KeyStroke;
import javax.swing.ListSelectionModel;
import javax.swing.table.AbstractTableModel;
import javax.swing.table.DefaultTableCellRenderer;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.Finding.Severity;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.parts.Bar;
import siltwright.workbench.parts.SeverityIcon;
import siltwright.workbench.parts.Wrapped;

/** All that is to be said, gravest first; a click goes to what it is about. */
final class FindingsPane implements Pane {
  private final Bench bench;
  private final JPanel panel =
      new JPanel(
          new MigLayout(
              "insets 4 8 8 8, wrap 1, fill, hidemode 3", "[grow, fill]", "[][grow, fill][]"));
  private final JComboBox<String> least = new JComboBox<>();
  private final JCheckBox ofMachine = new JCheckBox(Texts.of("findings.ofMachine"));
  private final JLabel count = new JLabel();
  private final Model model = new Model();
  private final JTable table = new JTable(model);
  private final JTextArea whole = Wrapped.area("");
  private final Runnable follow = this::refresh;

  FindingsPane(Bench bench) {
    this.bench = bench;
    for (Severity severity : Severity.values()) {
      least.addItem(Texts.of("findings.least." + severity.name()));
    }
    least.getAccessibleContext().setAccessibleName(Texts.of("findings.least"));
    least.addActionListener(e -> refresh());
    ofMachine.addActionListener(e -> refresh());
    Bar bar = Bar.flush();
    bar.add(least);
    bar.add(ofMachine);
    bar.add(count);
    panel.add(bar, "wmin 0, growx");
    table.setName("findings.table");
    table.getAccessibleContext().setAccessibleName(Texts.of("view.findings"));
    table.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    table.setRowHeight(24);
    table.setDefaultRenderer(Object.class, new Renderer());
    int[] widths = {90, 70, 640, 120};
    for (int i = 0; i < widths.length; i++) {
      table.getColumnModel().getColumn(i).setPreferredWidth(widths[i]);
      if (i < 2) {
        table.getColumnModel().getColumn(i).setMinWidth(widths[i]);
        table.getColumnModel().getColumn(i).setMaxWidth(2 * widths[i]);
      }
    }
    table.addMouseListener(
        new MouseAdapter() {
          @Override
          public void mouseClicked(MouseEvent e) {
            if (table.rowAtPoint(e.getPoint()) >= 0) {
              go();
            }
          }
        });
    table
        .getInputMap(JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT)
        .put(KeyStroke.getKeyStroke("ENTER"), "go");
    table
        .getActionMap()
        .put(
            "go",
            new AbstractAction() {
              private static final long serialVersionUID = 1;

              @Override
              public void actionPerformed(ActionEvent e) {
                go();
              }
            });
    panel.add(new JScrollPane(table), "grow, wmin 0, hmin 0");
    whole.setName("findings.whole");
    whole.setVisible(false);
    panel.add(whole, "wmin 0, growx");
    table.getSelectionModel().addListSelectionListener(e -> showWhole());
    bench.findings().addListener(follow);
    refresh();
  }

  private void go() {
    int row = table.getSelectedRow();
    if (row >= 0) {
      FindingsBoard.Row finding = model.rows.get(row);
      bench.reveal(finding.machine(), finding.pointsAt());
    }
  }

  /** Shows the selected finding under the table, with all its words. */
  private void showWhole() {
    int row = table.getSelectedRow();
    whole.setVisible(row >= 0);
    if (row >= 0) {
      FindingsBoard.Row r = model.rows.get(row);
      whole.setText(
          (r.machine().isEmpty() ? "" : r.machine() + ": ") + r.text() + " (" + r.source() + ")");
    }
    panel.revalidate();
  }

  private void refresh() {
    Severity from = Severity.values()[Math.max(0, least.getSelectedIndex())];
    String machine = bench.document().selected();
    List<FindingsBoard.Row> all = bench.findings().rows();
    List<FindingsBoard.Row> rows =
        all.stream()
            .filter(r -> r.severity().compareTo(from) >= 0)
            .filter(r -> !ofMachine.isSelected() || r.machine().equals(machine))
            .sorted(
                Comparator.comparing(FindingsBoard.Row::severity)
                    .reversed()
                    .thenComparing(r -> !r.machine().equals(machine)))
            .toList();
    count.setText(
        rows.isEmpty() && all.isEmpty()
            ? Texts.of("findings.none")
            : Texts.of("findings.count", rows.size(), all.size()));
    if (!rows.equals(model.rows)) {
      int before = table.getSelectedRow();
      FindingsBoard.Row selected = before < 0 ? null : model.rows.get(before);
      model.rows = rows;
      model.fireTableDataChanged();
      int now = rows.indexOf(selected);
      if (now >= 0) {
        table.setRowSelectionInterval(now, now);
      }
      showWhole();
    }
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
    bench.findings().removeListener(follow);
  }

  private static final class Model extends AbstractTableModel {
    private static final long serialVersionUID = 1;
    private static final List<String> HEADS = List.of("severity", "machine", "text", "source");

    private transient List<FindingsBoard.Row> rows = List.of();

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
      return Texts.of("findings." + HEADS.get(column));
    }

    @Override
    public Object getValueAt(int row, int column) {
      FindingsBoard.Row r = rows.get(row);
      return switch (column) {
        case 0 -> r.severity();
        case 1 -> r.machine();
        case 2 -> r.text();
        default -> r.source();
      };
    }
  }

  private static final class Renderer extends DefaultTableCellRenderer {
    private static final long serialVersionUID = 1;

    @Override
    public Component getTableCellRendererComponent(
        JTable t, Object value, boolean selected, boolean focus, int row, int column) {
      super.getTableCellRendererComponent(t, value, selected, focus, row, column);
      boolean sign = value instanceof Severity;
      setIcon(sign ? new SeverityIcon((Severity) value) : null);
      setText(sign ? Texts.of("severity." + value) : String.valueOf(value));
      setToolTipText(column > 1 ? getText() : null);
      return this;
    }
  }
}
