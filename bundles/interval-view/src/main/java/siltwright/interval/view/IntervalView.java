package siltwright.interval.view;

import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Scope;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.View;

/** The cost curve of a machine, live under suppositions. */
@Component
public final class IntervalView implements View {
  @Override
  public String id() {
    return "interval";
  }

  @Override
  public String title() {
    return Words.of("title");
  }

  @Override
  public int rank() {
    return 150;
  }

  @Override
  public Scope scope() {
    return Scope.MACHINE;
  }

  @Override
  public boolean several() {
    return true;
  }

  @Override
  public Pane open(Desk desk) {
    return new IntervalPane(desk);
  }
}
