package siltwright.store.view;

import org.osgi.service.component.annotations.Activate;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Reference;
import siltwright.analysis.Scope;
import siltwright.store.StoreInUse;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.View;

/** A store of records: files brought in with a look at them first, its journal, undo. */
@Component
public final class RecordsView implements View {
  private final StoreInUse inUse;

  /** Makes the view. */
  @Activate
  public RecordsView(@Reference StoreInUse inUse) {
    this.inUse = inUse;
  }

  @Override
  public String id() {
    return "records";
  }

  @Override
  public String title() {
    return Words.of("title");
  }

  @Override
  public int rank() {
    return 350;
  }

  @Override
  public Scope scope() {
    return Scope.NONE;
  }

  @Override
  public Pane open(Desk desk) {
    return new RecordsPane(desk, inUse);
  }
}
