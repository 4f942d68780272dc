package siltwright.store.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JTable;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
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

  private void choose(String box, String item) throws Exception {
    SwingUtilities.invokeAndWait(() -> find(JComboBox.class, box).setSelectedItem(item));
  }

  private void type(String field, String text) throws Exception {
    SwingUtilities.invokeAndWait(
        () -> {
          JTextField typed = find(JTextField.class, field);
          typed.setText(text);
          typed.postActionEvent();
        });
  }

  private String fault() {
    return find(JTextArea.class, "import.fault").getText();
  }

  private String first() {
    return text(find(JTable.class, "preview"), 0);
  }

  @Test
  void howATextIsWrittenCanBeSaid() throws Exception {
    machines();
    // 0x84 is a quotation mark in windows-1252 and a letter in IBM437
    open(
        Files.write(
            folder.resolve("m.csv"),
            "machine|date|meter_h|source\nEX-1|2024-03-04 08:00|1,234|\u0084l"
                .getBytes(StandardCharsets.ISO_8859_1)));
    choose("encoding", "IBM437");
    assertTrue(first().endsWith("|äl"), first());
    type("delimiter.text", ";");
    assertTrue(fault().contains("headings such as machine"), fault());
    type("delimiter.text", "||");
    assertEquals(
        Words.of("delimiter") + ": found ||; expected one character, or the word tab", fault());
    assertFalse(find(JButton.class, "bring").isEnabled());
    assertEquals(
        "error", find(JComboBox.class, "delimiter").getClientProperty("JComponent.outline"));
    type("delimiter.text", "|");
    assertEquals("", fault());
    choose("decimal", "comma");
    assertTrue(first().contains("|1.234|"), first());
    choose("decimal", "point");
    assertTrue(first().contains("|1234|"), first());

    assertTrue(first().contains("2024-03-04T07:00:00Z"), "zone of the site: " + first());
    type("zone.text", "Asia/Tokyo");
    assertTrue(first().contains("2024-03-03T23:00:00Z"), first());
    type("zone.text", "Asia/Atlantis");
    assertTrue(fault().startsWith(Words.of("zone") + ": found Asia/Atlantis"), fault());
    type("zone.text", "+02:00");
    assertTrue(first().contains("2024-03-04T06:00:00Z"), first());

    type("refused", folder.resolve("none/x.csv").toString());
    assertTrue(fault().startsWith(Words.of("refusedTo") + ": found "), fault());
    type("refused", "");
    type("who", "bea");
    SwingUtilities.invokeAndWait(() -> find(JTextField.class, "keepAs").setText("piped"));
    click("bring");
    assertEquals(1, count(RecordKind.METER));
    assertTrue(text(find(JTable.class, "actions"), 0).contains("|bea|"));

    // all of it is kept: another file of that form needs nothing said
    type("zone.text", "");
    choose("decimal", Words.of("asFound"));
    choose("encoding", Words.of("asFound"));
    type("delimiter.text", "");
    choose("kept", "piped");
    open(
        Files.write(
            folder.resolve("n.csv"),
            "machine|date|meter_h|source\nEX-1|2024-03-05 08:00|1,242|\u0084l"
                .getBytes(StandardCharsets.ISO_8859_1)));
    assertTrue(first().endsWith("EX-1|2024-03-05T06:00:00Z|1242|äl"), first());
  }

  @Test
  void machinesAreFoundAsSaid() throws Exception {
    machines();
    open(file("m.csv", "machine,date,meter_h\nDigger 1,2024-03-04,100\nS2,2024-03-04,100\n"));
    assertTrue(first().contains("machine: found Digger 1; expected a machine"), first());
    assertFalse(first().contains("--add"), first());
    type("rule", "Digger (\\d)=>EX-$1");
    JTable preview = find(JTable.class, "preview");
    assertEquals("EX-1", preview.getValueAt(0, 1));
    assertEquals("EX-2", preview.getValueAt(1, 1), "by its serial number");
    choose("match", "id");
    assertTrue(text(preview, 1).contains("found S2"), text(preview, 1));
    type("rule", "Digger (");
    assertTrue(fault().startsWith(Words.of("rule") + ": found Digger ("), fault());
    type("rule", "");
    SwingUtilities.invokeAndWait(() -> find(JCheckBox.class, "add").doClick());
    assertEquals("Digger 1", preview.getValueAt(0, 1));

    open(file("n.csv", "date,meter_h\n2024-03-04,100\n2024-03-05,108\n"));
    assertTrue(fault().contains("no column for machine"), fault());
    type("machine", "EX-2");
    assertEquals("EX-2", preview.getValueAt(0, 1));
    click("bring");
    assertEquals(2, count(RecordKind.METER));
  }

  @Test
  void sheetsOfASpreadsheetAreChosenAndKept() throws Exception {
    machines();
    Path book = folder.resolve("b.xlsx");
    for (String month : List.of("04", "05")) {
      try (OutputStream out = Files.newOutputStream(book);
          Workbook to = new Workbook(out, "test", "1.0")) {
        to.newWorksheet("About").value(0, 0, "nothing here");
        Worksheet sheet = to.newWorksheet("Meters");
        List<String> cells = List.of("machine", "date", "meter_h", "EX-1", "2024-" + month + "-01");
        for (int i = 0; i < cells.size(); i++) {
          sheet.value(i / 3, i % 3, cells.get(i));
        }
        sheet.value(1, 2, 120.5);
      }
      open(book);
      assertFalse(find(JComboBox.class, "encoding").isEnabled());
      if (month.equals("04")) {
        assertTrue(fault().contains("headings such as machine"), fault());
        choose("sheet", "Meters");
        SwingUtilities.invokeAndWait(() -> find(JTextField.class, "keepAs").setText("book"));
        assertTrue(first().contains("EX-1|2024-04-01|120.5"), first());
        click("bring");
        choose("sheet", Words.of("asFound"));
        choose("kept", "book");
      }
      assertTrue(first().contains("EX-1|2024-" + month + "-01|120.5"), first());
    }
  }

  @Test
  void mendsOfMetersAreShown() throws Exception {
    machines();
    open(
        file(
            "m.csv",
            "machine,date,meter_h\nEX-1,2024-03-01,1000\nEX-1,2024-03-02,1010\n"
                + "EX-1,2024-03-03,10\nEX-1,2024-03-04,20\nEX-1,2024-03-05,30\n"));
    click("bring");
    String notes = find(JTextArea.class, "notes").getText();
    assertTrue(notes.contains(Words.of("mends", 1)), notes);
    assertTrue(first().startsWith("EX-1|" + Words.of("mended") + "|EX-1: "), first());
  }
}
