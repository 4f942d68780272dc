package siltwright.workbench.internal;

import java.util.Map;
import java.util.function.Supplier;
import javax.swing.JComponent;
import javax.swing.JLabel;
import siltwright.addons.Guard;
import siltwright.analysis.Scope;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.View;

/** An add-on's view. One that fails is set aside; one that hangs holds the event thread up. */
final class GuardedView implements View {
  private final View view;
  private final Guard guard;
  private final Map<String, Object> properties;
  private final String id;
  private final String title;
  private final int rank;
  private final Scope scope;
  private final boolean several;

  GuardedView(View view, Guard guard, Map<String, Object> properties) {
    this.view = view;
    this.guard = guard;
    this.properties = Map.copyOf(properties);
    this.id = of(view::id, "add-on");
    this.title = of(view::title, "");
    this.rank = of(view::rank, 999);
    this.scope = of(view::scope, Scope.NONE);
    this.several = of(view::several, false);
  }

  private <T> T of(Supplier<T> call, T otherwise) {
    try {
      return call.get();
    } catch (RuntimeException | LinkageError | StackOverflowError e) {
      guard.setAside(properties, "its view failed: " + e);
      return otherwise;
    }
  }

  private void run(Runnable call) {
    of(
        () -> {
          call.run();
          return true;
        },
        false);
  }

  @Override
  public String id() {
    return id;
  }

  @Override
  public String title() {
    return title;
  }

  @Override
  public int rank() {
    return rank;
  }

  @Override
  public Scope scope() {
    return scope;
  }

  @Override
  public boolean several() {
    return several;
  }

  @Override
  public Pane open(Desk desk) {
    Pane pane = of(() -> view.open(desk), null);
    JComponent component = pane == null ? null : of(pane::component, null);
    return new GuardedPane(pane, component == null ? new JLabel(title) : component);
  }

  private final class GuardedPane implements Pane {
    private final Pane pane;
    private final JComponent component;

    GuardedPane(Pane pane, JComponent component) {
      this.pane = pane;
      this.component = component;
    }

    @Override
    public JComponent component() {
      return component;
    }

    @Override
    public void show(Scenario scenario) {
      if (pane != null) {
        run(() -> pane.show(scenario));
      }
    }

    @Override
    public void close() {
      if (pane != null) {
        run(pane::close);
      }
    }
  }
}
