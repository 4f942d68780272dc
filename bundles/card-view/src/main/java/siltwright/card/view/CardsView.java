package siltwright.card.view;

import org.osgi.service.component.annotations.Activate;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Reference;
import siltwright.analysis.Scope;
import siltwright.store.StoreInUse;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.View;

/** Filled service cards: typed in or read from a table, checked, and kept in the store. */
@Component
public final class CardsView implements View {
  private final StoreInUse inUse;

  /** Makes the view. */
  @Activate
  public CardsView(@Reference StoreInUse inUse) {
    this.inUse = inUse;
  }

  @Override
  public String id() {
    return "filled-cards";
  }

  @Override
  public String title() {
    return Words.of("title");
  }

  @Override
  public int rank() {
    return 360;
  }

  @Override
  public Scope scope() {
    return Scope.FLEET;
  }

  @Override
  public Pane open(Desk desk) {
    return new CardsPane(desk, inUse);
  }
}
