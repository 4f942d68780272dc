package siltwright.store.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JTable;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.RecordKind;
import siltwright.store.Store;
import siltwright.store.internal.OneStoreInUse;
import siltwright.workbench.testing.Parts;
import siltwright.workbench.testing.TestDesk;

/** The pane on a real store in a file. */
class RecordsPaneTest {
  @TempDir Path folder;
  private final TestDesk desk = TestDesk.atOnce();
  private RecordsPane pane;
  private String where;

  @BeforeEach
  void make() throws Exception {
    where = folder.resolve("fleet.db").toString();
    SwingUtilities.invokeAndWait(
        () -> {
          pane = new RecordsPane(desk, new OneStoreInUse());
          pane.show(where, true);
        });
  }

  private Path file(String name, String text) throws Exception {
    return Files.write(folder.resolve(name), text.getBytes(StandardCharsets.UTF_8));
  }

  private <T> T find(Class<T> type, String name) {
    return Parts.find(pane.component(), type, "store." + name);
  }

  private ImportPanel panel() throws Exception {
    var field = RecordsPane.class.getDeclaredField("bring");
    field.setAccessible(true);
    return (ImportPanel) field.get(pane);
  }

  private void open(Path file) throws Exception {
    ImportPanel panel = panel();
    SwingUtilities.invokeAndWait(() -> panel.open(file));
  }

  private void click(String name) throws Exception {
    SwingUtilities.invokeAndWait(() -> find(JButton.class, name).doClick());
  }

  private long count(RecordKind kind) {
    try (FleetHistory history = Store.read(where)) {
      return history.count(kind, "");
    }
  }

  private static String text(JTable table, int row) {
    StringBuilder text = new StringBuilder();
    for (int c = 0; c < table.getColumnCount(); c++) {
      text.append(c == 0 ? "" : "|").append(table.getValueAt(row, c));
    }
    return text.toString();
  }

  private void machines() throws Exception {
    open(file("machines.csv", "machine,serial,zone,site\nEX-1,S1,CET,pit\nEX-2,S2,CET,pit\n"));
    click("bring");
  }

  @Test
  void showsWhatWouldBecomeOfAFileAndBringsItIn() throws Exception {
    machines();
    open(
        file(
            "drops.csv",
            "Maschine;Datum;Druckverlust [bar];Öl\n"
                + "EX-1;13.05.2024;1,25;55\nEX-2;14.05.2024;zu hoch;56\nEX-9;15.05.2024;1,5;57\n"));
    JTable mapping = find(JTable.class, "mapping");
    assertEquals("Maschine|machine|", text(mapping, 0));
    assertEquals("Druckverlust [bar]|drop_kPa|bar", text(mapping, 2));
    assertEquals("Öl||", text(mapping, 3));
    JTable preview = find(JTable.class, "preview");
    assertTrue(text(preview, 0).startsWith("2||EX-1|2024-05-13||125"), text(preview, 0));
    assertTrue(text(preview, 1).contains("zu hoch"), text(preview, 1));
    assertTrue(find(JTextArea.class, "notes").getText().contains("UTF-8, cells parted by \";\""));

    SwingUtilities.invokeAndWait(() -> mapping.setValueAt("oil_degC", 3, 1));
    assertEquals("Öl|oil_degC|°C", text(mapping, 3));
    assertTrue(text(preview, 0).endsWith("|55"), text(preview, 0));
    SwingUtilities.invokeAndWait(() -> mapping.setValueAt("psi", 2, 2));
    assertTrue(text(preview, 0).contains("8.618"), "1.25 psi: " + text(preview, 0));
    SwingUtilities.invokeAndWait(() -> mapping.setValueAt("furlong", 2, 2));
    assertTrue(find(JTextArea.class, "import.fault").getText().contains("the unit furlong"));
    assertFalse(find(JButton.class, "bring").isEnabled());
    SwingUtilities.invokeAndWait(() -> mapping.setValueAt("bar", 2, 2));

    SwingUtilities.invokeAndWait(() -> find(JTextField.class, "keepAs").setText("gauge"));
    click("bring");
    assertEquals(1, count(RecordKind.DROP));
    assertEquals(
        "3 rows read: 1 new, 0 known already, 2 refused.", desk.said.get(desk.said.size() - 1));
    assertEquals("row 3, column drop_kPa|zu hoch|a number with a decimal comma", text(preview, 0));
    assertTrue(text(preview, 1).contains("EX-9"));
    assertTrue(Files.exists(folder.resolve("drops.refused.csv")));

    JComboBox<?> kept = find(JComboBox.class, "kept");
    assertEquals("gauge", kept.getItemAt(1), "the mapping is there for the next file");
    open(file("more.csv", "Maschine;Datum;Druckverlust [bar];Öl\nEX-1;16.05.2024;1,75;54\n"));
    SwingUtilities.invokeAndWait(() -> kept.setSelectedIndex(1));
    assertEquals("Öl|oil_degC|°C", text(mapping, 3));
    click("bring");
    assertEquals(2, count(RecordKind.DROP));
  }

  @Test
  void datesThatCanBeReadTwoWaysAreAskedFor() throws Exception {
    machines();
    open(file("m.csv", "machine,date,meter_h\nEX-1,03/04/2024,100\n"));
    assertTrue(find(JTextArea.class, "import.fault").getText().contains("two ways"));
    assertFalse(find(JButton.class, "bring").isEnabled());
    SwingUtilities.invokeAndWait(() -> find(JComboBox.class, "dates").setSelectedItem("mdy"));
    assertTrue(text(find(JTable.class, "preview"), 0).contains("2024-03-04"));
    click("bring");
    assertEquals(1, count(RecordKind.METER));
  }

  @Test
  void theJournalListsWhatWasDoneAndTakesItBack() throws Exception {
    machines();
    open(file("m.csv", "machine,date,meter_h\nEX-1,2024-03-04,100\nEX-1,2024-03-05,108\n"));
    click("bring");
    JTable actions = find(JTable.class, "actions");
    assertEquals(2, actions.getRowCount());
    assertTrue(text(actions, 0).contains("import|m.csv|2|0|"), text(actions, 0));
    SwingUtilities.invokeAndWait(() -> actions.setRowSelectionInterval(0, 0));
    JTable rows = find(JTable.class, "rows");
    assertTrue(text(rows, 0).startsWith("meter_reading|1|made|"), text(rows, 0));
    click("undo");
    assertEquals(0, count(RecordKind.METER));
    assertTrue(text(actions, 0).contains("undo|import 2"), text(actions, 0));
    assertTrue(text(actions, 1).endsWith("|3"), text(actions, 1));
    SwingUtilities.invokeAndWait(() -> actions.setRowSelectionInterval(1, 1));
    assertFalse(find(JButton.class, "undo").isEnabled(), "it is taken back already");
    SwingUtilities.invokeAndWait(() -> actions.setRowSelectionInterval(0, 0));
    click("undo");
    assertEquals(2, count(RecordKind.METER), "an undo can be undone");
  }

  @Test
  void aStoreThatIsGoneIsToldAndTheLastOneComesBack() throws Exception {
    assertEquals(where, desk.kept.get("store"));
    SwingUtilities.invokeAndWait(() -> pane.open(folder.resolve("none.db").toString()));
    assertTrue(find(JTextArea.class, "fault").getText().contains("a store that is there"));
    SwingUtilities.invokeAndWait(() -> pane = new RecordsPane(desk, new OneStoreInUse()));
    assertTrue(
        Parts.find(pane.component(), javax.swing.JLabel.class, "store.name")
            .getText()
            .contains("fleet.db"));
  }

  @Test
  void aDocumentComesInAsItIs() throws Exception {
    open(Path.of("../../demo-data/three-pits.json"));
    assertEquals(Words.of("document"), find(JTextArea.class, "notes").getText());
    click("bring");
    try (FleetHistory history = Store.read(where)) {
      assertEquals(12, history.machines().size());
    }
    assertEquals(List.of(), desk.findings);
  }
}
