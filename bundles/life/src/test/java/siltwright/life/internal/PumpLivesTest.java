package siltwright.life.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import org.junit.jupiter.api.Test;

class PumpLivesTest {
  @Test
  void theFileIsWhatThisInvents() throws IOException {
    assertEquals(PumpLives.text(), Files.readString(PumpLives.FILE));
  }
}
