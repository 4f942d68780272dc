package siltwright.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.model.InputException;

/** What is told of an archive that is refused: place, what is there, what was expected. */
class ArchiveTest {
  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "empty | : found its end; expected part archive.json",
        "table | : found its end; expected part archive.json",
        "newer | archive.json: found version 2 of a store; expected version 1",
        "zone | site_state.json row 1: found zone Europe/Nowhere; expected a time zone such as"
            + " Europe/Lisbon",
        "endless-number | drop_reading.json row 1: found drop_kpa 1e999; expected a number within"
            + " the range of a double",
        "text-for-number | drop_reading.json row 1: found drop_kpa 45.5; expected a number",
        "far-time | drop_reading.json row 1: found at_ms 9223372036854775807; expected an instant"
            + " of the years 1 to 9999, in ms",
        "nul | fault_report.json row 1: found description bypass\\u0000; expected a text without"
            + " NUL and half characters",
        "short-row | machine.json row 2: found id EX-12; expected a whole number",
        "behind-rows | meter_reading.json row 5: found and more; expected cells in brackets",
        "column-twice | machine.json: found [id, id]; expected the columns [id, code]",
        "contradiction | machine.json rows 1 to 3: found what contradicts itself or lacks"
            + " something; expected rows that fit together",
        "no-machine | meter_reading.json: found 4 records of no machine; expected records of those"
            + " in machine_state.json",
        "more-parts | : found part more.json; expected its end",
        "name-latin1 | : found a damaged zip; expected an archive as it was written",
        "bomb | site.json: found more than 300 times what it is packed; expected rows as they were"
            + " written",
      })
  void aRefusalNamesThePlace(String name, String told) throws Exception {
    Path file = Path.of("src", "test", "corpus", "archive", "refused-" + name + ".zip");
    try (InputStream in = Files.newInputStream(file);
        Store store = Store.open(folder.resolve("to.db").toString(), Clock.systemUTC())) {
      InputException e =
          assertThrows(InputException.class, () -> store.archive().restore(in, "a.zip"));
      assertEquals("a.zip" + (told.startsWith(":") ? "" : " ") + told, e.getMessage());
      assertEquals(0, store.journal().last(1).size());
    }
  }
}
