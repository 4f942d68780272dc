package siltwright.workbench.internal;

import java.awt.image.BufferedImage;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.function.Supplier;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JProgressBar;
import javax.swing.JScrollPane;
import javax.swing.JSlider;
import javax.swing.JSplitPane;
import javax.swing.JTable;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.JTree;
import javax.swing.SwingUtilities;

/**
 * Makes and paints a control of each kind that nobody sees, each in an event of its own. The first
 * of a kind loads its classes; the views would do so all in the one event in which they are made.
 */
final class WarmUp {
  private static final int WIDTH = 120;
  private static final int HEIGHT = 40;

  private final Deque<Supplier<JComponent>> kinds =
      new ArrayDeque<>(
          List.<Supplier<JComponent>>of(
              () -> new JComboBox<>(new String[] {"one"}),
              () -> new JTextField("1"),
              () -> new JCheckBox("one"),
              () -> new JScrollPane(new JTree()),
              () -> new JScrollPane(new JTable(1, 1)),
              () -> new JTextArea("one"),
              JSlider::new,
              JSplitPane::new,
              JProgressBar::new));

  private WarmUp() {}

  /** Starts behind the events that wait now. */
  static void start() {
    SwingUtilities.invokeLater(new WarmUp()::next);
  }

  private void next() {
    Supplier<JComponent> kind = kinds.poll();
    if (kind != null) {
      JComponent control = kind.get();
      control.setSize(WIDTH, HEIGHT);
      control.doLayout();
      control.paint(new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB).createGraphics());
      SwingUtilities.invokeLater(this::next);
    }
  }
}
