package siltwright.transfer.internal;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.model.InputException;

class RestoreActionTest {
  @TempDir Path folder;

  private void restore(Path archive, Path store) {
    RestoreAction action = new RestoreAction();
    Map<String, String> options = Map.of("store", store.toString());
    action.run(archive.toString(), Values.of(action.description(), options), Progress.NONE);
  }

  @Test
  void noStoreIsMadeForWhatIsNoArchive() throws IOException {
    Path store = folder.resolve("new.db");
    Path table = Files.writeString(folder.resolve("meters.csv"), "machine,date,meter_h\n");
    assertThrows(InputException.class, () -> restore(table, store));
    assertFalse(Files.exists(store));
  }

  @Test
  void aStoreIsMadeForAnArchive() {
    Path store = folder.resolve("new.db");
    restore(Path.of("../store/src/test/corpus/archive/sound-all-kinds.zip"), store);
    assertTrue(Files.exists(store));
  }
}
