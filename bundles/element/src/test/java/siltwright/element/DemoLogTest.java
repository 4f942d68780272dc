package siltwright.element;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class DemoLogTest {
  private static final Path FILE = Path.of("../../demo-data/pit-element.csv");

  @Test
  void theFileIsWhatTheSeedInvents() throws IOException {
    if (Boolean.getBoolean("siltwright.write")) { // to make it anew
      Files.writeString(FILE, MadeLogs.demo());
    }
    assertEquals(MadeLogs.demo(), Files.readString(FILE));
  }
}
