package siltwright.cleanliness.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.event.MouseEvent;
import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import javax.swing.AbstractButton;
import javax.swing.JComboBox;
import javax.swing.JTable;
import javax.swing.SwingUtilities;
import javax.swing.text.JTextComponent;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Layer;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.charts.screen.FigurePanel;
import siltwright.exchange.RecordsReader;
import siltwright.model.Units;
import siltwright.samples.OilRecords;
import siltwright.samples.internal.SamplesAnalysis;
import siltwright.workbench.Scenario;
import siltwright.workbench.testing.Parts;
import siltwright.workbench.testing.TestDesk;

class CleanlinessPaneTest {
  private static final Path DEMO = Path.of("..", "..", "demo-data", "pit-samples.csv");

  @TempDir Path folder;
  private final TestDesk desk = TestDesk.atOnce();
  private final CleanlinessPane pane = new CleanlinessPane(desk);

  private void open(Path file) throws Exception {
    SwingUtilities.invokeAndWait(() -> pane.open(file));
  }

  private void show(String id, boolean dark) throws Exception {
    desk.scenario = TestDesk.demo(id, Units.SI, dark);
    SwingUtilities.invokeAndWait(() -> pane.show(desk.scenario));
  }

  private <T> T find(Class<T> type, String name) {
    return Parts.find(pane.component(), type, "cleanliness." + name);
  }

  private JTable table() {
    return find(JTable.class, "table");
  }

  private FigurePanel figure() {
    return find(FigurePanel.class, "figure");
  }

  private void choose(String box, Object item) throws Exception {
    SwingUtilities.invokeAndWait(() -> find(JComboBox.class, box).setSelectedItem(item));
  }

  private boolean says(String text) {
    return Parts.all(pane.component()).stream()
        .anyMatch(
            c -> c instanceof JTextComponent l && c.isVisible() && l.getText().contains(text));
  }

  private List<Layer> layers(int panel) {
    return figure().figure().orElseThrow().panels().get(panel).layers();
  }

  private int column(String key, Object... parts) {
    for (int i = 0; i < table().getColumnCount(); i++) {
      if (table().getColumnName(i).startsWith(Words.of(key, parts))) {
        return i;
      }
    }
    throw new AssertionError(key);
  }

  private void head(int column) throws Exception {
    SwingUtilities.invokeAndWait(
        () -> {
          var header = table().getTableHeader();
          var at = header.getHeaderRect(column);
          header.dispatchEvent(
              new MouseEvent(
                  header,
                  MouseEvent.MOUSE_CLICKED,
                  0,
                  0,
                  (int) at.getCenterX(),
                  4,
                  1,
                  false,
                  MouseEvent.BUTTON1));
        });
  }

  private BufferedImage look() {
    return Parts.paint(pane.component(), 1280, 760);
  }

  private void paint(String name) throws Exception {
    BufferedImage[] picture = new BufferedImage[1];
    SwingUtilities.invokeAndWait(() -> picture[0] = look());
    Parts.keep(picture[0], name);
  }

  /** Cross-check: the same doubts, changes of level and states as the command samples tells. */
  @Test
  void agreesWithTheCommand() throws Exception {
    open(DEMO);
    SamplesAnalysis samples = new SamplesAnalysis();
    Values values = Values.of(samples.description(), Map.of());
    Result told =
        samples.run(
            Context.of(RecordsReader.read(DEMO, OilRecords.columns()), Optional.of(TestDesk.DEMO)),
            values,
            Progress.NONE);
    Entry.Table machines = (Entry.Table) told.entries().get(0);
    for (var row : machines.rows()) {
      String id = row.get(0).toString().replaceAll(".*=|\\]", "");
      show(id, false);
      long changes =
          layers(0).stream()
              .filter(l -> l instanceof Layer.At at && at.style() == Layer.Style.MAIN)
              .count();
      assertTrue(row.get(8).toString().contains("=" + changes), id + row);
      int doubt = column("column.doubt");
      int clauses = 0;
      for (int r = 0; r < table().getRowCount(); r++) {
        String text = (String) table().getValueAt(r, doubt);
        clauses += text.isEmpty() ? 0 : text.split("; ").length;
      }
      assertTrue(row.get(10).toString().contains("=" + clauses), id + row);
    }
  }

  /** Outside check: scale number 16 ends at 640 particles per mL (table of ISO 4406:2021). */
  @Test
  void drawsTheTargetWhereTheStandardPutsIt() throws Exception {
    open(DEMO);
    show("EX-11", false);
    String target =
        desk.scenario.machine().orElseThrow().limits().target().orElseThrow().toString();
    double[] scale = {40, 80, 160, 320, 640, 1300, 2500, 5000};
    int at6 = Integer.parseInt(target.split("/")[1]);
    Layer.Level level =
        layers(0).stream()
            .filter(l -> l.label().equals("target " + target))
            .map(Layer.Level.class::cast)
            .findFirst()
            .orElseThrow();
    assertEquals(scale[at6 - 12], level.y());
    paint("cleanliness-light");
  }

  @Test
  void showsTheWashOutOfEachWayToChange() throws Exception {
    open(DEMO);
    show("EX-11", true);
    choose("picture", Words.of("picture.washOut"));
    List<Layer.Line> lines =
        layers(0).stream()
            .filter(Layer.Line.class::isInstance)
            .map(Layer.Line.class::cast)
            .toList();
    assertEquals(desk.scenario.machine().orElseThrow().procedures().size(), lines.size());
    for (Layer.Line line : lines) {
      for (int i = 1; i < line.ys().length; i++) {
        // once the release is gone the counts follow the filling element, a little up or down
        assertTrue(line.ys()[i] <= line.ys()[i - 1] * (1 + 1e-4), line.label());
      }
    }
    assertTrue(layers(0).stream().anyMatch(l -> l.label().equals(Words.of("restartSamples"))));
    paint("wash-out-dark");
  }

  @Test
  void ordersFiltersAndSelects() throws Exception {
    open(DEMO);
    show("HT-14", false);
    int all = table().getRowCount();
    assertEquals(45, all, "rows of HT-14 that are samples, counted in the file");
    int at6 = column("column.count", 6);
    head(at6);
    head(at6);
    double first = (Double) table().getValueAt(0, at6);
    for (int r = 1; r < all && table().getValueAt(r, at6) != null; r++) {
      assertTrue((Double) table().getValueAt(r, at6) <= first);
    }
    SwingUtilities.invokeAndWait(() -> table().setRowSelectionInterval(0, 0));
    assertTrue(layers(0).stream().anyMatch(l -> l.label().equals(Words.of("selected"))));
    AbstractButton only = find(AbstractButton.class, "doubtfulOnly");
    SwingUtilities.invokeAndWait(only::doClick);
    assertTrue(table().getRowCount() > 0 && table().getRowCount() < all);
    for (int r = 0; r < table().getRowCount(); r++) {
      assertFalse(((String) table().getValueAt(r, column("column.doubt"))).isEmpty());
    }
  }

  @Test
  void aClickOnThePictureSelectsItsSample() throws Exception {
    open(DEMO);
    show("EX-12", false);
    paint("cleanliness-ex-12");
    FigurePanel figure = figure();
    SwingUtilities.invokeAndWait(
        () ->
            figure.dispatchEvent(
                new MouseEvent(
                    figure,
                    MouseEvent.MOUSE_CLICKED,
                    0,
                    0,
                    figure.getWidth() / 2,
                    figure.getHeight() / 3,
                    1,
                    false,
                    MouseEvent.BUTTON1)));
    assertTrue(table().getSelectedRow() >= 0);
  }

  @Test
  void tellsWhatIsMissing() throws Exception {
    SwingUtilities.invokeAndWait(
        () -> {
          pane.show(Scenario.empty(Units.US, true));
        });
    open(DEMO);
    choose("picture", Words.of("picture.washOut"));
    assertTrue(says(Words.of("noFleet", "EX-11")));
    choose("machine", "EX-13");
    assertTrue(says("EX-13: 36"));
    String other =
        TestDesk.DEMO.machines().stream()
            .map(m -> m.id())
            .filter(id -> !List.of("EX-11", "EX-12", "EX-13", "HT-14", "HT-15").contains(id))
            .filter(id -> !List.of("DR-16", "WL-22", "WL-32").contains(id))
            .findFirst()
            .orElseThrow();
    choose("picture", Words.of("picture.course"));
    show(other, false);
    assertTrue(says(Words.of("notInTable", other)));
    assertTrue(desk.findings.isEmpty());
    Path broken = folder.resolve("broken.csv");
    Files.writeString(broken, "machine,hours\nEX-11,nine\n");
    open(broken);
    assertTrue(desk.said.get(desk.said.size() - 1).contains("broken.csv"), desk.said.toString());
    SwingUtilities.invokeAndWait(
        () -> {
          pane.close();
          pane.show(desk.scenario);
        });
  }

  @Test
  void opensAgainWhatWasOpen() throws Exception {
    open(DEMO);
    SwingUtilities.invokeAndWait(
        () -> {
          CleanlinessPane again = new CleanlinessPane(desk);
          again.show(desk.scenario);
          assertTrue(
              Parts.all(again.component()).stream()
                  .anyMatch(c -> c instanceof JTable t && t.getRowCount() > 0));
        });
  }

  @Test
  void manySamplesAreThinnedAndAllOfThemComeBackOnZooming() throws Exception {
    Path many = folder.resolve("many.csv");
    SplittableRandom random = new SplittableRandom(11);
    StringBuilder text = new StringBuilder("machine,hours,date,count4_per_mL,count6_per_mL\n");
    for (int i = 0; i < 200_000; i++) {
      double at6 = Math.exp(5 + (i > 120_000 ? 0.5 : 0) + 0.3 * random.nextDouble());
      text.append("EX-11,").append(i / 20.0).append(",2025-01-02,");
      text.append(4 * at6).append(',').append(i % 5000 == 7 ? 5 * at6 : at6).append('\n');
    }
    Files.writeString(many, text);
    open(DEMO);
    show("EX-11", false);
    paint("warm-up");
    onScreen(() -> pane.open(many));
    onScreen(this::look);
    assertEquals(200_000, table().getRowCount());
    onScreen(() -> table().setRowSelectionInterval(9, 9));
    onScreen(this::look);
    AbstractButton only = find(AbstractButton.class, "doubtfulOnly");
    onScreen(only::doClick);
    assertEquals(40, table().getRowCount(), "every 5000th has its counts in the wrong order");
    paint("cleanliness-many");
    assertTrue(says("200"), "says that not every sample is drawn");
    assertEquals(0, samplesDrawn());
    figure().readAt(5000);
    for (int i = 0; i < 30; i++) {
      onScreen(this::zoomIn);
    }
    onScreen(this::look);
    assertTrue(samplesDrawn() > 200, "all samples near 5000 h are drawn: " + samplesDrawn());
    assertFalse(says("Drawn of"), "and nothing is said of others");
    paint("cleanliness-zoomed");
  }

  private int samplesDrawn() {
    return layers(0).stream()
        .filter(l -> l instanceof Layer.Points p && p.label().equals(Words.of("samples")))
        .mapToInt(l -> ((Layer.Points) l).xs().length)
        .findFirst()
        .orElse(0);
  }

  /** Zooms in round what is read, by the key's own action. */
  private void zoomIn() {
    figure().getActionMap().get("PLUS").actionPerformed(null);
  }

  private static void onScreen(Runnable act) throws Exception {
    SwingUtilities.invokeAndWait(act);
  }
}
