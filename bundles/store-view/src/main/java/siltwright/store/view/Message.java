package siltwright.store.view;

import java.awt.Dimension;
import javax.swing.JComponent;
import javax.swing.JTextArea;
import javax.swing.UIManager;
import javax.swing.text.View;
import siltwright.workbench.parts.ThemeColors;

/** Sentences in lines as wide as there is room; not there when there are none. */
final class Message {
  private static final int EDGE = 8;
  private static final int UNKNOWN = 400;

  private final Lines lines = new Lines();

  private static final class Lines extends JTextArea {
    private static final long serialVersionUID = 1;

    private boolean fault;

    @Override
    public void updateUI() {
      super.updateUI();
      setFont(UIManager.getFont("Label.font"));
      paintAs(fault);
    }

    /** As high as its lines are where they are as wide as the place, laid out or not. */
    @Override
    public Dimension getPreferredSize() {
      int place = getParent() == null ? 0 : getParent().getWidth();
      int wide = place == 0 ? UNKNOWN : place - Math.max(getX(), EDGE) - EDGE;
      View text = getUI().getRootView(this);
      text.setSize(wide, Short.MAX_VALUE);
      return new Dimension(wide, (int) Math.ceil(text.getPreferredSpan(View.Y_AXIS)));
    }

    void paintAs(boolean wrong) {
      fault = wrong;
      setForeground(UIManager.getColor(wrong ? ThemeColors.FAULT : "Label.foreground"));
    }
  }

  Message(String name) {
    lines.setName(name);
    lines.setEditable(false);
    lines.setLineWrap(true);
    lines.setWrapStyleWord(true);
    lines.setOpaque(false);
    lines.setBorder(null);
    lines.setVisible(false);
  }

  JComponent component() {
    return lines;
  }

  /** Says what is wrong. */
  void tell(String text) {
    lines.paintAs(true);
    lines.setText(text);
    lines.setVisible(true);
  }

  /** Says something else. */
  void say(String text) {
    lines.paintAs(false);
    lines.setText(text);
    lines.setVisible(!text.isEmpty());
  }

  void clear() {
    say("");
  }
}
