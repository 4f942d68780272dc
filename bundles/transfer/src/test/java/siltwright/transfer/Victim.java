package siltwright.transfer;

import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;
import siltwright.analysis.Progress;
import siltwright.model.history.RecordKind;
import siltwright.store.Store;

/** A process that imports or edits, to be killed meanwhile. */
public final class Victim {
  private Victim() {}

  /**
   * Runs.
   *
   * @param arguments what to do, the store, the file
   */
  public static void main(String[] arguments) {
    try (Store store = Store.open(arguments[1], Clock.systemUTC())) {
      System.out.println("begun");
      if (arguments[0].equals("import")) {
        new Importer(Path.of(arguments[2]), Bench.options(Wishes.NONE)).run(store, Progress.NONE);
      } else {
        store.act(
            "ann",
            "amend",
            "all",
            edits -> {
              var field = RecordKind.SAMPLE.field("count4_per_mL").orElseThrow();
              for (int i = 1; i <= 20_000; i++) {
                edits.amend(RecordKind.SAMPLE, i, Map.of(field, -1.0));
              }
              return null;
            });
      }
    }
    System.out.println("done");
  }
}
