package siltwright.fleet.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import org.junit.jupiter.api.Test;

class PitRecordsTest {
  @Test
  void theFilesAreWhatThisInvents() throws IOException {
    assertEquals(PitRecords.events(), Files.readString(PitRecords.EVENTS));
    assertEquals(PitRecords.samples(), Files.readString(PitRecords.SAMPLES));
  }
}
