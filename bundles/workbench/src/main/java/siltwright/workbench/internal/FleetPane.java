package siltwright.workbench.internal;

import java.awt.Component;
import java.awt.Dimension;
import java.awt.Rectangle;
import java.util.ArrayList;
import java.util.Enumeration;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextField;
import javax.swing.JTree;
import javax.swing.SwingUtilities;
import javax.swing.ToolTipManager;
import javax.swing.UIManager;
import javax.swing.tree.DefaultMutableTreeNode;
import javax.swing.tree.DefaultTreeCellRenderer;
import javax.swing.tree.DefaultTreeModel;
import javax.swing.tree.TreePath;
import javax.swing.tree.TreeSelectionModel;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.Finding.Severity;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.Site;
import siltwright.model.json.FleetText;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.parts.SeverityIcon;
import siltwright.workbench.parts.Typed;

/**
 * The fleet as a tree: sites, classes, machines, with signs at those of which something is said.
 */
final class FleetPane implements Pane {
  private static final List<String> GROUPINGS = List.of("siteClass", "classSite", "none");
  private static final int LEAST_NAME = 60;
  private static final int EDGE = 10;
  private static final List<String> FILTERS = List.of("all", "found", "grave");

  private final Bench bench;
  private final JPanel panel =
      new JPanel(new MigLayout("insets 8, wrap 1, fill", "[grow, fill]", "[][]4[][][grow, fill]"));
  private final JTextField search = new JTextField();
  private final JComboBox<String> grouping = combo("fleet.group.", GROUPINGS);
  private final JComboBox<String> filter = combo("fleet.filter.", FILTERS);
  private final JLabel count = new JLabel(" ");
  private final JTree tree =
      new JTree(new DefaultTreeModel(null)) {
        private static final long serialVersionUID = 1;

        /** Names that are longer than the pane end in dots; the tip has them whole. */
        @Override
        public boolean getScrollableTracksViewportWidth() {
          return true;
        }
      };
  private final Runnable followFindings = this::findingsChanged;
  private Map<String, Severity> severities = Map.of();
  private List<Row> shown = List.of();
  private boolean following;
  private boolean closed;

  /** A machine as the tree shows it; one that could not be read has an id only. */
  private record Row(String id, String name, String machineClass, String site) {
    @Override
    public String toString() {
      return name.isEmpty() ? id : id + "  " + name;
    }
  }

  FleetPane(Bench bench) {
    this.bench = bench;
    search.putClientProperty("JTextField.placeholderText", Texts.of("fleet.search"));
    search.putClientProperty("JTextField.showClearButton", true);
    search.getAccessibleContext().setAccessibleName(Texts.of("fleet.search"));
    search.setName("fleet.search");
    search.getDocument().addDocumentListener(new Typed(this::rebuild));
    grouping.addActionListener(e -> rebuild());
    filter.addActionListener(e -> rebuild());
    grouping.getAccessibleContext().setAccessibleName(Texts.of("fleet.group"));
    filter.getAccessibleContext().setAccessibleName(Texts.of("fleet.filter"));
    tree.setName("fleet.tree");
    tree.getAccessibleContext().setAccessibleName(Texts.of("view.fleet"));
    tree.setRootVisible(true);
    tree.setShowsRootHandles(false);
    tree.setLargeModel(true);
    tree.setRowHeight(24);
    tree.getSelectionModel().setSelectionMode(TreeSelectionModel.SINGLE_TREE_SELECTION);
    tree.setCellRenderer(new Renderer());
    ToolTipManager.sharedInstance().registerComponent(tree);
    tree.addTreeSelectionListener(e -> chosen());
    panel.add(search);
    panel.add(grouping, "wmin 60");
    panel.add(filter, "wmin 60");
    panel.add(count, "wmin 0");
    JScrollPane scroll = new JScrollPane(tree);
    scroll.setHorizontalScrollBarPolicy(JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
    panel.add(scroll, "grow, wmin 0, hmin 0");
    bench.findings().addListener(followFindings);
    severities = bench.findings().bySeverity();
  }

  /** Returns how far each level of the tree stands in. */
  private static int indent() {
    return UIManager.getInt("Tree.leftChildIndent") + UIManager.getInt("Tree.rightChildIndent");
  }

  private static JComboBox<String> combo(String prefix, List<String> keys) {
    JComboBox<String> combo = new JComboBox<>();
    keys.forEach(key -> combo.addItem(Texts.of(prefix + key)));
    return combo;
  }

  @Override
  public JComponent component() {
    return panel;
  }

  /** Goes to the search field. */
  void focusSearch() {
    SwingUtilities.invokeLater(search::requestFocusInWindow);
    search.selectAll();
  }

  @Override
  public void show(Scenario scenario) {
    List<Row> rows = bench.document().text().map(FleetPane::rows).orElse(List.of());
    if (!rows.equals(shown)) {
      shown = rows;
      rebuild();
    }
    follow();
  }

  private static List<Row> rows(FleetText text) {
    Fleet fleet = text.fleet();
    Map<String, String> sites =
        fleet.sites().stream().collect(Collectors.toMap(Site::id, Site::name, (a, b) -> a));
    Map<String, Machine> byId =
        fleet.machines().stream().collect(Collectors.toMap(Machine::id, m -> m, (a, b) -> a));
    List<Row> rows = new ArrayList<>();
    for (String id : text.ids()) {
      Machine m = byId.get(id);
      rows.add(
          m == null
              ? new Row(id, "", "", Texts.of("fleet.unreadable"))
              : new Row(id, m.name(), m.machineClass(), sites.getOrDefault(m.site(), m.site())));
    }
    return rows;
  }

  private void findingsChanged() {
    if (!closed) {
      Map<String, Severity> now = bench.findings().bySeverity();
      if (!now.equals(severities)) {
        severities = now;
        if (filter.getSelectedIndex() > 0) {
          rebuild();
        }
        tree.repaint();
      }
    }
  }

  private boolean kept(Row row) {
    Severity severity = severities.get(row.id());
    boolean found =
        switch (FILTERS.get(filter.getSelectedIndex())) {
          case "found" -> severity != null;
          case "grave" -> severity == Severity.WARNING;
          default -> true;
        };
    if (!found) {
      return false;
    }
    String text =
        (row.id() + " " + row.name() + " " + row.machineClass() + " " + row.site())
            .toLowerCase(Locale.ROOT);
    for (String word : search.getText().toLowerCase(Locale.ROOT).strip().split("\\s+")) {
      if (!text.contains(word)) {
        return false;
      }
    }
    return true;
  }

  private void rebuild() {
    List<Row> rows = shown.stream().filter(this::kept).toList();
    count.setText(
        rows.size() == shown.size()
            ? Texts.of("fleet.count", shown.size())
            : Texts.of("fleet.countOf", rows.size(), shown.size()));
    String name = bench.document().text().map(t -> t.fleet().name()).orElse("");
    DefaultMutableTreeNode root = new DefaultMutableTreeNode(name);
    List<Function<Row, String>> levels =
        switch (GROUPINGS.get(grouping.getSelectedIndex())) {
          case "siteClass" -> List.of(Row::site, Row::machineClass);
          case "classSite" -> List.of(Row::machineClass, Row::site);
          default -> List.of();
        };
    grow(root, rows, levels);
    following = true;
    tree.setModel(new DefaultTreeModel(shown.isEmpty() ? null : root));
    expand(root, rows.size() <= 300 || !search.getText().isBlank());
    following = false;
    follow();
  }

  private static void grow(
      DefaultMutableTreeNode node, List<Row> rows, List<Function<Row, String>> levels) {
    if (levels.isEmpty()) {
      rows.forEach(row -> node.add(new DefaultMutableTreeNode(row)));
      return;
    }
    Map<String, List<Row>> groups =
        rows.stream()
            .collect(Collectors.groupingBy(levels.get(0), TreeMap::new, Collectors.toList()));
    groups.forEach(
        (name, of) -> {
          DefaultMutableTreeNode group = new DefaultMutableTreeNode(name);
          if (name.isEmpty()) {
            grow(node, of, levels.subList(1, levels.size()));
          } else {
            grow(group, of, levels.subList(1, levels.size()));
            node.add(group);
          }
        });
  }

  private void expand(DefaultMutableTreeNode root, boolean all) {
    tree.expandPath(new TreePath(root));
    if (all) {
      for (int row = 0; row < tree.getRowCount(); row++) {
        tree.expandRow(row);
      }
    }
  }

  /** Selects the document's machine in the tree. */
  private void follow() {
    String id = bench.document().selected();
    if (selected().map(Row::id).orElse("").equals(id)) {
      return;
    }
    following = true;
    Optional<TreePath> path = path(id);
    if (path.isPresent()) {
      tree.setSelectionPath(path.get());
      Rectangle row = tree.getPathBounds(path.get());
      if (row != null) {
        tree.scrollRectToVisible(new Rectangle(0, row.y, 1, row.height));
      }
    } else {
      tree.clearSelection();
    }
    following = false;
  }

  private Optional<TreePath> path(String id) {
    if (!id.isEmpty() && tree.getModel().getRoot() instanceof DefaultMutableTreeNode root) {
      for (Enumeration<?> all = root.depthFirstEnumeration(); all.hasMoreElements(); ) {
        DefaultMutableTreeNode node = (DefaultMutableTreeNode) all.nextElement();
        if (node.getUserObject() instanceof Row row && row.id().equals(id)) {
          return Optional.of(new TreePath(node.getPath()));
        }
      }
    }
    return Optional.empty();
  }

  private Optional<Row> selected() {
    return tree.getLastSelectedPathComponent() instanceof DefaultMutableTreeNode node
            && node.getUserObject() instanceof Row row
        ? Optional.of(row)
        : Optional.empty();
  }

  private void chosen() {
    if (following || closed) {
      return;
    }
    boolean atRoot = tree.getSelectionPath() != null && tree.getSelectionPath().getPathCount() == 1;
    if (selected().isPresent()) {
      bench.document().select(selected().get().id());
    } else if (atRoot) {
      bench.document().select("");
    }
  }

  @Override
  public void close() {
    closed = true;
    bench.findings().removeListener(followFindings);
    ToolTipManager.sharedInstance().unregisterComponent(tree);
  }

  private final class Renderer extends DefaultTreeCellRenderer {
    private static final long serialVersionUID = 1;
    private int room;

    @Override
    public Dimension getPreferredSize() {
      Dimension size = super.getPreferredSize();
      return room > 0 ? new Dimension(Math.min(size.width, room), size.height) : size;
    }

    @Override
    public Component getTreeCellRendererComponent(
        JTree of, Object value, boolean sel, boolean open, boolean leaf, int row, boolean focus) {
      super.getTreeCellRendererComponent(of, value, sel, open, leaf, row, focus);
      Object what = ((DefaultMutableTreeNode) value).getUserObject();
      int level = ((DefaultMutableTreeNode) value).getLevel();
      room = Math.max(LEAST_NAME, tree.getWidth() - level * indent() - EDGE);
      setIcon(null);
      setToolTipText(null);
      // the name has the room first; the sign stands behind it, where there is one
      setHorizontalTextPosition(LEADING);
      if (what instanceof Row machine) {
        Severity severity = severities.get(machine.id());
        setIcon(severity == null ? null : new SeverityIcon(severity));
        setToolTipText(machine + ", " + machine.machineClass() + ", " + machine.site());
      } else if (what instanceof String) {
        int machines = ((DefaultMutableTreeNode) value).getLeafCount();
        setText(what + "  (" + machines + ")");
        setToolTipText(getText());
      }
      return this;
    }
  }
}
