package siltwright.workbench.parts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Dimension;
import java.util.Arrays;
import java.util.List;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.workbench.testing.Parts;

class EntryTableTest {
  private static EntryTable threeRows() {
    List<Entry.Column> columns =
        List.of(
            new Entry.Column("machine", "Machine with a long head", ""),
            new Entry.Column("interval", "Interval with a long head", "h"),
            new Entry.Column("cost", "Cost with a long head", "EUR/h"));
    List<Cell> row = List.of(Cell.of("EX-13"), Cell.of(272.0), Cell.of(4.35));
    EntryTable table = new EntryTable();
    table.show(new Entry.Table("t", "Table", Entry.Use.READ, columns, List.of(row, row, row)));
    return table;
  }

  /** Whatever its width, with its bar in one row or more. */
  @Test
  void aTableAsHighAsItWantsShowsAllItsRows() throws Exception {
    SwingUtilities.invokeAndWait(
        () -> {
          for (int width = 150; width <= 900; width += 10) {
            JPanel page = new JPanel(new BorderLayout());
            page.add(threeRows(), BorderLayout.NORTH);
            Parts.layOut(page, width, 600);
            JScrollPane scroll = Parts.find(page, JScrollPane.class, c -> true);
            assertFalse(scroll.getVerticalScrollBar().isVisible(), "at " + width);
          }
        });
  }

  @Test
  void aBarIsAsHighAsItsRows() throws Exception {
    SwingUtilities.invokeAndWait(
        () -> {
          for (int width = 60; width <= 340; width++) {
            Bar bar = new Bar();
            for (int w : new int[] {92, 40, 55, 80}) {
              JPanel control = new JPanel();
              control.setPreferredSize(new Dimension(w, 20));
              bar.add(control);
            }
            bar.setSize(width, 100);
            bar.doLayout();
            int end =
                Arrays.stream(bar.getComponents())
                    .map(Component::getBounds)
                    .mapToInt(b -> b.y + b.height)
                    .max()
                    .orElseThrow();
            assertEquals(end + 4, bar.getPreferredSize().height, "at " + width);
          }
        });
  }
}
