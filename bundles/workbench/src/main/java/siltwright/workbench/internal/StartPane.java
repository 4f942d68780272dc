package siltwright.workbench.internal;

import java.awt.Font;
import java.nio.file.Path;
import java.util.List;
import javax.swing.ImageIcon;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.SwingConstants;
import net.miginfocom.swing.MigLayout;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.parts.Wrapped;

/** What to do first: the demo, a file, records, what was open lately. */
final class StartPane implements Pane {
  private final Bench bench;
  private final JPanel recent = new JPanel(new MigLayout("insets 0, wrap 1", "[]", "[]2[]"));
  private final JScrollPane scroll;
  private final JButton demo;
  private List<Path> listed;

  StartPane(Bench bench) {
    this.bench = bench;
    JPanel page =
        new JPanel(new MigLayout("insets 40 48 40 48, wrap 2, gapx 24", "[260!][grow, fill]"));
    JLabel title =
        new JLabel(
            Texts.of("start.title"), new ImageIcon(BenchIcon.image(48)), SwingConstants.LEADING);
    title.setIconTextGap(14);
    title.setFont(title.getFont().deriveFont(Font.BOLD, title.getFont().getSize2D() * 1.9f));
    page.add(title, "span 2, gapbottom 4");
    page.add(Wrapped.area(Texts.of("start.lead")), "span 2, wmax 760, growx, gapbottom 22");
    demo = action(page, "demo", () -> bench.window().openDemo());
    action(page, "open", () -> bench.window().open());
    action(page, "records", () -> bench.window().importRecords());
    page.add(Wrapped.area(Texts.of("start.drag")), "span 2, wmax 760, growx, gaptop 8");
    page.add(recent, "span 2, growx, gaptop 24");
    page.add(Wrapped.area(Texts.of("start.caution")), "span 2, wmax 760, growx, gaptop 28");
    scroll = new JScrollPane(page);
    scroll.setBorder(null);
    scroll.getVerticalScrollBar().setUnitIncrement(16);
  }

  private JButton action(JPanel page, String key, Runnable run) {
    Act act = new Act(Texts.of("start." + key), "", run);
    JButton button = new JButton(act);
    button.setName("start." + key);
    button.setHorizontalAlignment(SwingConstants.LEADING);
    String hint = Texts.of("start." + key + ".hint");
    button.getAccessibleContext().setAccessibleDescription(hint);
    page.add(button, "growx, h 40!");
    page.add(Wrapped.area(hint), "wmax 480, growx, aligny center");
    return button;
  }

  @Override
  public JComponent component() {
    return scroll;
  }

  @Override
  public void show(Scenario scenario) {
    List<Path> now = bench.settings().recent();
    if (now.equals(listed)) {
      return;
    }
    boolean first = listed == null;
    listed = now;
    recent.removeAll();
    if (!now.isEmpty()) {
      JLabel label = new JLabel(Texts.of("start.recent"));
      label.setFont(label.getFont().deriveFont(Font.BOLD));
      recent.add(label);
      for (Path file : now) {
        JButton link = new JButton(file.toString());
        link.putClientProperty("JButton.buttonType", "borderless");
        link.addActionListener(e -> bench.openAny(file));
        recent.add(link);
      }
    }
    recent.revalidate();
    if (first) {
      demo.requestFocusInWindow();
    }
  }

  @Override
  public void close() {
    recent.removeAll();
  }
}
