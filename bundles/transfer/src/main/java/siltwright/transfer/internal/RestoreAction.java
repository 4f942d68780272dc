package siltwright.transfer.internal;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Action;
import siltwright.analysis.Cell;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.store.Archive;
import siltwright.store.Store;
import siltwright.store.StoreOptions;

/** Fills an empty store from an archive. */
@Component
@Capability(namespace = "siltwright.command", name = "restore")
public final class RestoreAction implements Action {
  private static final Description DESCRIPTION =
      Description.of(
          "restore",
          "Restore",
          "Fills a store that is empty, or not there yet, from an archive.",
          Scope.NONE,
          StoreOptions.STORE);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public String file() {
    return "Archive, as archive wrote it.";
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    Path from = StoreOptions.path("FILE", file);
    if (!Files.isRegularFile(from) || !Files.isReadable(from)) {
      throw new InputException(
          new Problem(file, "", "", "an archive that is there and can be read"));
    }
    String where = values.get(StoreOptions.STORE);
    try {
      if (!Store.exists(where)) {
        try (InputStream in = Files.newInputStream(from)) {
          Archive.check(in, file);
        }
      }
      return restore(from, file, where, values, progress);
    } catch (IOException e) {
      throw new InputException(
          new Problem(file, "", "", "an archive that can be read (" + e.getMessage() + ")"));
    }
  }

  private static Result restore(
      Path from, String file, String where, Values values, Progress progress) throws IOException {
    try (InputStream in = Files.newInputStream(from);
        Store store = Store.open(where, Clock.systemUTC())) {
      progress.check(0, "restore");
      Result.Builder result = Result.of(DESCRIPTION, "", values);
      tell(store.archive().restore(in, file), result);
      return result.build();
    }
  }

  static void tell(Map<String, Long> rows, Result.Builder result) {
    List<List<Cell>> cells = new ArrayList<>();
    rows.forEach((table, n) -> cells.add(List.of(Cell.of(table), Cell.of(n))));
    result.add(
        new Entry.Table(
            "tables",
            "Rows by table",
            Entry.Use.READ,
            List.of(new Entry.Column("table", "Table", ""), new Entry.Column("rows", "Rows", "1")),
            cells));
  }
}
