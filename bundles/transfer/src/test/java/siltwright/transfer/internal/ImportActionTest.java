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
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.model.InputException;

class ImportActionTest {
  @TempDir Path folder;
  private final ImportAction action = new ImportAction();

  private void run(Map<String, String> options) throws IOException {
    Path file = folder.resolve("meters.csv");
    Files.writeString(file, "machine,date,meter_h\nA,2026-01-05,100\n");
    action.run(file.toString(), Values.of(action.description(), options), Progress.NONE);
  }

  @ParameterizedTest
  @CsvSource({"kind,nothing", "mapping,ours", "column,date=nothing", "encoding,none-such"})
  void noStoreIsMadeForWhatCannotComeIn(String option, String value) {
    Path store = folder.resolve("new.db");
    assertThrows(InputException.class, () -> run(Map.of("store", store.toString(), option, value)));
    assertFalse(Files.exists(store));
  }

  @Test
  void aStoreIsMadeForWhatComesIn() throws IOException {
    Path store = folder.resolve("new.db");
    run(Map.of("store", store.toString(), "add-machines", "true"));
    assertTrue(Files.exists(store));
  }
}
