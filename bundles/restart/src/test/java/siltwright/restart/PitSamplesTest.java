package siltwright.restart;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import org.junit.jupiter.api.Test;

class PitSamplesTest {
  @Test
  void theFileIsWhatThisInvents() throws IOException {
    if (Boolean.getBoolean("siltwright.write")) { // to make it anew
      Files.writeString(PitSamples.FILE, PitSamples.text());
    }
    assertEquals(PitSamples.text(), Files.readString(PitSamples.FILE));
  }

  @Test
  void theCountersSeriesIsWhatIsInvented() throws IOException {
    if (Boolean.getBoolean("siltwright.write")) {
      Files.writeString(PitCounter.FILE, PitCounter.text());
    }
    assertEquals(PitCounter.text(), Files.readString(PitCounter.FILE));
  }
}
