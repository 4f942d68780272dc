package siltwright.workbench.internal;

import io.github.andrewauclair.moderndocking.Dockable;
import java.awt.BorderLayout;
import java.awt.event.HierarchyEvent;
import java.util.Optional;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.SwingConstants;
import javax.swing.SwingUtilities;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.View;

/**
 * A place in the layout that holds a pane. It outlives its pane: a layout may name a view that is
 * not there now, and a view may be taken away.
 */
final class Docked extends JPanel implements Dockable {
  private static final long serialVersionUID = 1;

  private final String id;
  private final transient Panes panes;
  private String title;
  private transient Pane pane;
  private transient PaneDesk desk;
  private transient View view;
  private transient Bench waitingFor;

  Docked(Panes panes, String id, String title) {
    super(new BorderLayout());
    this.panes = panes;
    this.id = id;
    this.title = title;
    setName(id);
    getAccessibleContext().setAccessibleName(title);
    empty(Texts.of("pane.absent", id));
    addHierarchyListener(
        e -> {
          if ((e.getChangeFlags() & HierarchyEvent.SHOWING_CHANGED) != 0 && isShowing()) {
            SwingUtilities.invokeLater(this::fillWaiting);
          }
        });
  }

  private void empty(String text) {
    removeAll();
    JLabel label = new JLabel(text, SwingConstants.CENTER);
    label.setFocusable(false);
    add(label, BorderLayout.CENTER);
  }

  /** Returns the id of the view whose panes have this id. */
  String viewId() {
    return viewId(id);
  }

  static String viewId(String paneId) {
    int mark = paneId.indexOf('#');
    return mark < 0 ? paneId : paneId.substring(0, mark);
  }

  /**
   * Gives the place to a view, whose pane is made once it can be seen: each in an event of its own,
   * and those behind their tabs not at all until then.
   */
  void give(View newView, Bench bench) {
    unfill();
    view = newView;
    title = newView.title();
    getAccessibleContext().setAccessibleName(title);
    empty("");
    waitingFor = bench;
    if (isShowing()) {
      SwingUtilities.invokeLater(this::fillWaiting);
    }
  }

  private void fillWaiting() {
    if (waitingFor == null || !isShowing()) {
      return;
    }
    Bench bench = waitingFor;
    waitingFor = null;
    Pane made = make(bench);
    // Making and showing are each short; together they might keep the user waiting.
    SwingUtilities.invokeLater(
        () -> {
          if (pane == made) {
            present(bench);
          }
        });
  }

  private Pane make(Bench bench) {
    desk = new PaneDesk(bench, id, title);
    pane = view.open(desk);
    return pane;
  }

  private void present(Bench bench) {
    removeAll();
    add(pane.component(), BorderLayout.CENTER);
    getAccessibleContext().setAccessibleName(title);
    revalidate();
    repaint();
    show(bench.scenario());
  }

  /** Fills the place with a pane of a view. */
  void fill(View newView, Bench bench) {
    unfill();
    view = newView;
    title = newView.title();
    make(bench);
    present(bench);
  }

  Optional<View> view() {
    return Optional.ofNullable(view);
  }

  Optional<Pane> pane() {
    return Optional.ofNullable(pane);
  }

  void show(Scenario scenario) {
    if (pane != null) {
      try {
        pane.show(scenario);
      } catch (RuntimeException e) {
        panes.fault(title, e);
      }
    }
  }

  /** Closes the pane and forgets all that belongs to its view. */
  void unfill() {
    waitingFor = null;
    if (pane == null) {
      view = null;
      return;
    }
    Pane closing = pane;
    pane = null;
    view = null;
    desk.close();
    desk = null;
    try {
      closing.close();
    } catch (RuntimeException e) {
      panes.fault(title, e);
    }
    empty(Texts.of("pane.absent", title));
  }

  /** Puts the focus where the pane would have it. */
  void focus() {
    if (pane != null && !pane.component().requestFocusInWindow()) {
      pane.component().transferFocus();
    }
  }

  @Override
  public String getPersistentID() {
    return id;
  }

  @Override
  public String getTabText() {
    int mark = id.indexOf('#');
    return mark < 0 ? title : title + " " + id.substring(mark + 1);
  }

  @Override
  public boolean isWrappableInScrollpane() {
    return false;
  }

  @Override
  public boolean isClosable() {
    return true;
  }

  @Override
  public boolean isMinMaxAllowed() {
    return true;
  }

  /** The library would only undock it; closing is ours. */
  @Override
  public boolean requestClose() {
    panes.closeLater(this);
    return false;
  }
}
