package siltwright.workbench.parts;

import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JSplitPane;

/** Two parts side by side; the left one has a share of the room until the user moves the border. */
public final class Sides extends JSplitPane {
  private static final long serialVersionUID = 1;

  private final double share;
  private boolean placed;

  /**
   * Puts two parts side by side.
   *
   * @param share the left one's share of the room, 0 to 1
   */
  public Sides(JComponent left, JComponent right, double share) {
    super(HORIZONTAL_SPLIT, true, left, right);
    this.share = share;
    setResizeWeight(share);
    setBorder(BorderFactory.createEmptyBorder());
  }

  @Override
  public void doLayout() {
    if (!placed && getWidth() > 0) {
      placed = true;
      setDividerLocation((int) (share * (getWidth() - getDividerSize())));
    }
    super.doLayout();
  }
}
