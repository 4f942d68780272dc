package siltwright.interval.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Component;
import java.awt.image.BufferedImage;
import java.util.List;
import java.util.function.Predicate;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JSlider;
import javax.swing.JTable;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Progress;
import siltwright.charts.screen.FigurePanel;
import siltwright.interval.Tuning;
import siltwright.model.Machine;
import siltwright.model.Units;
import siltwright.model.json.Edit;
import siltwright.workbench.Scenario;
import siltwright.workbench.testing.Parts;
import siltwright.workbench.testing.TestDesk;

class IntervalPaneTest {
  private final TestDesk desk = TestDesk.atOnce();
  private final IntervalPane pane = new IntervalPane(desk);

  private void show(String id) throws Exception {
    desk.scenario = TestDesk.demo(id, Units.SI, false);
    SwingUtilities.invokeAndWait(() -> pane.show(desk.scenario));
  }

  private <T> T find(Class<T> type, Predicate<Component> which) {
    return Parts.find(pane.component(), type, which);
  }

  private void press(String key) throws Exception {
    JButton button = find(JButton.class, c -> ("interval." + key).equals(c.getName()));
    SwingUtilities.invokeAndWait(button::doClick);
  }

  private JSlider slider(String key) {
    return find(
        JSlider.class, c -> Words.of(key).equals(c.getAccessibleContext().getAccessibleName()));
  }

  private String cell(String row, int column) {
    JTable table = find(JTable.class, c -> true);
    return (String) table.getValueAt(Reading.ROWS.indexOf(row), column);
  }

  /** Cross-check: the table reads what the command tune computes for today's way. */
  @Test
  void readsWhatTuneComputes() throws Exception {
    show("EX-11");
    Machine machine = desk.scenario.machine().orElseThrow();
    Tuning tuning = Tuning.of(machine, new Tuning.Settings(4000, 0, 1), Progress.NONE);
    double today = tuning.today().orElseThrow().split().total();
    assertEquals(today, Double.parseDouble(cell("cost", 1)), 0.005);
    assertEquals(today, Double.parseDouble(cell("cost", 2)), 0.005);
    press("toBest");
    double best =
        tuning.procedures().stream()
            .filter(p -> p.procedure().id().equals(machine.today().procedure()))
            .findFirst()
            .orElseThrow()
            .best()
            .interval()
            .orElseThrow()
            .hours();
    assertEquals(best, Double.parseDouble(cell("interval", 2)), 0.02 * best);
  }

  /** Directions by hand: more dirt and dearer failures cost more, a dearer element asks longer. */
  @Test
  void followsItsSliders() throws Exception {
    show("EX-11");
    double cost = Double.parseDouble(cell("cost", 2));
    SwingUtilities.invokeAndWait(() -> slider("ingress").setValue(30));
    assertTrue(Double.parseDouble(cell("cost", 2)) > cost);
    press("reset");
    assertEquals(cost, Double.parseDouble(cell("cost", 2)), 1e-9);
    SwingUtilities.invokeAndWait(() -> slider("failure").setValue(30));
    assertTrue(Double.parseDouble(cell("cost", 2)) > cost);
    press("reset");
    press("toBest");
    double best = Double.parseDouble(cell("interval", 2));
    SwingUtilities.invokeAndWait(() -> slider("elementPrice").setValue(60));
    press("toBest");
    assertTrue(Double.parseDouble(cell("interval", 2)) > best);
  }

  @Test
  void keepsSixPinnedScenarios() throws Exception {
    show("EX-11");
    for (int i = 0; i < 6; i++) {
      press("pin");
    }
    JTable table = find(JTable.class, c -> true);
    assertEquals(9, table.getColumnCount());
    assertFalse(find(JButton.class, c -> "interval.pin".equals(c.getName())).isEnabled());
    SwingUtilities.invokeAndWait(() -> table.changeSelection(0, 8, false, false));
    press("unpin");
    assertEquals(8, table.getColumnCount());
    show("EX-12");
    assertEquals(3, table.getColumnCount());
  }

  @Test
  void writesIntervalProcedureAndElement() throws Exception {
    show("EX-11");
    JComboBox<?> element =
        find(
            JComboBox.class,
            c -> Words.of("element").equals(c.getAccessibleContext().getAccessibleName()));
    SwingUtilities.invokeAndWait(() -> element.setSelectedItem("fine-m"));
    press("toBest");
    String hours = cell("interval", 2);
    press("write");
    assertEquals(
        List.of(
            Edit.number("/machines/0/today/interval_h", Double.parseDouble(hours)),
            Edit.text("/machines/0/today/procedure", "pull-in-place"),
            Edit.text("/machines/0/returnFilter/element", "fine-m")),
        desk.edits);
    assertTrue(desk.said.get(0).contains("fine-m"), desk.said.toString());
  }

  /**
   * Every machine of the demo fleet, those without an optimum too; units change nothing but texts.
   */
  @Test
  void showsEveryMachine() throws Exception {
    for (Machine machine : TestDesk.DEMO.machines()) {
      show(machine.id());
      String kPa = cell("drop", 2);
      SwingUtilities.invokeAndWait(() -> pane.show(TestDesk.demo(machine.id(), Units.US, true)));
      String psi = cell("drop", 2);
      if (!kPa.equals("–")) {
        // 1 psi = 6.894757 kPa (NIST SP 811)
        assertEquals(Double.parseDouble(kPa), Double.parseDouble(psi) * 6.894757, 0.002 * 1000);
      }
    }
  }

  @Test
  void computesOnlyWhereTheMachineChanged() throws Exception {
    TestDesk told = TestDesk.whenTold();
    SwingUtilities.invokeAndWait(
        () -> {
          IntervalPane other = new IntervalPane(told);
          other.show(TestDesk.demo("EX-11", Units.SI, false));
          assertTrue(told.work());
          other.show(TestDesk.demo("EX-11", Units.US, true));
          assertFalse(told.work(), "nothing to compute");
          other.show(TestDesk.demo("EX-12", Units.US, true));
          other.show(Scenario.empty(Units.US, true));
          told.work(); // comes too late
          other.show(TestDesk.demo("EX-12", Units.US, true));
          assertTrue(told.work());
        });
  }

  @Test
  void livesWithoutAMachineAndAfterClosing() throws Exception {
    SwingUtilities.invokeAndWait(() -> pane.show(Scenario.empty(Units.SI, false)));
    show("EX-11");
    SwingUtilities.invokeAndWait(() -> pane.show(Scenario.empty(Units.SI, true)));
    SwingUtilities.invokeAndWait(pane::close);
  }

  @Test
  void paints() throws Exception {
    show("EX-11");
    press("pin");
    SwingUtilities.invokeAndWait(() -> slider("ingress").setValue(15));
    BufferedImage[] picture = new BufferedImage[1];
    SwingUtilities.invokeAndWait(() -> picture[0] = Parts.paint(pane.component(), 1100, 760));
    assertTrue(find(FigurePanel.class, c -> true).figure().isPresent());
    Parts.keep(picture[0], "interval");
  }
}
