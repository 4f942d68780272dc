package siltwright.circuit.view;

import java.awt.BorderLayout;
import java.awt.CardLayout;
import java.awt.Dimension;
import java.awt.FlowLayout;
import java.awt.Font;
import java.awt.GridBagLayout;
import java.awt.GridLayout;
import java.awt.event.ActionEvent;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.awt.event.KeyEvent;
import java.awt.event.MouseEvent;
import java.util.ArrayList;
import java.util.Dictionary;
import java.util.Hashtable;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.ResourceBundle;
import javax.swing.AbstractAction;
import javax.swing.AbstractButton;
import javax.swing.BorderFactory;
import javax.swing.Box;
import javax.swing.BoxLayout;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSlider;
import javax.swing.JSplitPane;
import javax.swing.JTable;
import javax.swing.JToggleButton;
import javax.swing.KeyStroke;
import javax.swing.Timer;
import siltwright.analysis.Numbers;
import siltwright.circuit.view.Course.Stretch;
import siltwright.contamination.Simulation.Look;
import siltwright.model.ChangeProcedure;
import siltwright.model.DutyState;
import siltwright.model.Machine;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;

/** An open view of a circuit: one change or two beside each other, at the same moment. */
final class CircuitPane implements Pane {
  private static final int FRAME_MS = 66;
  private static final double RUN_S = 24;
  private static final double MIN_PER_H = 60;
  private static final double ZOOM_STEP = 1.25;
  private static final double PAN_STEP = 0.08;

  /** Chosen where none of the machine's own is; no id looks like it. */
  private static final String NOTHING = "-";

  private static final int GAP = 2;
  private static final int TABLE_HEIGHT = 112;
  private static final int MARKS = 8;
  private static final int FEW_MARKS = 2;
  private static final int NARROW = 640;
  private static final int WIDEST_CHOICE = 250;
  private static final String EMPTY = "empty";
  private static final String FULL = "full";

  private final Desk desk;
  private final ResourceBundle texts = Words.bundle();
  private final JPanel root = new JPanel(new CardLayout());
  private final JLabel emptyTitle = new JLabel();
  private final JLabel emptyText = new JLabel();
  private final JComboBox<Choice> way = combo("way");
  private final JComboBox<Choice> beside = combo("beside");
  private final JComboBox<Choice> duty = combo("duty");
  private final JComboBox<Choice> stretch = combo("stretch");
  private final JSlider slider = new JSlider(0, Course.STEPS, 0);
  private final JToggleButton play = new JToggleButton();
  private final JCheckBox still = new JCheckBox();
  private final JLabel time = new JLabel();
  private final JLabel status = new JLabel(" ");
  private final Lens lens = new Lens();
  private final JPanel canvases = new JPanel(new GridLayout(1, 0, GAP, GAP));
  private final List<CircuitCanvas> shown = new ArrayList<>();
  private final MomentTable table = new MomentTable();
  private final Timer timer = new Timer(FRAME_MS, e -> frame());
  private final SaveMenu save;

  private boolean filling;
  private boolean closed;
  private Scenario scenario;
  private Machine asked;
  private List<Course> courses = List.of();
  private Plan plan;
  private String marked = "";
  private double runS;
  private double motionS;

  /** A thing to choose, with the words for it. */
  private record Choice(String id, String label) {
    @Override
    public String toString() {
      return label;
    }
  }

  CircuitPane(Desk desk) {
    this.desk = desk;
    scenario = desk.scenario();
    save = new SaveMenu(desk, root, texts, this::pictures, () -> motionS);
    root.setName("circuit");
    root.add(empty(), EMPTY);
    root.add(full(), FULL);
    keys();
    canvases.addComponentListener(
        new ComponentAdapter() {
          @Override
          public void componentResized(ComponentEvent e) {
            arrange();
          }
        });
    still.setSelected(desk.recall("still").isPresent());
  }

  @Override
  public JComponent component() {
    return root;
  }

  @Override
  public void close() {
    closed = true;
    timer.stop();
    shown.forEach(CircuitCanvas::close);
    shown.clear();
    canvases.removeAll();
  }

  // ---- what stands in the pane

  private JComponent empty() {
    emptyTitle.setFont(emptyTitle.getFont().deriveFont(Font.BOLD, 16f));
    JPanel lines = new JPanel();
    lines.setLayout(new BoxLayout(lines, BoxLayout.Y_AXIS));
    emptyTitle.setAlignmentX(0.5f);
    emptyText.setAlignmentX(0.5f);
    lines.add(emptyTitle);
    lines.add(Box.createVerticalStrut(8));
    lines.add(emptyText);
    JPanel middle = new JPanel(new GridBagLayout());
    middle.add(lines);
    return middle;
  }

  private JComponent full() {
    JPanel choices = new JPanel(new WrapLayout(FlowLayout.LEADING, 8, 4));
    choices.add(labelled("way", way));
    choices.add(labelled("beside", beside));
    choices.add(labelled("duty", duty));
    JPanel zoom = new JPanel(new FlowLayout(FlowLayout.LEADING, 2, 0));
    zoom.add(button("−", "zoomOut", () -> zoom(1 / ZOOM_STEP)));
    zoom.add(button("+", "zoomIn", () -> zoom(ZOOM_STEP)));
    zoom.add(button(word("zoomFit.sign"), "zoomFit", lens::fit));
    zoom.add(save.button());
    choices.add(zoom);

    JPanel run = new JPanel(new WrapLayout(FlowLayout.LEADING, 8, 4));
    play.setName("play");
    play.setText(word("play"));
    play.setToolTipText(word("play.tip"));
    play.addActionListener(e -> playing(play.isSelected()));
    run.add(play);
    run.add(labelled("stretch", stretch));
    still.setName("still");
    still.setText(word("still"));
    still.setMnemonic(word("still.key").charAt(0));
    still.setToolTipText(word("still.tip"));
    still.addActionListener(e -> desk.keep("still", still.isSelected() ? "yes" : ""));
    run.add(still);
    time.setName("time");
    run.add(time);
    run.add(status);
    status.setName("status");

    slider.setName("slider");
    slider.getAccessibleContext().setAccessibleName(word("time"));
    slider.setPaintTicks(true);
    slider.setPaintLabels(true);
    slider.setMajorTickSpacing(Course.STEPS / MARKS);
    slider.addChangeListener(e -> moved());
    slider.addComponentListener(
        new ComponentAdapter() {
          @Override
          public void componentResized(ComponentEvent e) {
            marks();
          }
        });
    JPanel times = new JPanel(new BorderLayout());
    times.setBorder(BorderFactory.createEmptyBorder(0, 6, 0, 6));
    times.add(slider, BorderLayout.NORTH);
    times.add(run, BorderLayout.CENTER);

    for (Stretch s : Stretch.values()) {
      stretch.addItem(new Choice(s.name(), word("stretch." + s.name().toLowerCase(Locale.ROOT))));
    }
    desk.recall("stretch").ifPresent(id -> select(stretch, id));
    way.addActionListener(e -> chosen("way", way, true));
    beside.addActionListener(e -> chosen("beside", beside, true));
    duty.addActionListener(e -> chosen("duty", duty, false));
    stretch.addActionListener(e -> chosen("stretch", stretch, false));

    JTable numbers =
        new JTable(table) {
          private static final long serialVersionUID = 1;

          @Override
          public String getToolTipText(MouseEvent e) {
            int row = rowAtPoint(e.getPoint());
            int column = columnAtPoint(e.getPoint());
            return row < 0 || column < 0
                ? null
                : getValueAt(row, 0) + (column == 0 ? "" : ": " + getValueAt(row, column));
          }
        };
    numbers.setName("numbers");
    numbers.setFillsViewportHeight(true);
    numbers.getAccessibleContext().setAccessibleName(word("column.quantity"));
    JScrollPane scroll = new JScrollPane(numbers);
    scroll.setPreferredSize(new Dimension(400, TABLE_HEIGHT));
    // the pictures come later and would find no room
    canvases.setPreferredSize(new Dimension(640, 2000));
    canvases.setMinimumSize(new Dimension(160, 120));
    scroll.setMinimumSize(new Dimension(100, 40));
    JPanel lower = new JPanel(new BorderLayout());
    lower.add(times, BorderLayout.NORTH);
    lower.add(scroll, BorderLayout.CENTER);
    lower.setMinimumSize(lower.getPreferredSize());
    JSplitPane split = new JSplitPane(JSplitPane.VERTICAL_SPLIT, canvases, lower);
    split.setResizeWeight(1);
    split.setBorder(null);
    JPanel all = new JPanel(new BorderLayout());
    all.add(choices, BorderLayout.NORTH);
    all.add(split, BorderLayout.CENTER);
    return all;
  }

  private JComboBox<Choice> combo(String name) {
    JComboBox<Choice> combo =
        new JComboBox<>() {
          private static final long serialVersionUID = 1;

          @Override
          public Dimension getPreferredSize() {
            // names of procedures are long: the list shows them whole
            Dimension size = super.getPreferredSize();
            return new Dimension(Math.min(size.width, WIDEST_CHOICE), size.height);
          }
        };
    combo.setName(name);
    combo.getAccessibleContext().setAccessibleName(word(name));
    return combo;
  }

  private JComponent labelled(String key, JComboBox<Choice> combo) {
    JLabel label = new JLabel(word(key));
    label.setLabelFor(combo);
    label.setDisplayedMnemonic(word(key + ".key").charAt(0));
    JPanel both = new JPanel(new FlowLayout(FlowLayout.LEADING, 4, 0));
    both.add(label);
    both.add(combo);
    return both;
  }

  private AbstractButton button(String sign, String key, Runnable action) {
    JButton button = new JButton(sign);
    button.setName(key);
    button.setToolTipText(word(key));
    button.getAccessibleContext().setAccessibleName(word(key));
    button.addActionListener(e -> action.run());
    return button;
  }

  private void keys() {
    key("play", () -> playing(!play.isSelected()), KeyStroke.getKeyStroke(KeyEvent.VK_SPACE, 0));
    key(
        "zoomIn",
        () -> zoom(ZOOM_STEP),
        KeyStroke.getKeyStroke('+'),
        KeyStroke.getKeyStroke(KeyEvent.VK_ADD, 0));
    key(
        "zoomOut",
        () -> zoom(1 / ZOOM_STEP),
        KeyStroke.getKeyStroke('-'),
        KeyStroke.getKeyStroke(KeyEvent.VK_SUBTRACT, 0));
    key("zoomFit", lens::fit, KeyStroke.getKeyStroke('0'));
    pan("left", KeyEvent.VK_LEFT, -1, 0);
    pan("right", KeyEvent.VK_RIGHT, 1, 0);
    pan("up", KeyEvent.VK_UP, 0, -1);
    pan("down", KeyEvent.VK_DOWN, 0, 1);
  }

  private void pan(String name, int key, int x, int y) {
    key(
        name,
        () -> lens.move(x * PAN_STEP / lens.zoom(), y * PAN_STEP / lens.zoom()),
        KeyStroke.getKeyStroke(key, 0));
  }

  private void key(String name, Runnable action, KeyStroke... strokes) {
    for (KeyStroke stroke : strokes) {
      root.getInputMap(JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).put(stroke, name);
    }
    root.getActionMap()
        .put(
            name,
            new AbstractAction() {
              private static final long serialVersionUID = 1;

              @Override
              public void actionPerformed(ActionEvent e) {
                action.run();
              }
            });
  }

  private void zoom(double factor) {
    lens.zoom(factor, lens.x(), lens.y());
  }

  private String word(String key, Object... with) {
    return Words.text(texts, key, with);
  }

  // ---- what is shown

  @Override
  public void show(Scenario now) {
    scenario = now;
    Optional<Machine> machine = now.machine();
    if (machine.isEmpty()) {
      playing(false);
      asked = null;
      courses = List.of();
      emptyTitle.setText(word("empty.title"));
      emptyText.setText(word(now.pointer().isPresent() ? "empty.problem" : "empty.text"));
      status.setText(" ");
      card(EMPTY);
      return;
    }
    card(FULL);
    if (machine.get().equals(asked)) {
      fillDuty(machine.get());
      refresh();
    } else {
      fill(machine.get());
      compute();
    }
  }

  private void card(String name) {
    ((CardLayout) root.getLayout()).show(root, name);
  }

  private void fill(Machine machine) {
    boolean same = asked != null && asked.id().equals(machine.id());
    Optional<String> before = same ? id(way) : Optional.empty();
    filling = true;
    way.removeAllItems();
    beside.removeAllItems();
    beside.addItem(new Choice(NOTHING, word("beside.none")));
    for (ChangeProcedure p : machine.procedures()) {
      Choice choice = new Choice(p.id(), p.name());
      way.addItem(choice);
      beside.addItem(choice);
    }
    String today = machine.today().procedure();
    select(way, before.orElse(today));
    select(
        beside,
        desk.recall("beside")
            .filter(
                id -> id.equals(NOTHING) || machine.procedure(id).isPresent() && !id.equals(today))
            .orElse(other(machine)));
    filling = false;
    fillDuty(machine);
  }

  private static Optional<String> id(JComboBox<Choice> combo) {
    return Optional.ofNullable((Choice) combo.getSelectedItem()).map(Choice::id);
  }

  /** Units may have changed: temperatures stand in the names of the states. */
  private void fillDuty(Machine machine) {
    filling = true;
    Optional<String> before = id(duty).or(() -> desk.recall("duty"));
    duty.removeAllItems();
    duty.addItem(new Choice(NOTHING, word("mean")));
    for (DutyState s : machine.duty()) {
      duty.addItem(
          new Choice(s.id(), word("state", s.id(), flow(s.flowLPerMin()), celsius(s.oilDegC()))));
    }
    select(duty, before.orElse(NOTHING));
    filling = false;
  }

  private String flow(double litrePerMin) {
    return shown(litrePerMin, "L/min");
  }

  private String celsius(double degC) {
    return shown(degC, "°C");
  }

  private String shown(double value, String unit) {
    double number = Math.rint(10 * scenario.units().shown(value, unit)) / 10;
    return Numbers.text(number) + " " + scenario.units().unit(unit);
  }

  /** The procedure that differs most from today's in what it sheds. */
  private static String other(Machine machine) {
    double today =
        machine
            .procedure(machine.today().procedure())
            .map(ChangeProcedure::backFlushShare)
            .orElse(0.0);
    String other = "";
    double most = -1;
    for (ChangeProcedure p : machine.procedures()) {
      double apart = Math.abs(p.backFlushShare() - today);
      if (!p.id().equals(machine.today().procedure()) && apart > most) {
        most = apart;
        other = p.id();
      }
    }
    return other;
  }

  private static void select(JComboBox<Choice> combo, String id) {
    for (int i = 0; i < combo.getItemCount(); i++) {
      if (combo.getItemAt(i).id().equals(id)) {
        combo.setSelectedIndex(i);
        return;
      }
    }
    if (combo.getItemCount() > 0) {
      combo.setSelectedIndex(0);
    }
  }

  private void chosen(String key, JComboBox<Choice> combo, boolean newCourse) {
    if (filling || closed || combo.getSelectedItem() == null) {
      return;
    }
    desk.keep(key, id(combo).orElseThrow());
    if (newCourse) {
      compute();
    } else {
      refresh();
    }
  }

  private void compute() {
    Machine machine = scenario.machine().orElseThrow();
    asked = machine;
    List<ChangeProcedure> procedures = new ArrayList<>();
    for (JComboBox<Choice> combo : List.of(way, beside)) {
      id(combo).flatMap(machine::procedure).ifPresent(procedures::add);
    }
    shown.forEach(c -> c.stale(true));
    status.setText(word("computing"));
    desk.compute(
        "course",
        word("picture", machine.id()),
        progress -> procedures.stream().map(p -> Course.of(machine, p, progress)).toList(),
        this::computed,
        why -> {
          if (!closed) {
            status.setText(word("failed", why));
          }
        });
  }

  private void computed(List<Course> now) {
    if (closed || now.isEmpty() || !now.get(0).machine().equals(asked)) {
      return;
    }
    status.setText(" ");
    courses = now;
    plan = Draughtsman.plan(asked);
    if (shown.size() != now.size()) {
      shown.forEach(CircuitCanvas::close);
      shown.clear();
      canvases.removeAll();
      for (int i = 0; i < now.size(); i++) {
        CircuitCanvas canvas = new CircuitCanvas(lens, desk::reveal);
        canvas.setName("canvas" + i);
        shown.add(canvas);
        canvases.add(canvas);
      }
      canvases.revalidate();
    }
    shown.forEach(c -> c.stale(false));
    arrange();
    refresh();
  }

  /** Two pictures stand beside or above each other, whichever shows them larger. */
  private void arrange() {
    boolean two = shown.size() > 1 && plan != null;
    double beside = Math.min(canvases.getWidth() / 2.0 / width(), canvases.getHeight() / height());
    double above = Math.min(canvases.getWidth() / width(), canvases.getHeight() / 2.0 / height());
    int rows = two && above > beside ? 2 : 1;
    if (((GridLayout) canvases.getLayout()).getRows() != rows) {
      canvases.setLayout(new GridLayout(rows, 0, GAP, GAP));
      canvases.revalidate();
    }
  }

  private double width() {
    return plan == null ? 1 : plan.width();
  }

  private double height() {
    return plan == null ? 1 : plan.height();
  }

  private Stretch stretch() {
    return id(stretch).map(Stretch::valueOf).orElse(Stretch.MINUTES);
  }

  /** Shows the moment that the slider points at. */
  private void refresh() {
    if (courses.isEmpty()) {
      return;
    }
    List<Picture> pictures = pictures();
    for (int i = 0; i < shown.size(); i++) {
      Picture picture = pictures.get(i);
      CircuitCanvas canvas = shown.get(i);
      canvas.show(picture, motionS);
      Readings r = picture.readings();
      canvas
          .getAccessibleContext()
          .setAccessibleName(word("canvas", asked.name(), courses.get(i).procedure().name()));
      canvas.getAccessibleContext().setAccessibleDescription(r.summary());
    }
    time.setText(timeText(slider.getValue()));
    marks();
    table.show(
        word("column.quantity"),
        courses.stream().map(c -> c.procedure().name()).toList(),
        pictures.stream().map(p -> p.readings().rows()).toList());
  }

  private List<Picture> pictures() {
    List<Picture> pictures = new ArrayList<>();
    int state = asked.duty().stream().map(DutyState::id).toList().indexOf(id(duty).orElse(NOTHING));
    for (Course c : courses) {
      Look look = c.look(stretch(), slider.getValue());
      pictures.add(
          new Picture(
              plan,
              new Readings(c, look, state, scenario.units(), texts),
              asked.name() + ": " + c.procedure().name(),
              word(
                  "caption",
                  timeText(slider.getValue()),
                  Numbers.text(asked.today().intervalH(), "h")),
              scenario.dark(),
              texts));
    }
    return pictures;
  }

  private String timeText(int step) {
    return word(stretch() == Stretch.MINUTES ? "time.minutes" : "time.hours", number(step));
  }

  private String number(int step) {
    double hours = courses.get(0).look(stretch(), step).moment().elementH();
    return stretch() == Stretch.MINUTES
        ? Numbers.fixed(MIN_PER_H * hours, 1)
        : Numbers.fixed(hours, 0);
  }

  /** Writes times under the slider, as many as there is room for. */
  private void marks() {
    if (courses.isEmpty()) {
      return;
    }
    String unit = stretch() == Stretch.MINUTES ? " min" : " h";
    int marks = slider.getWidth() < NARROW ? FEW_MARKS : MARKS;
    String now = asked.id() + number(Course.STEPS) + unit + marks;
    if (now.equals(marked)) {
      return;
    }
    marked = now;
    Dictionary<Integer, JComponent> labels = new Hashtable<>();
    for (int i = 0; i <= Course.STEPS; i += Course.STEPS / marks) {
      labels.put(i, new JLabel(number(i) + unit));
    }
    slider.setLabelTable(labels);
  }

  // ---- what moves

  private void moved() {
    if (!filling) {
      runS = slider.getValue() * RUN_S / Course.STEPS;
      refresh();
    }
  }

  private void playing(boolean on) {
    if (on && (courses.isEmpty() || closed)) {
      play.setSelected(false);
      return;
    }
    if (on && slider.getValue() == Course.STEPS) {
      slider.setValue(0);
    }
    play.setSelected(on);
    play.setText(word(on ? "pause" : "play"));
    if (on) {
      timer.start();
    } else {
      timer.stop();
    }
  }

  private void frame() {
    runS += FRAME_MS / 1000.0;
    if (!still.isSelected()) {
      motionS += FRAME_MS / 1000.0;
    }
    int step = (int) Math.min(Course.STEPS, Math.floor(runS * Course.STEPS / RUN_S));
    if (step != slider.getValue()) {
      filling = true;
      slider.setValue(step);
      filling = false;
      refresh();
    } else if (!still.isSelected()) {
      shown.forEach(c -> c.picture().ifPresent(p -> c.show(p, motionS)));
    }
    if (step == Course.STEPS) {
      playing(false);
    }
  }
}
