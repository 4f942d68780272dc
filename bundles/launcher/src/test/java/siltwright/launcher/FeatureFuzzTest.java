package siltwright.launcher;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.model.testing.Fuzz;
import siltwright.model.testing.Mutation;

/** Whatever a feature file holds, it is read or refused; no bundle of it lies in another folder. */
class FeatureFuzzTest {

  @Test
  void anyBytesAreReadOrRefused() throws Exception {
    Fuzz.of("feature", Mutation.TEXT, FeatureFuzzTest::read).run(1000);
  }

  private static Optional<String> read(Path file) {
    Feature feature;
    try {
      feature = Feature.read(file);
    } catch (LaunchException e) {
      return Optional.of(e.getMessage());
    }
    assertFalse(feature.bundles().isEmpty());
    Path folder = Path.of("bundles");
    for (Feature.Artifact a : feature.bundles()) {
      Path bundle = folder.resolve(a.fileName());
      assertEquals(folder, bundle.normalize().getParent(), a.fileName());
    }
    return Optional.empty();
  }
}
