package siltwright.circuit.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Component;
import java.awt.Point;
import java.awt.event.ActionEvent;
import java.awt.event.MouseEvent;
import java.awt.image.BufferedImage;
import java.util.List;
import java.util.function.Predicate;
import javax.swing.AbstractButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JSlider;
import javax.swing.JTable;
import javax.swing.JToggleButton;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import siltwright.model.Machine;
import siltwright.model.Units;
import siltwright.workbench.Scenario;
import siltwright.workbench.testing.Parts;
import siltwright.workbench.testing.TestDesk;

/** The pane with real components, painted off screen. */
class CircuitPaneTest {
  /** Row of what the element keeps. */
  private static final int KEEPS = 8;

  private final TestDesk desk = TestDesk.whenTold();
  private final Machine machine = DemoFleet.machine("EX-11");
  private CircuitPane pane;
  private JComponent root;

  /** What is done on the event thread. */
  private interface Step {
    void run() throws Exception;
  }

  private static void onEvents(Step step) throws Exception {
    Exception[] thrown = new Exception[1];
    Error[] failed = new Error[1];
    SwingUtilities.invokeAndWait(
        () -> {
          try {
            step.run();
          } catch (Exception e) {
            thrown[0] = e;
          } catch (AssertionError e) {
            failed[0] = e;
          }
        });
    if (failed[0] != null) {
      throw failed[0];
    }
    if (thrown[0] != null) {
      throw thrown[0];
    }
  }

  @BeforeEach
  void open() throws Exception {
    onEvents(
        () -> {
          pane = (CircuitPane) new CircuitView().open(desk);
          root = pane.component();
          pane.show(TestDesk.alone(machine, Units.SI, false));
        });
  }

  @AfterEach
  void close() throws Exception {
    onEvents(() -> pane.close());
  }

  private BufferedImage painted() {
    return Parts.paint(root, 1280, 760);
  }

  private List<Component> all(Predicate<Component> which) {
    return Parts.all(root).stream().filter(which).toList();
  }

  private <T> T find(Class<T> type, String name) {
    return Parts.find(root, type, name);
  }

  private int canvases() {
    return all(c -> c instanceof CircuitCanvas).size();
  }

  private void press(String action) {
    root.getActionMap().get(action).actionPerformed(new ActionEvent(root, 0, action));
  }

  @Test
  void withoutAMachineItSaysWhatToDo() throws Exception {
    onEvents(
        () -> {
          pane.show(Scenario.empty(Units.SI, false));
          Parts.layOut(root, 800, 600);
          List<Component> texts =
              all(c -> c instanceof JLabel l && l.isShowing() || c instanceof JLabel);
          assertTrue(
              texts.stream().anyMatch(c -> ((JLabel) c).getText().contains("Select a machine")));
          assertTrue(root.getComponent(0).isVisible());
          assertFalse(root.getComponent(1).isVisible());
          press("play");
          assertFalse(find(JToggleButton.class, "play").isSelected(), "nothing to play");
        });
  }

  @Test
  void showsTwoChangesAtTheSameMoment() throws Exception {
    onEvents(
        () -> {
          assertTrue(desk.work());
          assertEquals(2, canvases());
          JSlider slider = find(JSlider.class, "slider");
          slider.setValue(30);
          JTable numbers = find(JTable.class, "numbers");
          assertEquals(3, numbers.getColumnCount());
          assertNotEquals(numbers.getValueAt(0, 1), numbers.getValueAt(0, 2));
          assertTrue(find(JLabel.class, "time").getText().endsWith("min after the change"));
          String before = "" + numbers.getValueAt(0, 1);
          find(JComboBox.class, "stretch").setSelectedIndex(1);
          assertTrue(find(JLabel.class, "time").getText().endsWith("h after the change"));
          assertNotEquals(before, numbers.getValueAt(0, 1));
          painted();
        });
  }

  @Test
  void oneChangeAloneHasOnePicture() throws Exception {
    onEvents(
        () -> {
          desk.work();
          find(JComboBox.class, "beside").setSelectedIndex(0);
          assertTrue(desk.work(), "computed anew");
          assertEquals(1, canvases());
          assertEquals(2, find(JTable.class, "numbers").getColumnCount());
          // kept for the next pane
          CircuitPane next = (CircuitPane) new CircuitView().open(desk);
          next.show(TestDesk.alone(DemoFleet.machine("WL-22"), Units.SI, false));
          desk.work();
          JComponent mine = root;
          root = next.component();
          assertEquals(1, canvases());
          root = mine;
          next.close();
        });
  }

  @Test
  void unitsAndThemeComeWithoutComputing() throws Exception {
    onEvents(
        () -> {
          desk.work();
          BufferedImage light = painted();
          pane.show(TestDesk.alone(machine, Units.US, true));
          assertFalse(desk.work(), "nothing to compute");
          BufferedImage dark = painted();
          CircuitCanvas canvas = find(CircuitCanvas.class, "canvas0");
          Point at = SwingUtilities.convertPoint(canvas, 3, 3, root);
          assertNotEquals(light.getRGB(at.x, at.y), dark.getRGB(at.x, at.y));
          String tank = canvas.picture().orElseThrow().readings().card("tank").title();
          assertTrue(tank.contains("gal"), tank);
          assertTrue(find(JComboBox.class, "duty").getItemAt(1).toString().contains("°F"));
        });
  }

  @Test
  void anEditOfTheMachineIsComputedAndTheOldPictureStaysUntilThen() throws Exception {
    onEvents(
        () -> {
          desk.work();
          find(JComboBox.class, "way").setSelectedIndex(1);
          desk.work();
          String before = find(JTable.class, "numbers").getValueAt(KEEPS, 1).toString();
          Object way = find(JComboBox.class, "way").getSelectedItem();
          pane.show(TestDesk.alone(machine.withFieldEfficiency(0.1), Units.SI, false));
          assertEquals(2, canvases());
          assertEquals(before, find(JTable.class, "numbers").getValueAt(KEEPS, 1));
          assertTrue(find(JLabel.class, "status").getText().startsWith("Computing"));
          assertEquals(way.toString(), find(JComboBox.class, "way").getSelectedItem().toString());
          desk.work();
          assertNotEquals(before, find(JTable.class, "numbers").getValueAt(KEEPS, 1));
          assertEquals(" ", find(JLabel.class, "status").getText());
        });
  }

  @Test
  void closingWhileItComputesIsHarmless() throws Exception {
    onEvents(
        () -> {
          press("play");
          pane.close();
          desk.work();
          assertEquals(0, canvases());
        });
  }

  @Test
  void anotherMachineWhileItComputesWins() throws Exception {
    onEvents(
        () -> {
          pane.show(TestDesk.alone(DemoFleet.machine("HT-15"), Units.SI, false));
          desk.work();
          CircuitCanvas canvas = find(CircuitCanvas.class, "canvas0");
          assertTrue(canvas.picture().orElseThrow().title().startsWith("Haul truck 15"));
          pane.show(Scenario.empty(Units.SI, false));
          pane.show(TestDesk.alone(machine, Units.SI, false));
          desk.work();
          canvas = find(CircuitCanvas.class, "canvas0");
          assertTrue(canvas.picture().orElseThrow().title().startsWith("Excavator 11"));
        });
  }

  @Test
  void theSpaceBarPlaysAndTheKeysZoom() throws Exception {
    onEvents(
        () -> {
          desk.work();
          painted();
          JToggleButton play = find(JToggleButton.class, "play");
          press("play");
          assertTrue(play.isSelected());
          assertEquals("Pause", play.getText());
        });
    // time runs by itself
    long until = System.nanoTime() + 20_000_000_000L;
    int[] step = new int[1];
    while (step[0] == 0 && System.nanoTime() < until) {
      onEvents(() -> step[0] = find(JSlider.class, "slider").getValue());
      Thread.onSpinWait();
    }
    assertTrue(step[0] > 0);
    onEvents(
        () -> {
          press("play");
          assertFalse(find(JToggleButton.class, "play").isSelected());
          BufferedImage whole = painted();
          press("zoomIn");
          press("zoomIn");
          BufferedImage near = painted();
          press("left");
          press("zoomFit");
          BufferedImage again = painted();
          assertTrue(differing(whole, near) > 10_000);
          assertEquals(0, differing(whole, again));
        });
  }

  private static int differing(BufferedImage a, BufferedImage b) {
    int count = 0;
    for (int x = 0; x < a.getWidth(); x++) {
      for (int y = 0; y < a.getHeight(); y++) {
        count += a.getRGB(x, y) == b.getRGB(x, y) ? 0 : 1;
      }
    }
    return count;
  }

  @Test
  void aClickOnAPartRevealsIt() throws Exception {
    onEvents(
        () -> {
          desk.work();
          painted();
          CircuitCanvas canvas = find(CircuitCanvas.class, "canvas0");
          Plan plan = canvas.picture().orElseThrow().plan();
          double scale =
              Math.min(canvas.getWidth() / plan.width(), canvas.getHeight() / plan.height());
          Box pump = plan.place("pump0").orElseThrow().box();
          int x = (int) (canvas.getWidth() / 2.0 + scale * (pump.centreX() - plan.width() / 2));
          int y = (int) (canvas.getHeight() / 2.0 + scale * (pump.centreY() - plan.height() / 2));
          MouseEvent click = new MouseEvent(canvas, MouseEvent.MOUSE_CLICKED, 0, 0, x, y, 1, false);
          canvas.dispatchEvent(click);
          assertEquals(List.of("components/pump"), desk.revealed);
          String tip = canvas.getToolTipText(click);
          assertTrue(tip.contains("axial piston pump"), tip);
        });
  }

  @Test
  void everyControlHasAnAccessibleName() throws Exception {
    onEvents(
        () -> {
          desk.work();
          for (Component c :
              all(
                  c ->
                      c instanceof JComboBox
                          || c instanceof JSlider
                          || c instanceof JTable
                          || c instanceof CircuitCanvas
                          || c instanceof AbstractButton b && b.getName() != null)) {
            String name = c.getAccessibleContext().getAccessibleName();
            assertTrue(name != null && name.length() > 1, c.getName() + ": " + name);
          }
          String said =
              find(CircuitCanvas.class, "canvas0")
                  .getAccessibleContext()
                  .getAccessibleDescription();
          assertTrue(said.contains("through the pump"), said);
        });
  }
}
