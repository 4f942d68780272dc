package siltwright.workbench.internal;

import java.awt.BorderLayout;
import java.awt.FlowLayout;
import java.util.Optional;
import javax.swing.BorderFactory;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JProgressBar;
import javax.swing.Timer;
import siltwright.model.Units;
import siltwright.workbench.Scenario;

/** What was done last, what is being computed, units. */
final class StatusBar extends JPanel {
  private static final long serialVersionUID = 1;
  private static final int TICK_MS = 150;

  private final transient Runs runs;
  private final JLabel text = new JLabel(" ");
  private final JLabel doing = new JLabel();
  private final JLabel units = new JLabel();
  private final JProgressBar progress = new JProgressBar(0, 100);
  private final Timer tick = new Timer(TICK_MS, e -> showRuns());
  private final transient Runnable follow = this::runsChanged;

  StatusBar(Runs runs) {
    super(new BorderLayout(12, 0));
    this.runs = runs;
    setBorder(BorderFactory.createEmptyBorder(3, 10, 3, 10));
    text.setName("status");
    add(text, BorderLayout.CENTER);
    JPanel right = new JPanel(new FlowLayout(FlowLayout.TRAILING, 10, 0));
    progress.getAccessibleContext().setAccessibleName(Texts.of("view.runs"));
    right.add(doing);
    right.add(progress);
    right.add(units);
    add(right, BorderLayout.EAST);
    runs.addListener(follow);
    showRuns();
  }

  /** Tells something; of several lines the first. */
  void tell(String now) {
    String line = now.lines().findFirst().orElse("");
    text.setText(line.isBlank() ? " " : line);
    text.setToolTipText(line.length() > 80 ? line : null);
  }

  void show(Scenario scenario) {
    units.setText(scenario.units() == Units.US ? Texts.of("units.us") : Texts.of("units.si"));
  }

  private void runsChanged() {
    showRuns();
    if (!runs.isIdle()) {
      tick.start();
    }
  }

  private void showRuns() {
    Optional<Runs.Run> run = runs.list().stream().filter(r -> !r.isOver()).findFirst();
    long more = runs.list().stream().filter(r -> !r.isOver()).count() - 1;
    progress.setVisible(run.isPresent());
    doing.setVisible(run.isPresent());
    if (run.isEmpty()) {
      tick.stop();
      return;
    }
    progress.setValue((int) (100 * run.get().share()));
    progress.setIndeterminate(run.get().share() <= 0);
    doing.setText(run.get().title() + (more > 0 ? " " + Texts.of("runs.more", more) : ""));
  }

  void end() {
    tick.stop();
    runs.removeListener(follow);
  }
}
