package siltwright.interval.view;

import java.awt.BorderLayout;
import java.awt.CardLayout;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTable;
import javax.swing.JTextArea;
import javax.swing.ListSelectionModel;
import javax.swing.SwingConstants;
import javax.swing.table.DefaultTableCellRenderer;
import javax.swing.table.DefaultTableModel;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.Numbers;
import siltwright.charts.ChartTheme;
import siltwright.charts.screen.FigurePanel;
import siltwright.interval.Best;
import siltwright.interval.Trial;
import siltwright.interval.TrialCurve;
import siltwright.interval.Tuning.CycleAnswer;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.json.Edit;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.parts.Wrapped;

/** The curve, its suppositions, and what is read at the handle. */
final class IntervalPane implements Pane {
  private static final int MOST_PINNED = 6;
  private static final double SHORTEST_H = 25;
  private static final double LONGEST_H = 8000;
  private static final int HEAD_WIDTH = 158;
  private static final int READING_WIDTH = 78;
  private static final String EMPTY = "empty";
  private static final String FULL = "full";

  private final Desk desk;
  private final CardLayout cards = new CardLayout();
  private final JPanel component = new JPanel(cards);
  private final Suppositions suppositions = new Suppositions(this::recompute);
  private final FigurePanel figure = new FigurePanel();
  private final JTextArea line = Wrapped.area(" ");
  private final JButton write = button("write", this::write);
  private final JButton pin = button("pin", this::pin);
  private final JButton unpin = button("unpin", this::unpin);
  private final JButton toBest = button("toBest", this::toBest);
  private final DefaultTableModel model =
      new DefaultTableModel() {
        private static final long serialVersionUID = 1;

        @Override
        public boolean isCellEditable(int row, int column) {
          return false;
        }
      };
  private final JTable table =
      new JTable(model) {
        private static final long serialVersionUID = 1;

        @Override
        public boolean getScrollableTracksViewportWidth() {
          return getMinimumSize().width <= getParent().getWidth();
        }
      };
  private final List<TrialCurve> pinned = new ArrayList<>();
  private final List<Reading> pinnedReadings = new ArrayList<>();
  private Scenario scenario;
  private String machineId = "";
  private double intervalH;
  private Machine asked;
  private TrialCurve curve;
  private Reading today;

  IntervalPane(Desk desk) {
    this.desk = desk;
    JLabel empty = new JLabel(Words.of("empty"), SwingConstants.CENTER);
    empty.setName("interval.empty");
    component.add(empty, EMPTY);
    component.add(full(), FULL);
    component.setName("interval.pane");
    figure.setName("interval.figure");
    table.setName("interval.table");
  }

  private JPanel full() {
    JPanel buttons =
        new JPanel(new MigLayout("insets 0 8 8 18, fillx, wrap 2", "[grow,fill][grow,fill]"));
    buttons.add(button("reset", this::reset));
    buttons.add(toBest);
    buttons.add(pin);
    buttons.add(unpin);
    buttons.add(write, "span 2");
    JPanel controls = new JPanel(new BorderLayout());
    controls.add(suppositions.panel(), BorderLayout.CENTER);
    controls.add(buttons, BorderLayout.SOUTH);
    JScrollPane scrolled = new JScrollPane(controls);
    scrolled.setBorder(BorderFactory.createEmptyBorder());
    scrolled.setHorizontalScrollBarPolicy(JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
    scrolled.getVerticalScrollBar().setUnitIncrement(16);
    table.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    table.setCellSelectionEnabled(true);
    table.setAutoResizeMode(JTable.AUTO_RESIZE_ALL_COLUMNS);
    table.getAccessibleContext().setAccessibleName(Words.of("table"));
    table.getColumnModel().getSelectionModel().addListSelectionListener(e -> enable());
    JScrollPane readings = new JScrollPane(table);
    JPanel right =
        new JPanel(new MigLayout("insets 0 0 8 8, fill, wrap 1", "[grow,fill]", "[grow,fill][][]"));
    right.add(figure, "hmin 200");
    right.add(line, "wmin 0, growx");
    right.add(readings, "h 90:236:236");
    JPanel all = new JPanel(new BorderLayout());
    all.add(scrolled, BorderLayout.WEST);
    all.add(right, BorderLayout.CENTER);
    return all;
  }

  private static JButton button(String key, Runnable action) {
    JButton button = new JButton(Words.of(key));
    button.setName("interval." + key);
    button.setToolTipText(Words.of(key + ".tip"));
    button.addActionListener(e -> action.run());
    return button;
  }

  @Override
  public JComponent component() {
    return component;
  }

  @Override
  public void show(Scenario now) {
    scenario = now;
    if (now.machine().isEmpty() || now.fleet().isEmpty()) {
      machineId = "";
      asked = null;
      curve = null;
      cards.show(component, EMPTY);
      return;
    }
    Machine machine = now.machine().get();
    boolean another = !machine.id().equals(machineId);
    if (another) {
      machineId = machine.id();
      pinned.clear();
      pinnedReadings.clear();
      intervalH = machine.today().intervalH();
    }
    suppositions.show(machine, another, now.units());
    cards.show(component, FULL);
    if (!machine.equals(asked)) {
      recompute();
    } else if (!figure.isStale()) {
      draw();
    }
  }

  private Optional<Machine> machine() {
    return scenario == null ? Optional.empty() : scenario.machine();
  }

  private String currency() {
    return scenario.fleet().map(f -> f.currency()).orElse("");
  }

  /** What the next picture needs, computed off the event thread. */
  private record Computed(TrialCurve curve, Reading today) {}

  private void recompute() {
    machine()
        .ifPresent(
            machine -> {
              asked = machine;
              figure.setStale(true);
              Trial trial = suppositions.trial();
              desk.compute(
                  "curve",
                  Words.of("title") + ": " + machine.id(),
                  progress -> compute(machine, trial),
                  this::computed,
                  this::failed);
            });
  }

  private static Computed compute(Machine machine, Trial trial) {
    TrialCurve asInFile =
        TrialCurve.of(machine, Trial.asItIs(machine.today().procedure()), SHORTEST_H, LONGEST_H);
    double t = machine.today().intervalH();
    return new Computed(
        TrialCurve.of(machine, trial, SHORTEST_H, LONGEST_H),
        new Reading(machine, asInFile.trial(), t, asInFile.at(machine, t)));
  }

  private void computed(Computed c) {
    if (asked == null) {
      return; // its machine has gone meanwhile
    }
    curve = c.curve();
    today = c.today();
    figure.setStale(false);
    draw();
  }

  private void failed(String problem) {
    asked = null;
    line.setText(Words.of("failed", problem));
  }

  private void draw() {
    Machine machine = machine().orElseThrow();
    ChartTheme theme = scenario.dark() ? ChartTheme.DARK : ChartTheme.LIGHT;
    figure.show(CurveFigure.of(machine, currency(), curve, pinned), theme);
    figure.setHandle(intervalH, this::moved);
    line.setText(bestLine());
    read();
  }

  private String bestLine() {
    Optional<Best.Interval> best = curve.best().interval();
    if (best.isEmpty()) {
      return Words.of("noBest", curve.best().reason());
    }
    Best.Interval i = best.get();
    String money = currency() + "/h";
    return Words.of(
        "bestLine",
        Numbers.text(Math.rint(i.hours()), "h"),
        Numbers.text(i.costPerH(), money),
        money,
        Numbers.text(Math.rint(i.within5pct()[0]), "h"),
        Numbers.text(Math.rint(i.within5pct()[1]), "h"));
  }

  private void moved(double hours) {
    intervalH = Math.max(1, hours >= 100 ? Math.rint(hours) : Math.rint(10 * hours) / 10);
    if (curve != null) {
      read();
    }
  }

  private Reading here() {
    return new Reading(
        curve.machine(), curve.trial(), intervalH, curve.at(machine().orElseThrow(), intervalH));
  }

  private void read() {
    double todayPerH = today.cycle().map(CycleAnswer::split).map(s -> s.total()).orElse(Double.NaN);
    List<String> heads = new ArrayList<>(List.of(" ", Words.of("file"), Words.of("shown")));
    List<Reading> columns = new ArrayList<>(List.of(today, here()));
    for (int i = 0; i < pinnedReadings.size(); i++) {
      heads.add(Words.of("pinned", i + 1));
      columns.add(pinnedReadings.get(i));
    }
    List<List<String>> texts =
        columns.stream().map(c -> c.texts(todayPerH, currency(), scenario.units())).toList();
    Object[][] cells = new Object[Reading.ROWS.size()][heads.size()];
    for (int r = 0; r < cells.length; r++) {
      cells[r][0] = Reading.heading(Reading.ROWS.get(r), currency(), scenario.units());
      for (int c = 0; c < texts.size(); c++) {
        cells[r][c + 1] = texts.get(c).get(r);
      }
    }
    boolean same = model.getColumnCount() == heads.size();
    if (same) {
      for (int r = 0; r < cells.length; r++) {
        for (int c = 0; c < heads.size(); c++) {
          model.setValueAt(cells[r][c], r, c);
        }
      }
    } else {
      model.setDataVector(cells, heads.toArray());
      DefaultTableCellRenderer right = new DefaultTableCellRenderer();
      right.setHorizontalAlignment(SwingConstants.RIGHT);
      table.getColumnModel().getColumn(0).setPreferredWidth(2 * HEAD_WIDTH);
      table.getColumnModel().getColumn(0).setMinWidth(HEAD_WIDTH);
      for (int c = 1; c < heads.size(); c++) {
        table.getColumnModel().getColumn(c).setPreferredWidth(READING_WIDTH);
        table.getColumnModel().getColumn(c).setMinWidth(READING_WIDTH);
        table.getColumnModel().getColumn(c).setCellRenderer(right);
      }
    }
    enable();
  }

  private void enable() {
    pin.setEnabled(curve != null && pinned.size() < MOST_PINNED);
    unpin.setEnabled(table.getSelectedColumn() > 2);
    toBest.setEnabled(curve != null && curve.best().interval().isPresent());
    write.setEnabled(curve != null);
  }

  private void reset() {
    machine()
        .ifPresent(
            m -> {
              intervalH = m.today().intervalH();
              suppositions.reset(m, scenario.units());
            });
  }

  private void toBest() {
    curve
        .best()
        .interval()
        .ifPresent(
            i -> {
              intervalH = Math.rint(i.hours());
              draw();
            });
  }

  private void pin() {
    pinned.add(curve);
    pinnedReadings.add(here());
    draw();
  }

  private void unpin() {
    int at = table.getSelectedColumn() - 3;
    if (at >= 0 && at < pinned.size()) {
      pinned.remove(at);
      pinnedReadings.remove(at);
      draw();
    }
  }

  private void write() {
    Machine machine = machine().orElseThrow();
    Trial trial = curve.trial();
    List<Edit> edits = new ArrayList<>();
    scenario.pointer("today/interval_h").ifPresent(p -> edits.add(Edit.number(p, intervalH)));
    scenario.pointer("today/procedure").ifPresent(p -> edits.add(Edit.text(p, trial.procedure())));
    trial
        .option()
        .element()
        .ifPresent(
            e ->
                scenario
                    .pointer("returnFilter/element")
                    .ifPresent(p -> edits.add(Edit.text(p, e.id()))));
    String element = trial.option().elementId(machine);
    boolean more =
        trial.option().breather().isPresent() || trial.option().offlineFilter().isPresent();
    List<Problem> problems = desk.edit(Words.of("undo", machine.id()), edits);
    if (problems.isEmpty()) {
      String done =
          Words.of(
              "written", Numbers.text(intervalH, "h"), trial.procedure(), element, machine.id());
      desk.status(more ? done + " " + Words.of("notWritten") : done);
    } else {
      desk.status(Words.of("failed", problems.get(0).toString()));
    }
  }

  @Override
  public void close() {
    curve = null;
    figure.setHandle(Double.NaN, x -> {});
  }
}
