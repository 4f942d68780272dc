package siltwright.circuit.view;

import java.awt.BorderLayout;
import java.awt.CardLayout;
import java.awt.Dimension;
import java.awt.FlowLayout;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.GridBagLayout;
import java.awt.GridLayout;
import java.awt.event.ActionEvent;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.awt.event.KeyEvent;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.ResourceBundle;
import java.util.stream.Stream;
import javax.swing.AbstractAction;
import javax.swing.Box;
import javax.swing.BoxLayout;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSplitPane;
import javax.swing.KeyStroke;
import siltwright.analysis.Numbers;
import siltwright.circuit.view.ChoiceBox.Choice;
import siltwright.contamination.Simulation;
import siltwright.model.ChangeProcedure;
import siltwright.model.DutyState;
import siltwright.model.Machine;
import siltwright.model.Units;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.parts.Bar;

/** An open view of a circuit: one change or two beside each other, at the same moment. */
final class CircuitPane implements Pane {
  private static final double ZOOM_STEP = 1.25;
  private static final double PAN_STEP = 0.08;

  /** Chosen where none of the machine's own is; no id looks like it. */
  private static final String NOTHING = "-";

  private static final int GAP = 2;
  private static final int TABLE_HEIGHT = 112;
  private static final String EMPTY = "empty";
  private static final String FULL = "full";

  private final Desk desk;
  private final ResourceBundle texts = Words.bundle();
  private final JPanel root = new JPanel(new CardLayout());
  private final JLabel emptyTitle = new JLabel();
  private final JLabel emptyText = new JLabel();
  private final ChoiceBox way = new ChoiceBox("way", texts);
  private final ChoiceBox beside = new ChoiceBox("beside", texts);
  private final ChoiceBox duty = new ChoiceBox("duty", texts);
  private final Lens lens = new Lens();
  private final JPanel canvases = new JPanel(new GridLayout(1, 0, GAP, GAP));
  private final List<CircuitCanvas> shown = new ArrayList<>();
  private final MomentTable table = new MomentTable();
  private final TimeBar time;

  private boolean closed;
  private Scenario scenario;
  private Machine asked;
  private List<Course> courses = List.of();
  private Plan plan;

  CircuitPane(Desk desk) {
    this.desk = desk;
    scenario = desk.scenario();
    time = new TimeBar(desk, texts, this::refresh, this::move);
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
  }

  @Override
  public JComponent component() {
    return root;
  }

  @Override
  public void close() {
    closed = true;
    time.close();
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
    Bar choices = new Bar();
    for (ChoiceBox box : List.of(way, beside, duty)) {
      choices.add(box.labelled());
    }
    JPanel zoom = new JPanel(new FlowLayout(FlowLayout.LEADING, 2, 0));
    zoom.add(button("−", "zoomOut", () -> zoom(1 / ZOOM_STEP)));
    zoom.add(button("+", "zoomIn", () -> zoom(ZOOM_STEP)));
    zoom.add(button(word("zoomFit.sign"), "zoomFit", lens::fit));
    zoom.add(new SaveMenu(desk, root, texts, this::pictures, time::motionS).button());
    choices.add(zoom);
    way.onChoice(id -> compute());
    beside.onChoice(
        id -> {
          desk.keep("beside", id);
          compute();
        });
    duty.onChoice(
        id -> {
          desk.keep("duty", id);
          refresh();
        });

    JScrollPane numbers = new JScrollPane(table.component(word("column.quantity")));
    numbers.setPreferredSize(new Dimension(400, TABLE_HEIGHT));
    numbers.setMinimumSize(new Dimension(100, 40));
    // the pictures come later and would find no room
    canvases.setPreferredSize(new Dimension(640, 2000));
    canvases.setMinimumSize(new Dimension(160, 120));
    JPanel lower = new JPanel(new BorderLayout());
    lower.add(time, BorderLayout.NORTH);
    lower.add(numbers, BorderLayout.CENTER);
    lower.setMinimumSize(lower.getPreferredSize());
    JSplitPane split = new JSplitPane(JSplitPane.VERTICAL_SPLIT, canvases, lower);
    split.setResizeWeight(1);
    split.setBorder(null);
    JPanel all = new JPanel(new BorderLayout());
    all.add(choices, BorderLayout.NORTH);
    all.add(split, BorderLayout.CENTER);
    return all;
  }

  private JButton button(String sign, String key, Runnable action) {
    JButton button = new JButton(sign);
    button.setName(key);
    button.setToolTipText(word(key));
    button.getAccessibleContext().setAccessibleName(word(key));
    button.addActionListener(e -> action.run());
    return button;
  }

  private void keys() {
    key("play", KeyStroke.getKeyStroke(KeyEvent.VK_SPACE, 0), time::toggle);
    key("zoomIn", KeyStroke.getKeyStroke('+'), () -> zoom(ZOOM_STEP));
    key("zoomOut", KeyStroke.getKeyStroke('-'), () -> zoom(1 / ZOOM_STEP));
    key("zoomFit", KeyStroke.getKeyStroke('0'), lens::fit);
    pan("left", KeyEvent.VK_LEFT, -1, 0);
    pan("right", KeyEvent.VK_RIGHT, 1, 0);
    pan("up", KeyEvent.VK_UP, 0, -1);
    pan("down", KeyEvent.VK_DOWN, 0, 1);
  }

  private void pan(String name, int key, int x, int y) {
    key(
        name,
        KeyStroke.getKeyStroke(key, 0),
        () -> lens.move(x * PAN_STEP / lens.zoom(), y * PAN_STEP / lens.zoom()));
  }

  private void key(String name, KeyStroke stroke, Runnable action) {
    root.getInputMap(JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).put(stroke, name);
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
      asked = null;
      courses = List.of();
      time.show(null);
      time.status("");
      emptyTitle.setText(word("empty.title"));
      emptyText.setText(word(now.pointer().isPresent() ? "empty.problem" : "empty.text"));
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
    String today = machine.today().procedure();
    List<Choice> procedures =
        machine.procedures().stream().map(p -> new Choice(p.id(), p.name())).toList();
    way.fill(procedures, same ? way.id().orElse(today) : today);
    beside.fill(
        Stream.concat(Stream.of(new Choice(NOTHING, word("beside.none"))), procedures.stream())
            .toList(),
        desk.recall("beside")
            .filter(
                id -> id.equals(NOTHING) || machine.procedure(id).isPresent() && !id.equals(today))
            .orElse(other(machine)));
    fillDuty(machine);
  }

  /** Units may have changed: temperatures stand in the names of the states. */
  private void fillDuty(Machine machine) {
    List<Choice> states = new ArrayList<>();
    states.add(new Choice(NOTHING, word("mean")));
    for (DutyState s : machine.duty()) {
      String flow = shown(s.flowLPerMin(), "L/min");
      states.add(new Choice(s.id(), word("state", s.id(), flow, shown(s.oilDegC(), "°C"))));
    }
    duty.fill(states, duty.id().or(() -> desk.recall("duty")).orElse(NOTHING));
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

  private void compute() {
    Machine machine = scenario.machine().orElseThrow();
    asked = machine;
    List<ChangeProcedure> procedures = new ArrayList<>();
    for (ChoiceBox box : List.of(way, beside)) {
      box.id().flatMap(machine::procedure).ifPresent(procedures::add);
    }
    shown.forEach(c -> c.stale(true));
    time.status(word("computing"));
    boolean first = shown.isEmpty();
    Units units = scenario.units();
    desk.compute(
        "course",
        word("picture", machine.id()),
        progress -> {
          List<Course> all = procedures.stream().map(p -> Course.of(machine, p, progress)).toList();
          if (first && !all.isEmpty()) {
            rehearse(all.get(0), units, texts);
          }
          return all;
        },
        this::computed,
        why -> {
          if (!closed) {
            time.status(word("failed", why));
          }
        });
  }

  /**
   * Draws a picture that nobody sees. The first one loads fonts and half of the drawing library,
   * for which nobody should wait who types.
   */
  private static void rehearse(Course course, Units units, ResourceBundle texts) {
    Picture picture =
        new Picture(
            Draughtsman.plan(course.machine()),
            new Readings(course, course.look(Course.Stretch.MINUTES, 0), -1, units, texts),
            course.machine().name(),
            "",
            false,
            texts);
    BufferedImage unseen = new BufferedImage(320, 260, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = unseen.createGraphics();
    g.scale(
        unseen.getWidth() / picture.plan().width(), unseen.getHeight() / picture.plan().height());
    picture.paint(g, Picture.LARGEST_TEXT, 0);
    g.dispose();
  }

  private void computed(List<Course> now) {
    if (closed || now.isEmpty() || !now.get(0).machine().equals(asked)) {
      return;
    }
    time.status("");
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
    time.show(now.get(0));
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

  /** Shows the moment that the slider points at. */
  private void refresh() {
    if (courses.isEmpty()) {
      return;
    }
    List<Picture> pictures = pictures();
    for (int i = 0; i < shown.size(); i++) {
      Picture picture = pictures.get(i);
      CircuitCanvas canvas = shown.get(i);
      canvas.show(picture, time.motionS());
      Readings r = picture.readings();
      canvas
          .getAccessibleContext()
          .setAccessibleName(word("canvas", asked.name(), courses.get(i).procedure().name()));
      canvas.getAccessibleContext().setAccessibleDescription(r.summary());
    }
    table.show(
        word("column.quantity"),
        courses.stream().map(c -> c.procedure().name()).toList(),
        pictures.stream().map(p -> p.readings().rows()).toList());
  }

  /** Moves the dirt on. */
  private void move() {
    shown.forEach(c -> c.picture().ifPresent(p -> c.show(p, time.motionS())));
  }

  private List<Picture> pictures() {
    if (courses.isEmpty()) {
      return List.of();
    }
    List<Picture> pictures = new ArrayList<>();
    int state =
        asked.duty().stream().map(DutyState::id).toList().indexOf(duty.id().orElse(NOTHING));
    for (Course c : courses) {
      Simulation.Look look = c.look(time.stretch(), time.step());
      pictures.add(
          new Picture(
              plan,
              new Readings(c, look, state, scenario.units(), texts),
              asked.name() + ": " + c.procedure().name(),
              word("caption", time.text(), Numbers.text(asked.today().intervalH(), "h")),
              scenario.dark(),
              texts));
    }
    return pictures;
  }
}
