package siltwright.cleanliness.view;

import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Scope;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.View;

/** Counts and codes of a machine's samples, limits, samples to doubt, and the restart wash-out. */
@Component
public final class CleanlinessView implements View {
  @Override
  public String id() {
    return "cleanliness";
  }

  @Override
  public String title() {
    return Words.of("title");
  }

  @Override
  public int rank() {
    return 200;
  }

  @Override
  public Scope scope() {
    return Scope.RECORDS;
  }

  @Override
  public boolean several() {
    return true;
  }

  @Override
  public Pane open(Desk desk) {
    return new CleanlinessPane(desk);
  }
}
