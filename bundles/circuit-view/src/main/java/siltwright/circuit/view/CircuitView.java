package siltwright.circuit.view;

import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Scope;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.View;

/** The view of a machine's circuit. */
@Component
public final class CircuitView implements View {
  @Override
  public String id() {
    return "circuit";
  }

  @Override
  public String title() {
    return Words.bundle().getString("title");
  }

  @Override
  public int rank() {
    return 100;
  }

  @Override
  public Scope scope() {
    return Scope.MACHINE;
  }

  @Override
  public Pane open(Desk desk) {
    return new CircuitPane(desk);
  }
}
