package siltwright.workbench.internal;

import java.awt.Cursor;
import java.awt.Font;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleState;
import javax.accessibility.AccessibleStateSet;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import javax.swing.SwingUtilities;
import javax.swing.UIManager;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.Cell;
import siltwright.analysis.Cells;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.Finding;
import siltwright.analysis.Numbers;
import siltwright.analysis.Result;
import siltwright.analysis.ShownUnits;
import siltwright.charts.screen.FigurePanel;
import siltwright.model.Problem;
import siltwright.model.Units;
import siltwright.workbench.parts.EntryTable;
import siltwright.workbench.parts.SeverityIcon;
import siltwright.workbench.parts.ThemeColors;
import siltwright.workbench.parts.Wrapped;

/**
 * A result on the screen: findings, values, figures, tables. A new result of the same kind goes
 * into the same components, so that zooms, sorting and the place on the page stay.
 */
final class ResultPage extends Page {
  private static final long serialVersionUID = 1;
  private static final int FIGURE_HEIGHT = 220;
  private static final int PANEL_HEIGHT = 150;
  private static final int MOST_REFUSALS = 20;
  private static final long LONGEST_NS = 20_000_000;

  private final transient Consumer<String> reveal;
  private final transient Map<String, JComponent> parts = new LinkedHashMap<>();
  private transient List<String> keys = List.of();
  private transient List<Runnable> shown = List.of();
  private boolean busy;

  /**
   * Makes an empty page.
   *
   * @param reveal goes to what a finding points at
   */
  ResultPage(Consumer<String> reveal) {
    super(new MigLayout("insets 12 14 20 14, wrap 1, fillx", "[grow, fill]", "[]6[]"));
    this.reveal = reveal;
  }

  /** Shows that there is nothing to show, and why. */
  void empty(String text) {
    shown = List.of();
    setBusy(false);
    parts.clear();
    keys = List.of();
    removeAll();
    JTextArea area = Wrapped.area(text);
    area.setForeground(UIManager.getColor(ThemeColors.QUIET));
    add(area, "wmin 0, growx");
    revalidate();
    repaint();
  }

  /** Shows a result. */
  void show(Result result, Units units) {
    List<String> wanted = new ArrayList<>();
    List<Entry.Value> loose = new ArrayList<>();
    List<Entry.Group> groups = new ArrayList<>();
    List<Entry.Table> tables = new ArrayList<>();
    for (Entry raw : result.entries()) {
      Entry entry = ShownUnits.of(units, raw);
      if (entry instanceof Entry.Value v) {
        loose.add(v);
      } else if (entry instanceof Entry.Group g) {
        groups.add(g.shown());
      } else if (entry instanceof Entry.Table t && t.use() == Entry.Use.READ) {
        tables.add(t);
      }
    }
    groups.add(0, new Entry.Group("values", "", loose).shown());
    groups.removeIf(g -> g.values().isEmpty());
    // What was asked first, then its pictures, then all else.
    List<Runnable> steps = new ArrayList<>();
    groups.stream().limit(1).forEach(g -> steps.add(() -> group(wanted, g)));
    result.figures().forEach(f -> steps.add(() -> figure(wanted, ShownUnits.of(units, f))));
    steps.add(() -> findings(wanted, result.findings()));
    result.rows().ifPresent(rows -> steps.add(() -> rows(wanted, rows)));
    groups.stream().skip(1).forEach(g -> steps.add(() -> group(wanted, g)));
    tables.forEach(table -> steps.add(() -> table(wanted, table.shown())));
    steps.add(() -> lay(wanted));
    show(steps);
  }

  /** Does the steps one by one, and lets other events in between where they take long. */
  private void show(List<Runnable> steps) {
    shown = steps;
    setBusy(true);
    go(steps, 0);
  }

  private void go(List<Runnable> steps, int from) {
    if (steps != shown) {
      return;
    }
    long end = System.nanoTime() + LONGEST_NS;
    int at = from;
    while (at < steps.size() && System.nanoTime() < end) {
      steps.get(at).run();
      at++;
    }
    if (at < steps.size()) {
      int next = at;
      SwingUtilities.invokeLater(() -> go(steps, next));
    } else {
      setBusy(false);
    }
  }

  private void setBusy(boolean now) {
    if (now != busy) {
      busy = now;
      getAccessibleContext()
          .firePropertyChange(
              AccessibleContext.ACCESSIBLE_STATE_PROPERTY,
              now ? null : AccessibleState.BUSY,
              now ? AccessibleState.BUSY : null);
    }
  }

  @Override
  public AccessibleContext getAccessibleContext() {
    if (accessibleContext == null) {
      accessibleContext = new Accessible();
    }
    return accessibleContext;
  }

  /** Tells those who listen, and who wait, when a result is not all there yet. */
  private final class Accessible extends AccessibleJPanel {
    private static final long serialVersionUID = 1;

    @Override
    public AccessibleStateSet getAccessibleStateSet() {
      AccessibleStateSet states = super.getAccessibleStateSet();
      if (busy) {
        states.add(AccessibleState.BUSY);
      }
      return states;
    }
  }

  /** Shows tables alone, such as an overview of many machines. */
  void show(List<Entry.Table> tables, Units units, Consumer<EntryTable> made) {
    List<String> wanted = new ArrayList<>();
    List<Runnable> steps = new ArrayList<>();
    for (Entry.Table table : tables) {
      steps.add(
          () -> {
            table(wanted, (Entry.Table) ShownUnits.of(units, table));
            made.accept((EntryTable) parts.get("table:" + table.name()));
          });
    }
    steps.add(() -> lay(wanted));
    show(steps);
  }

  private void lay(List<String> wanted) {
    if (!wanted.equals(keys)) {
      keys = List.copyOf(wanted);
      removeAll();
      parts.keySet().retainAll(keys);
      keys.forEach(key -> add(parts.get(key), "wmin 0, growx" + height(parts.get(key))));
    }
    revalidate();
    repaint();
  }

  private static String height(JComponent part) {
    int panels =
        part instanceof FigurePanel f ? f.figure().map(g -> g.panels().size()).orElse(1) : 0;
    return panels == 0 ? "" : ", h " + (FIGURE_HEIGHT + panels * PANEL_HEIGHT) + "!";
  }

  private void heading(List<String> wanted, String of, String text) {
    String key = "heading:" + of;
    JTextArea label = (JTextArea) parts.computeIfAbsent(key, k -> Wrapped.area(""));
    label.setText(text);
    label.setFont(
        UIManager.getFont("Label.font")
            .deriveFont(Font.BOLD, UIManager.getFont("Label.font").getSize2D() * 1.15f));
    label.setBorder(BorderFactory.createEmptyBorder(10, 0, 2, 0));
    wanted.add(key);
  }

  private void findings(List<String> wanted, List<Finding> findings) {
    if (findings.isEmpty()) {
      return;
    }
    heading(wanted, "findings", Texts.of("view.findings"));
    JPanel panel = new JPanel(new MigLayout("insets 0, wrap 2, fillx", "[][grow, fill]", "[]4[]"));
    panel.setOpaque(false);
    for (Finding f : findings) {
      JLabel sign = new JLabel(new SeverityIcon(f.severity()));
      sign.getAccessibleContext().setAccessibleName(Texts.of("severity." + f.severity()));
      panel.add(sign, "aligny top, gaptop 1");
      JTextArea text = Wrapped.area(f.text());
      if (!f.pointsAt().isEmpty()) {
        text.setCursor(Cursor.getPredefinedCursor(Cursor.HAND_CURSOR));
        text.setToolTipText(Texts.of("result.goTo", f.pointsAt()));
        text.addMouseListener(
            new MouseAdapter() {
              @Override
              public void mouseClicked(MouseEvent e) {
                reveal.accept(f.pointsAt());
              }
            });
      }
      panel.add(text, "wmin 0, growx");
    }
    replace(wanted, "findings", panel);
  }

  private void replace(List<String> wanted, String key, JPanel content) {
    JPanel holder =
        (JPanel)
            parts.computeIfAbsent(
                key,
                k -> {
                  JPanel made = new JPanel(new MigLayout("insets 0, fillx", "[grow, fill]"));
                  made.setOpaque(false);
                  return made;
                });
    holder.removeAll();
    holder.add(content, "wmin 0, growx");
    wanted.add(key);
  }

  private void rows(List<String> wanted, Result.Rows rows) {
    StringBuilder text =
        new StringBuilder(Texts.of("result.rows", rows.read(), rows.kept(), rows.refused()));
    rows.refusals().stream()
        .limit(MOST_REFUSALS)
        .map(Problem::toString)
        .forEach(line -> text.append('\n').append(line));
    JPanel panel = new JPanel(new MigLayout("insets 0, fillx", "[grow, fill]"));
    panel.setOpaque(false);
    panel.add(Wrapped.area(text.toString()), "wmin 0, growx");
    replace(wanted, "rows", panel);
  }

  private void group(List<String> wanted, Entry.Group group) {
    if (!group.label().isEmpty()) {
      heading(wanted, group.name(), group.label());
    }
    JPanel panel =
        new JPanel(
            new MigLayout("insets 0, wrap 2, gapx 16", "[170!, fill][grow, fill, 120::]", "[]3[]"));
    panel.setOpaque(false);
    for (Entry.Value v : group.values()) {
      JTextArea label = Wrapped.area(v.label());
      label.setForeground(UIManager.getColor(ThemeColors.QUIET));
      panel.add(label, "wmin 60, aligny top");
      JTextArea value = Wrapped.area(text(v));
      value.setName("value." + group.name() + "." + v.name());
      value.setFocusable(true);
      panel.add(value, "wmin 0, growx");
    }
    replace(wanted, "group:" + group.name(), panel);
  }

  private static String text(Entry.Value v) {
    String text = Cells.text(v.cell(), v.unit());
    String unit = Numbers.shown(v.unit());
    return v.cell() instanceof Cell.None || unit.isEmpty() ? text : text + " " + unit;
  }

  private void figure(List<String> wanted, Figure figure) {
    String key = "figure:" + figure.name();
    FigurePanel panel = (FigurePanel) parts.computeIfAbsent(key, k -> new FigurePanel());
    panel.setName(key);
    panel.setFont(UIManager.getFont("Label.font"));
    panel.show(figure, ThemeColors.chart());
    panel.setBorder(BorderFactory.createEmptyBorder());
    wanted.add(key);
    String under = "caption:" + figure.name();
    JTextArea caption = (JTextArea) parts.computeIfAbsent(under, k -> Wrapped.area(""));
    caption.setText(figure.caption());
    caption.setForeground(UIManager.getColor(ThemeColors.QUIET));
    caption.setFont(UIManager.getFont("Label.font"));
    wanted.add(under);
  }

  private void table(List<String> wanted, Entry.Table table) {
    heading(wanted, table.name(), table.label());
    String key = "table:" + table.name();
    EntryTable shown = (EntryTable) parts.computeIfAbsent(key, k -> new EntryTable());
    shown.setName(key);
    shown.show(table);
    wanted.add(key);
  }

  /** Marks the figures as being of numbers that are computed again. */
  void setStale(boolean stale) {
    parts.values().stream()
        .filter(FigurePanel.class::isInstance)
        .forEach(p -> ((FigurePanel) p).setStale(stale));
  }
}
