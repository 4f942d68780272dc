package siltwright.workbench.parts;

import java.awt.Dimension;
import java.awt.Rectangle;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.UIManager;
import javax.swing.text.DefaultCaret;

/** Texts that break where the room ends and can be selected. */
public final class Wrapped {
  private static final int COLUMNS = 60;
  private static final int MOST_LINES = 14;

  private Wrapped() {}

  /** Returns a text for a dialog, which scrolls if it is long. */
  public static JComponent text(String text) {
    JTextArea area = area(text);
    area.setColumns(COLUMNS);
    area.setSize(new Dimension(area.getPreferredSize().width, 1));
    int line = area.getFontMetrics(area.getFont()).getHeight();
    if (area.getPreferredSize().height <= MOST_LINES * line) {
      return area;
    }
    area.setRows(MOST_LINES);
    return new JScrollPane(area);
  }

  /** A caret that does not scroll the page to each new text. */
  private static final class StillCaret extends DefaultCaret {
    private static final long serialVersionUID = 1;

    @Override
    protected void adjustVisibility(Rectangle place) {
      // the page stays where the user has it
    }
  }

  /** Returns a text for a page. */
  public static JTextArea area(String text) {
    JTextArea area = new JTextArea(text);
    area.setEditable(false);
    area.setLineWrap(true);
    area.setWrapStyleWord(true);
    area.setCaret(new StillCaret());
    area.setOpaque(false);
    area.setBorder(BorderFactory.createEmptyBorder());
    area.setFont(UIManager.getFont("Label.font"));
    area.setFocusable(false);
    area.setDisabledTextColor(UIManager.getColor("Label.foreground"));
    area.getAccessibleContext().setAccessibleName(text);
    return area;
  }
}
