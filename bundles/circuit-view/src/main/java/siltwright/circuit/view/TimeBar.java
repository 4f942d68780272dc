package siltwright.circuit.view;

import java.awt.BorderLayout;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.Arrays;
import java.util.Dictionary;
import java.util.Hashtable;
import java.util.Locale;
import java.util.ResourceBundle;
import javax.swing.BorderFactory;
import javax.swing.JCheckBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JSlider;
import javax.swing.JToggleButton;
import javax.swing.Timer;
import siltwright.analysis.Numbers;
import siltwright.circuit.view.Course.Stretch;
import siltwright.workbench.Desk;
import siltwright.workbench.parts.Bar;

/** Chooses the moment: by hand, or by letting the time run. */
final class TimeBar extends JPanel {
  private static final long serialVersionUID = 1;
  private static final int FRAME_MS = 66;
  private static final double RUN_S = 24;
  private static final double MIN_PER_H = 60;
  private static final int MARKS = 8;
  private static final int FEW_MARKS = 2;
  private static final int NARROW = 640;

  private final transient Desk desk;
  private final transient ResourceBundle texts;
  private final transient Runnable changed;
  private final transient Runnable moved;
  private final ChoiceBox stretch;
  private final JSlider slider = new JSlider(0, Course.STEPS, 0);
  private final JToggleButton play = new JToggleButton();
  private final JCheckBox still = new JCheckBox();
  private final JLabel time = new JLabel();
  private final JLabel status = new JLabel(" ");
  private final Timer timer = new Timer(FRAME_MS, e -> frame());
  private transient Course course;
  private String marked = "";
  private boolean running;
  private double runS;
  private double motionS;

  /**
   * Makes a bar without a course.
   *
   * @param desk keeps what was chosen
   * @param texts words
   * @param changed called when another moment is to be shown
   * @param moved called when only the dirt has moved on
   */
  TimeBar(Desk desk, ResourceBundle texts, Runnable changed, Runnable moved) {
    super(new BorderLayout());
    this.desk = desk;
    this.texts = texts;
    this.changed = changed;
    this.moved = moved;
    stretch = new ChoiceBox("stretch", texts);
    setBorder(BorderFactory.createEmptyBorder(0, 6, 0, 6));
    add(slider(), BorderLayout.NORTH);
    add(controls(), BorderLayout.CENTER);
  }

  private JComponent slider() {
    slider.setName("slider");
    slider.getAccessibleContext().setAccessibleName(word("time"));
    slider.setPaintTicks(true);
    slider.setPaintLabels(true);
    slider.setMajorTickSpacing(Course.STEPS / MARKS);
    slider.addChangeListener(
        e -> {
          if (!running) {
            runS = slider.getValue() * RUN_S / Course.STEPS;
            show(course);
          }
        });
    slider.addComponentListener(
        new ComponentAdapter() {
          @Override
          public void componentResized(ComponentEvent e) {
            marks();
          }
        });
    return slider;
  }

  private JComponent controls() {
    play.setName("play");
    play.setText(word("play"));
    play.setToolTipText(word("play.tip"));
    play.addActionListener(e -> play(play.isSelected()));
    stretch.fill(
        Arrays.stream(Stretch.values())
            .map(
                s ->
                    new ChoiceBox.Choice(
                        s.name(), word("stretch." + s.name().toLowerCase(Locale.ROOT))))
            .toList(),
        desk.recall("stretch").orElse(Stretch.MINUTES.name()));
    stretch.onChoice(
        id -> {
          desk.keep("stretch", id);
          show(course);
        });
    still.setName("still");
    still.setText(word("still"));
    still.setMnemonic(word("still.key").charAt(0));
    still.setToolTipText(word("still.tip"));
    still.setSelected(desk.recall("still").isPresent());
    still.addActionListener(e -> desk.keep("still", still.isSelected() ? "yes" : ""));
    time.setName("time");
    status.setName("status");
    Bar controls = new Bar();
    controls.add(play);
    controls.add(stretch.labelled());
    controls.add(still);
    controls.add(time);
    controls.add(status);
    return controls;
  }

  /** Says how the computation stands. */
  void status(String text) {
    status.setText(text.isEmpty() ? " " : text);
  }

  /** Goes through another course, at the same step; with none nothing plays. */
  void show(Course now) {
    course = now;
    if (now == null) {
      play(false);
      return;
    }
    time.setText(text());
    marks();
    changed.run();
  }

  /** Stops for good. */
  void close() {
    course = null;
    play(false);
  }

  Stretch stretch() {
    return stretch.id().map(Stretch::valueOf).orElse(Stretch.MINUTES);
  }

  int step() {
    return slider.getValue();
  }

  /** Returns the seconds that the dirt has been moving. */
  double motionS() {
    return motionS;
  }

  /** Returns the moment in words. */
  String text() {
    return word(
        stretch() == Stretch.MINUTES ? "time.minutes" : "time.hours", number(slider.getValue()));
  }

  private String number(int step) {
    double hours = course.look(stretch(), step).moment().elementH();
    return stretch() == Stretch.MINUTES
        ? Numbers.fixed(MIN_PER_H * hours, 1)
        : Numbers.fixed(hours, 0);
  }

  /** Writes times under the slider, as many as there is room for. */
  private void marks() {
    if (course == null) {
      return;
    }
    String unit = stretch() == Stretch.MINUTES ? " min" : " h";
    int marks = slider.getWidth() < NARROW ? FEW_MARKS : MARKS;
    String now = number(Course.STEPS) + unit + marks;
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

  /** Plays where it does not, and pauses where it does. */
  void toggle() {
    play(!play.isSelected());
  }

  private void play(boolean on) {
    boolean can = on && course != null;
    if (can && slider.getValue() == Course.STEPS) {
      slider.setValue(0);
    }
    play.setSelected(can);
    play.setText(word(can ? "pause" : "play"));
    if (can) {
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
      running = true;
      slider.setValue(step);
      running = false;
      show(course);
    } else if (!still.isSelected()) {
      moved.run();
    }
    if (step == Course.STEPS) {
      play(false);
    }
  }

  private String word(String key, Object... with) {
    return Words.text(texts, key, with);
  }
}
