package siltwright.cleanliness;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import org.junit.jupiter.api.Test;

/** The example of the bundle's README. */
class ReadmeTest {
  @Test
  void exampleGivesWhatItShows() {
    ParticleCounts sample = ParticleCounts.perMl(1800, 430, 52, 9, 1.5, 0.2).countedIn(10);
    assertEquals("18/16/13", Iso4406.code(sample).toString());
    assertEquals("8A/8B/7C/7D/7E/7F", As4059.sizeCode(sample));
    assertEquals(Optional.of(CountClass.CLASS_8), Nas1638.worst(sample));
    assertEquals(20.6, ViscosityLine.through(40, 46, 100, 6.8).mm2PerS(60), 0.05);
  }
}
