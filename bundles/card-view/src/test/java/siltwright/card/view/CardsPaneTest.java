package siltwright.card.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Container;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JTable;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.card.TemplateReader;
import siltwright.model.Units;
import siltwright.model.history.ElementChange;
import siltwright.model.history.FleetHistory;
import siltwright.store.Store;
import siltwright.store.internal.OneStoreInUse;
import siltwright.workbench.testing.Parts;
import siltwright.workbench.testing.TestDesk;

/** The form with real components on a real store in a file. The cards are invented. */
class CardsPaneTest {
  private static final Path DEMO = Path.of("..", "..", "demo-data", "filled-cards.csv");

  @TempDir Path folder;
  private final TestDesk desk = TestDesk.atOnce();
  private final OneStoreInUse inUse = new OneStoreInUse();
  private CardsPane pane;
  private String where;

  @BeforeEach
  void make() throws Exception {
    where = folder.resolve("fleet.db").toString();
    try (Store s = Store.open(where, Clock.systemUTC())) {
      for (String machine : List.of("EX-11", "EX-12", "HT-14")) {
        s.act("test", "set", "", edits -> edits.set(machine, null, null, null, "UTC"));
      }
    }
    desk.scenario = TestDesk.demo("EX-11", Units.SI, false);
    onScreen(() -> pane = new CardsPane(desk, inUse));
    onScreen(() -> pane.show(desk.scenario));
  }

  private static void onScreen(Runnable code) throws Exception {
    SwingUtilities.invokeAndWait(code);
  }

  private <T> T find(Class<T> type, String name) {
    return Parts.find((Container) pane.component(), type, "card." + name);
  }

  private void type(String name, String text) throws Exception {
    onScreen(() -> find(JTextField.class, name).setText(text));
  }

  private void choose(String name, String text) throws Exception {
    onScreen(
        () -> {
          JComboBox<?> box = find(JComboBox.class, name);
          for (int i = 0; i < box.getItemCount(); i++) {
            if (box.getItemAt(i).toString().equals(text)) {
              box.setSelectedIndex(i);
              return;
            }
          }
          throw new AssertionError(text);
        });
  }

  private void click(String name) throws Exception {
    onScreen(() -> find(JButton.class, name).doClick());
  }

  private boolean has(String name) {
    return Parts.all(pane.component()).stream().anyMatch(c -> ("card." + name).equals(c.getName()));
  }

  private String summary() {
    return find(JLabel.class, "summary").getText();
  }

  private String fault(String column) {
    return find(JTextArea.class, "fault." + column).getText();
  }

  private List<ElementChange> changes(String machine) {
    List<ElementChange> changes = new ArrayList<>();
    try (FleetHistory history = Store.read(where)) {
      history.changes(machine, changes::add);
    }
    return changes;
  }

  private void fill() throws Exception {
    type("date", "2026-03-02");
    type("doneBy", "crew A");
    type("checkedBy", "lead A");
    type("meter_h", "4310");
    for (String yes : List.of("tankAtZero", "portsShut", "sealsNew", "portsOpen")) {
      choose(yes, "yes");
    }
    choose("elementState", "whole");
    choose("leak", "no");
    onScreen(() -> find(JComboBox.class, "elementFitted").setSelectedItem("mat-m"));
  }

  @Test
  void cardIsTakenFromTheMachineFilledCheckedAndKept() throws Exception {
    assertEquals("Nothing is written yet.", summary());
    assertEquals("EX-11", find(JComboBox.class, "machine").getSelectedItem());
    click("take");
    String id = find(JTextField.class, "id").getText();
    assertTrue(id.matches("EX-11/ports-capped/standard-en/1/[0-9a-f]{8}"), id);
    assertTrue(
        Parts.all(pane.component()).stream()
            .anyMatch(
                c -> c instanceof JLabel l && l.getText().matches("Sample 1, due at \\d+ min")),
        "the places are those of the card, with its numbers");
    assertEquals("missing", find(JLabel.class, "sign.meter_h").getText());
    fill();
    assertEquals("Complete and without contradiction.", summary());
    assertFalse(find(JButton.class, "keep").isEnabled(), "no store yet");
    onScreen(() -> inUse.use(where));
    click("keep");
    ElementChange change = changes("EX-11").get(0);
    assertEquals(4310, change.moment().meterH());
    assertEquals("mat-m", change.element());
    assertEquals("ports-capped", change.procedure());
    assertEquals("crew A", change.person());
    assertTrue(change.note().startsWith("card " + id + "; checkedBy lead A; "), change::note);
    assertTrue(change.note().contains("portsShut yes"), change::note);
    assertEquals(List.of("1 changes added, 0 there already, 0 refused."), desk.said);
    click("keep");
    assertEquals(1, changes("EX-11").size());
  }

  @Test
  void whatCannotBeTrueIsSaidWhileItIsTypedAndNotKept() throws Exception {
    onScreen(() -> inUse.use(where));
    click("take");
    fill();
    type("checkedBy", "crew A");
    assertEquals("The one who did it cannot be the one who checked it.", fault("checkedBy"));
    assertFalse(find(JButton.class, "keep").isEnabled());
    type("checkedBy", "lead A");
    assertEquals("", fault("checkedBy"));
    choose("portsOpen", "no");
    assertTrue(fault("portsOpen").startsWith("The return line is said to be shut"));
    choose("portsOpen", "yes");
    type("meter_h", "-5");
    assertEquals("found -5; expected a number from 0 to 1000000 h", fault("meter_h"));
    type("meter_h", "many");
    assertFalse(find(JButton.class, "keep").isEnabled());
    type("meter_h", "4310");
    type("date", "2.3.2026");
    assertEquals("This is no day such as 2026-03-31.", fault("date"));
    type("date", "2026-03-02");
    onScreen(() -> find(JComboBox.class, "elementFitted").setSelectedItem("unheard-of"));
    assertTrue(fault("elementFitted").contains("no element unheard-of"));
    onScreen(() -> find(JComboBox.class, "elementFitted").setSelectedItem("mat-m"));
    assertTrue(find(JButton.class, "keep").isEnabled());
  }

  @Test
  void numbersAreInTheUnitsOfTheScreenAndKeptInThoseOfTheFiles() throws Exception {
    desk.scenario = TestDesk.demo("EX-11", Units.US, false);
    onScreen(() -> pane.show(desk.scenario));
    onScreen(() -> inUse.use(where));
    click("take");
    fill();
    type("dropBefore_kPa", "17");
    type("oil_degC", "140");
    click("keep");
    ElementChange change = changes("EX-11").get(0);
    // 1 psi = 6.894757 kPa (NIST SP 811, appendix B.8); 140 °F = 60 °C
    assertEquals(117.2109, change.dropKPa(), 1e-4);
    assertTrue(change.note().contains("oil_degC 60"), change::note);
    desk.scenario = TestDesk.demo("EX-11", Units.SI, false);
    onScreen(() -> pane.show(desk.scenario));
    assertEquals("117.21087", find(JTextField.class, "dropBefore_kPa").getText().substring(0, 9));
  }

  @Test
  void tableOfCardsIsOpenedCheckedAndKeptButForWhatCannotBeTrue() throws Exception {
    onScreen(() -> inUse.use(where));
    type("doneBy", "typed before");
    onScreen(() -> pane.open(DEMO));
    JTable list = find(JTable.class, "list");
    assertEquals(5, list.getRowCount());
    assertEquals("sound", list.getValueAt(0, 3));
    assertEquals("incomplete", list.getValueAt(1, 3));
    assertEquals("contradictory", list.getValueAt(2, 3));
    onScreen(() -> list.setRowSelectionInterval(2, 2));
    assertEquals("9120", find(JTextField.class, "meter_h").getText());
    assertTrue(fault("elementState").startsWith("The old element was torn"));
    click("keepAll");
    assertEquals("kept", list.getValueAt(1, 3));
    assertEquals("refused", list.getValueAt(2, 3));
    assertEquals("refused", list.getValueAt(4, 3));
    assertEquals(1, changes("EX-11").size());
    assertEquals(1, changes("EX-12").size());
    assertEquals(0, changes("HT-14").size());
    assertTrue(find(JTextArea.class, "message").getText().startsWith("2 changes added"));
  }

  @Test
  void placesAreThoseOfTheTemplateThatTheIdNames() throws Exception {
    type("id", "EX-11/ports-capped/ours/7/a47b7a08");
    assertTrue(find(JTextArea.class, "note").getText().contains("template ours, version 7"));
    assertTrue(has("spilled_L"));
    String text =
        TemplateReader.standardText("en")
            .replaceFirst("\"id\": *\"standard-en\"", "\"id\": \"ours\"")
            .replaceFirst("\"version\": *\"1\"", "\"version\": \"7\"")
            .replaceFirst("\\{\\s*\"field\": *\"spilled_L\"[^}]*},", "");
    Path file = Files.writeString(folder.resolve("ours.json"), text);
    Parts.find((Container) pane.component(), JTextField.class, "card.id");
    CardForm form = form();
    onScreen(() -> form.openTemplate(file));
    assertEquals("", find(JTextArea.class, "note").getText());
    assertFalse(has("spilled_L"));
    type("id", "EX-11/ports-capped/standard-de/1/a47b7a08");
    assertTrue(has("spilled_L"));
    choose("tankAtZero", "ja");
  }

  private CardForm form() throws Exception {
    var field = CardsPane.class.getDeclaredField("form");
    field.setAccessible(true);
    return (CardForm) field.get(pane);
  }

  @Test
  void whatIsTypedAndNotKeptIsThereInTheNextRun() throws Exception {
    click("take");
    fill();
    onScreen(() -> pane = new CardsPane(desk, new OneStoreInUse()));
    onScreen(() -> pane.show(desk.scenario));
    assertEquals("4310", find(JTextField.class, "meter_h").getText());
    assertEquals("Complete and without contradiction.", summary());
  }

  @Test
  void storeThatIsNotThereIsSaid() throws Exception {
    onScreen(() -> inUse.use(folder.resolve("none.db").toString()));
    click("take");
    fill();
    click("keep");
    assertTrue(find(JTextArea.class, "message").getText().contains("a store that is there"));
  }
}
