package siltwright.features;

import java.awt.AWTException;
import java.awt.Component;
import java.awt.Container;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.Robot;
import java.awt.Window;
import java.awt.event.InputEvent;
import java.awt.event.KeyEvent;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Predicate;
import javax.swing.AbstractButton;
import javax.swing.JComponent;
import javax.swing.JMenu;
import javax.swing.JMenuBar;
import javax.swing.JMenuItem;
import javax.swing.JTree;
import javax.swing.SwingUtilities;
import javax.swing.Timer;

/** Mouse and keys for the tests of the window. Waits for conditions, never for a time. */
final class Hand {
  private static final long LIMIT_NS = 40_000_000_000L;

  private final Robot robot;

  Hand() throws AWTException {
    robot = new Robot();
    robot.setAutoDelay(8);
  }

  /** Something that is to become true. */
  interface Condition {
    boolean holds() throws Exception;
  }

  /** Returns what a piece of code gives on the event thread. */
  static <T> T onScreen(Callable<T> code) {
    FutureTask<T> task = new FutureTask<>(code);
    SwingUtilities.invokeLater(task);
    try {
      return task.get();
    } catch (ExecutionException e) {
      throw new AssertionError(e.getCause());
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    }
  }

  /** Waits until a condition holds on the event thread, which looks between its other events. */
  static void until(String what, Condition condition) {
    CompletableFuture<Boolean> held = new CompletableFuture<>();
    Timer looks =
        new Timer(
            15,
            event -> {
              try {
                if (condition.holds()) {
                  held.complete(true);
                }
              } catch (Exception | Error e) {
                held.completeExceptionally(e);
              }
            });
    looks.setInitialDelay(0);
    looks.start();
    try {
      held.get(LIMIT_NS, TimeUnit.NANOSECONDS);
    } catch (TimeoutException e) {
      throw new AssertionError("never: " + what);
    } catch (ExecutionException e) {
      throw new AssertionError(e.getCause());
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    } finally {
      looks.stop();
    }
  }

  /** Returns a showing component of a type that fits. */
  static <T extends Component> Optional<T> look(Class<T> type, Predicate<T> fits) {
    for (Window window : Window.getWindows()) {
      if (window.isShowing()) {
        Deque<Component> open = new ArrayDeque<>();
        open.add(window);
        while (!open.isEmpty()) {
          Component c = open.poll();
          if (type.isInstance(c) && c.isShowing() && fits.test(type.cast(c))) {
            return Optional.of(type.cast(c));
          }
          if (c instanceof Container container) {
            open.addAll(List.of(container.getComponents()));
          }
        }
      }
    }
    return Optional.empty();
  }

  /** Waits for a showing component with a name. */
  static <T extends Component> T find(Class<T> type, String name) {
    return find(type, name, c -> name.equals(c.getName()));
  }

  static <T extends Component> T find(Class<T> type, String what, Predicate<T> fits) {
    until(what + " to show", () -> look(type, fits).isPresent());
    return onScreen(() -> look(type, fits).orElseThrow());
  }

  static boolean isShown(String name) {
    return look(Component.class, c -> name.equals(c.getName())).isPresent();
  }

  /** Waits for a button with a text, anywhere. */
  static AbstractButton button(String text) {
    return find(AbstractButton.class, "button " + text, b -> text.equals(b.getText()));
  }

  /** Clicks on the middle of a component, once it has come to rest. */
  void click(Component component) {
    Point at = middle(component);
    for (Point before = null; !at.equals(before); ) {
      robot.waitForIdle();
      before = at;
      at = middle(component);
    }
    click(at, 1);
  }

  /** Presses a button of a dialog, which no mouse finds where no window manager places it. */
  void answer(String text) {
    AbstractButton button = button(text);
    SwingUtilities.invokeLater(button::doClick);
    until(text + " to be answered", () -> !button.isShowing());
  }

  private static Point middle(Component component) {
    return onScreen(
        () -> {
          // a text field would scroll its own text
          if (component.getParent() instanceof JComponent parent) {
            parent.scrollRectToVisible(component.getBounds());
          }
          Point p = component.getLocationOnScreen();
          return new Point(p.x + component.getWidth() / 2, p.y + component.getHeight() / 2);
        });
  }

  void click(Point at, int times) {
    robot.mouseMove(at.x, at.y);
    for (int i = 0; i < times; i++) {
      robot.mousePress(InputEvent.BUTTON1_DOWN_MASK);
      robot.mouseRelease(InputEvent.BUTTON1_DOWN_MASK);
    }
    robot.waitForIdle();
  }

  /** Waits until all that has been asked of the event thread is done. */
  void rest() {
    robot.waitForIdle();
  }

  void move(Point at) {
    robot.mouseMove(at.x, at.y);
    robot.waitForIdle();
  }

  void drag(Point from, Point to) {
    robot.mouseMove(from.x, from.y);
    robot.mousePress(InputEvent.BUTTON1_DOWN_MASK);
    robot.mouseMove((from.x + to.x) / 2, (from.y + to.y) / 2);
    robot.mouseMove(to.x, to.y);
    robot.mouseRelease(InputEvent.BUTTON1_DOWN_MASK);
    robot.waitForIdle();
  }

  /** Selects the row of a tree whose text begins with a word. */
  void choose(JTree tree, String word) {
    Point at =
        onScreen(
            () -> {
              for (int row = 0; row < tree.getRowCount(); row++) {
                String text = String.valueOf(tree.getPathForRow(row).getLastPathComponent());
                if (text.startsWith(word)) {
                  tree.scrollRowToVisible(row);
                  Rectangle r = tree.getRowBounds(row);
                  Point p = tree.getLocationOnScreen();
                  return new Point(p.x + r.x + Math.min(30, r.width / 2), p.y + r.y + r.height / 2);
                }
              }
              throw new AssertionError("no row " + word);
            });
    click(at, 1);
  }

  /** Replaces what stands in a field by digits, letters and dots. */
  void type(Component field, String text) {
    click(field);
    until("the focus in " + field.getName(), field::isFocusOwner);
    press(KeyEvent.VK_CONTROL, KeyEvent.VK_A);
    for (char c : text.toCharArray()) {
      press(
          c == '-'
              ? KeyEvent.VK_MINUS
              : c == '.' ? KeyEvent.VK_PERIOD : KeyEvent.getExtendedKeyCodeForChar(c));
    }
  }

  /** Presses keys together. */
  void press(int... keys) {
    for (int key : keys) {
      robot.keyPress(key);
    }
    for (int i = keys.length - 1; i >= 0; i--) {
      robot.keyRelease(keys[i]);
    }
    robot.waitForIdle();
  }

  /** Returns the item of a menu, found by the texts on the way to it. */
  static JMenuItem item(JMenuBar bar, String... path) {
    JMenu menu = null;
    for (int i = 0; i < bar.getMenuCount(); i++) {
      if (bar.getMenu(i).getText().equals(path[0])) {
        menu = bar.getMenu(i);
      }
    }
    JMenuItem item = menu;
    for (int i = 1; i < path.length; i++) {
      JMenuItem next = null;
      for (Component c : ((JMenu) item).getMenuComponents()) {
        if (c instanceof JMenuItem each && each.getText().startsWith(path[i])) {
          next = each;
          break;
        }
      }
      if (next == null) {
        return null;
      }
      item = next;
    }
    return item;
  }
}
