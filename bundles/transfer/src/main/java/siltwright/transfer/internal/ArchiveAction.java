package siltwright.transfer.internal;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;
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
import siltwright.transfer.NewFile;

/** Writes the whole of a store to one file. */
@Component
@Capability(namespace = "siltwright.command", name = "archive")
public final class ArchiveAction implements Action {
  private static final TextParameter TO =
      TextParameter.required("to", "a file that is not there yet", "where the archive goes");

  private static final Description DESCRIPTION =
      Description.of(
          "archive",
          "Archive",
          "Writes the whole of a store, its journal too, to one file, for restore.",
          Scope.NONE,
          StoreOptions.STORE,
          TO);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    Path to = StoreOptions.path("--to", values.get(TO));
    try (Store store = Store.openExisting(values.get(StoreOptions.STORE), Clock.systemUTC());
        NewFile target = NewFile.at(to)) {
      progress.check(0, "archive");
      Map<String, Long> rows;
      try (OutputStream out = Files.newOutputStream(target.part())) {
        rows = store.archive().write(out);
      }
      target.keep();
      Result.Builder result = Result.of(DESCRIPTION, "", values);
      result.value("to", "Written to", to.toString());
      RestoreAction.tell(rows, result);
      return result.build();
    } catch (IOException e) {
      throw NewFile.notWritten(to, e);
    }
  }
}
