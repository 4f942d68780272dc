package siltwright.life.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JTable;
import javax.swing.SwingUtilities;
import javax.swing.text.JTextComponent;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.ListParameter;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.charts.screen.FigurePanel;
import siltwright.model.Units;
import siltwright.workbench.Scenario;
import siltwright.workbench.testing.Parts;
import siltwright.workbench.testing.TestDesk;

/** The pane on an analysis of the same shape as the product's own, whose sums are done by hand. */
class LifePaneTest {
  @TempDir Path folder;
  private final TestDesk desk = TestDesk.atOnce();
  private Path file;
  private LifePane pane;

  /** The mean of the hours: enough to see which records it was given. */
  private static final class MeanLife implements Analysis {
    private static final Description DESCRIPTION =
        Description.of(
            "life",
            "Component life",
            "Mean of the hours.",
            Scope.RECORDS,
            new ChoiceParameter(
                "distribution",
                List.of("all", "weibull", "lognormal", "exponential"),
                "all",
                "law"),
            new ListParameter("covariate", "a column", "a column"),
            TextParameter.optional("clean-column", "a column", "a column"),
            TextParameter.optional("mode", "a word", "a failure mode"));

    @Override
    public Description description() {
      return DESCRIPTION;
    }

    @Override
    public List<RecordColumn> columns(Values values) {
      return List.of(
          RecordColumn.number("hours", 0, 1e6, true, "hours"),
          RecordColumn.number("event", 0, 1, true, "failed or not"));
    }

    @Override
    public Result run(Context context, Values values, Progress progress) {
      var records = context.records().orElseThrow();
      double[] hours = records.numbers("hours").orElseThrow();
      double sum = 0;
      for (double h : hours) {
        sum += h;
      }
      return Result.of(DESCRIPTION, records.source(), values)
          .records(records)
          .add(
              new Entry.Group(
                  "best",
                  "Best law",
                  List.of(new Entry.Value("mean", "Mean", "h", Cell.of(sum / hours.length)))))
          .add(
              new Figure(
                  "points",
                  "Points",
                  "",
                  Axis.log("Hours", "h"),
                  List.of(
                      new Panel(
                          Axis.linear("y", "1"),
                          List.of(new Layer.Points("", hours, hours.clone(), Layer.Mark.EVENT))))))
          .build();
    }
  }

  @BeforeEach
  void write() throws Exception {
    file = folder.resolve("lives.csv");
    Files.writeString(file, "unit,hours,event,mode\nA,100,1,wear\nB,200,1,wear\nC,600,0,\n");
    desk.scenario = Scenario.empty(Units.SI, false);
    open();
  }

  private void open() throws Exception {
    SwingUtilities.invokeAndWait(
        () -> {
          pane = new LifePane(desk, () -> Optional.of(new MeanLife()));
          pane.show(desk.scenario);
          pane.open(file);
        });
  }

  private <T> T find(Class<T> type, String name) {
    return Parts.find(pane.component(), type, "life." + name);
  }

  private JTable table() {
    return Parts.find(pane.component(), JTable.class, c -> true);
  }

  private boolean shows(String text) {
    return Parts.all(pane.component()).stream()
        .anyMatch(
            c ->
                (c instanceof JLabel l && text.equals(l.getText()))
                    || (c instanceof JTextComponent t && text.equals(t.getText())));
  }

  private void select(int... rows) throws Exception {
    JTable table = table();
    SwingUtilities.invokeAndWait(
        () -> {
          table.clearSelection();
          for (int row : rows) {
            table.addRowSelectionInterval(row, row);
          }
        });
  }

  @Test
  void leavesOutWithAReasonThatIsKept() throws Exception {
    assertTrue(shows("300 h"), "mean of 100, 200 and 600 h");
    select(2);
    SwingUtilities.invokeAndWait(() -> pane.leaveOut("hour meter, replaced; no \"0\""));
    assertTrue(shows("150 h"), "mean of 100 and 200 h");
    assertTrue(shows(Words.of("counts", 3, 1, 0)));
    open();
    assertTrue(shows("150 h"), "kept between runs");
    assertEquals("hour meter, replaced; no \"0\"", table().getValueAt(2, 1));
    select(2);
    SwingUtilities.invokeAndWait(() -> find(JButton.class, "include").doClick());
    assertTrue(shows("300 h"));
    assertFalse(Files.exists(Exclusions.beside(file)));
  }

  @Test
  void findsARecordThatMovedAndTellsOfOneThatIsGone() throws Exception {
    select(0, 2);
    SwingUtilities.invokeAndWait(() -> pane.leaveOut("test rig"));
    Files.writeString(file, "unit,hours,event,mode\nB,200,1,wear\nD,300,1,wear\nC,600,0,\n");
    open();
    assertTrue(shows("250 h"), "mean of 200 and 300 h: C is still out");
    assertTrue(desk.said.contains(Words.of("gone", 1)), desk.said.toString());
  }

  @Test
  void aClickOnThePictureSelectsItsRecord() throws Exception {
    FigurePanel figure = find(FigurePanel.class, "figure");
    BufferedImage picture = paint();
    assertTrue(picture.getWidth() > 0);
    JTable table = table();
    for (int x = 40; x < figure.getWidth() && table.getSelectedRow() < 0; x++) {
      int at = x;
      SwingUtilities.invokeAndWait(
          () ->
              figure.dispatchEvent(
                  new java.awt.event.MouseEvent(
                      figure,
                      java.awt.event.MouseEvent.MOUSE_CLICKED,
                      0,
                      0,
                      at,
                      figure.getHeight() / 2,
                      1,
                      false,
                      java.awt.event.MouseEvent.BUTTON1)));
    }
    assertEquals(0, table.getSelectedRow(), "the first from the left, A at 100 h");
  }

  @Test
  void offersTheTablesOwnColumnsAndModes() {
    JComboBox<?> covariate = find(JComboBox.class, "covariate");
    assertEquals(2, covariate.getItemCount());
    assertEquals("unit", covariate.getItemAt(1));
    JComboBox<?> mode = find(JComboBox.class, "mode");
    assertEquals("wear", mode.getItemAt(1));
  }

  @Test
  void livesWithoutRecordsAndAfterClosing() throws Exception {
    SwingUtilities.invokeAndWait(
        () -> {
          LifePane other = new LifePane(TestDesk.atOnce(), Optional::empty);
          other.show(Scenario.empty(Units.US, true));
          other.close();
          other.show(Scenario.empty(Units.US, true));
        });
  }

  private BufferedImage paint() throws Exception {
    BufferedImage[] picture = new BufferedImage[1];
    SwingUtilities.invokeAndWait(() -> picture[0] = Parts.paint(pane.component(), 1200, 700));
    Parts.keep(picture[0], "life");
    return picture[0];
  }
}
