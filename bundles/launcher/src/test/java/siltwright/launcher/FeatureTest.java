package siltwright.launcher;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FeatureTest {

  @TempDir Path folder;

  /** The keys are those of OSGi Compendium 8.1, chapter 159 (from memory). */
  @Test
  void bundlesComeInStartingOrder() throws Exception {
    Feature feature =
        read(
            """
            // a comment
            { "feature-resource-version": "1.0", "id": "g:product:1",
              "name": "n", "description": "d", "docURL": "u", "license": "l", "SCM": "s",
              "vendor": "v", "complete": true, "categories": ["c"],
              "bundles": [
                { "id": "g:last:1" },
                { "id": "g:second:2.0", "start-order": 5, "other": { "metadata": [1] } },
                { "id": "g:first:3", "start-order": -1 },
                { "id": "g:very-last:4" } ] }
            """);
    assertEquals("g:product:1", feature.id());
    assertEquals(
        List.of("first-3.jar", "second-2.0.jar", "last-1.jar", "very-last-4.jar"),
        feature.bundles().stream().map(Feature.Artifact::fileName).toList());
  }

  @Test
  void bundlesTellWhenTheyAreNeeded() throws Exception {
    Feature feature =
        read(
            """
            { "feature-resource-version": "1.0", "id": "g:product:1", "bundles": [
                { "id": "g:a:1" }, { "id": "g:b:1", "stage": "window" },
                { "id": "g:c:1", "stage": "documents", "start": false } ] }
            """);
    assertEquals(
        List.of(Feature.Stage.START, Feature.Stage.WINDOW, Feature.Stage.DOCUMENTS),
        feature.bundles().stream().map(Feature.Artifact::stage).toList());
    assertEquals(
        List.of(true, true, false),
        feature.bundles().stream().map(Feature.Artifact::started).toList());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "'';                                                           expected an object",
        "[];                                                           line 1, column 1: expected an object",
        "{;                                                            ends too early",
        "{\"id\": \"g:a:1\", \"bundles\": [{\"id\": \"g:b;             ends too early",
        "{\"id\": nonsense};                                           line 1, column",
        "{\"id\": \"g:a:1\", \"id\": \"g:a:2\"};                       Duplicate field",
        "{\"id\": 7};                                                  column 8: expected a text",
        "{\"id\": \"g:a\"};                                            group:artifact:version",
        "{\"id\": \"g:../a:1\"};                                       group:artifact:version",
        "{\"feature-resource-version\": \"2.0\"};                      expected \"1.0\"",
        "{\"configurations\": {}};                                     \"configurations\" is not supported",
        "{\"bundles\": [{\"stage\": \"later\"}]};                     expected start, documents or window",
        "{\"bundles\": {}};                                            expected an array of bundles",
        "{\"bundles\": [\"g:a:1\"]};                                   expected an object for each bundle",
        "{\"bundles\": [{\"start\": 1}]};                              expected true or false",
        "{\"bundles\": [{\"start-order\": 1}]};                        a bundle has no \"id\"",
        "{\"bundles\": [{\"id\": \"g:a:1\", \"start-order\": \"1\"}]}; expected a whole number",
        "{\"bundles\": [{\"id\": \"g:a:1\", \"start-order\": 3000000000}]}; out of range",
        "{\"bundles\": [{\"id\": \"g:a:1\"}, {\"id\": \"h:a:2\"}]};    a is listed twice",
        "{};                                                           has no \"feature-resource-version\"",
        "{\"feature-resource-version\": \"1.0\"};                      has no \"id\"",
        "{\"feature-resource-version\": \"1.0\", \"id\": \"g:a:1\"};   has no \"bundles\"",
        "{} {};                                                        something follows",
      })
  void faultsAreNamedWithTheirPlace(String text, String expected) {
    String message = assertThrows(LaunchException.class, () -> read(text)).getMessage();
    assertTrue(message.contains(expected), message);
    assertTrue(message.contains(folder.resolve("f.json").toString()), message);
    assertFalse(message.contains("\n"), message);
  }

  @Test
  void missingFileIsNamed() {
    Path file = folder.resolve("none.json");
    assertEquals(
        "there is no feature file " + file,
        assertThrows(LaunchException.class, () -> Feature.read(file)).getMessage());
  }

  @Test
  void folderIsNoFeatureFile() {
    String message = assertThrows(LaunchException.class, () -> Feature.read(folder)).getMessage();
    assertTrue(message.contains("cannot be read"), message);
  }

  private Feature read(String text) throws IOException, LaunchException {
    return Feature.read(Files.writeString(folder.resolve("f.json"), text));
  }
}
