package siltwright.workbench;

import org.osgi.annotation.versioning.ConsumerType;
import siltwright.analysis.Scope;

/**
 * A kind of view. Register it as a service and the window offers it; take the service away and its
 * panes close, with the rest of the layout as it was.
 *
 * <p>One object serves all its panes and keeps nothing of them. Every method is called on the event
 * thread.
 */
@ConsumerType
public interface View {
  /** Returns what saved layouts know it by: lower case, hyphens, never changed once published. */
  String id();

  /** Returns its title for people, in their language. */
  String title();

  /** Returns its place among the views, low ones first: 100 to 900 for views of ours. */
  int rank();

  /** Returns what it shows: {@link Scope#MACHINE} the selected machine, and so on. */
  Scope scope();

  /**
   * Returns whether several panes may be open at once, to compare machines for one; the menu has an
   * item of its own that opens one more.
   */
  default boolean several() {
    return false;
  }

  /**
   * Opens a pane. {@link Pane#show} follows at once.
   *
   * @param desk what the pane reads from and acts through; good until the pane is closed
   */
  Pane open(Desk desk);
}
