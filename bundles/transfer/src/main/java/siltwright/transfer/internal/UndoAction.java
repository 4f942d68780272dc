package siltwright.transfer.internal;

import java.time.Clock;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Action;
import siltwright.analysis.Description;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.store.Store;
import siltwright.store.StoreOptions;

/** Takes an action on a store back. */
@Component
@Capability(namespace = "siltwright.command", name = "undo")
public final class UndoAction implements Action {
  static final TextParameter ACTION =
      TextParameter.required("action", "a number", "number of the action, as journal lists it");

  private static final Description DESCRIPTION =
      Description.of(
          "undo",
          "Undo",
          "Takes an action on a store back; nothing is erased, so that this can be undone too.",
          Scope.NONE,
          StoreOptions.STORE,
          ACTION,
          StoreOptions.WHO);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    try (Store store = Store.openExisting(values.get(StoreOptions.STORE), Clock.systemUTC())) {
      siltwright.store.Action undone =
          store.undo(StoreOptions.number("--action", values.get(ACTION)), StoreOptions.who(values));
      return Result.of(DESCRIPTION, "", values)
          .value("undone", "Taken back", undone.verb() + " " + undone.detail())
          .value("who", "Done by", undone.who())
          .value("made", "Rows it had made", "1", undone.made())
          .value("ended", "Rows it had ended", "1", undone.ended())
          .build();
    }
  }
}
