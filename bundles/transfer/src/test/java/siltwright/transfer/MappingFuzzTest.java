package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.model.testing.Fuzz;
import siltwright.model.testing.Mutation;
import siltwright.store.Store;

/**
 * Whatever a kept mapping holds, a table is read by it or refused; a mapping that is refused is
 * told by its name, not as an option that nobody gave.
 */
class MappingFuzzTest {
  @TempDir Path folder;
  private Path empty;

  @BeforeEach
  void makeStore() {
    empty = folder.resolve("empty.db");
    Store.open(empty.toString(), Clock.systemUTC()).close();
  }

  @Test
  void anyMappingReadsATableOrIsRefused() throws Exception {
    Fuzz.of("mapping", Mutation.TEXT, this::read).run(250);
  }

  private Optional<String> read(Path file) throws IOException {
    String name = file.getFileName().toString();
    String body = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
    Mapping mapping;
    try {
      mapping = Mapping.of(body, name);
    } catch (InputException e) {
      return Optional.of(e.getMessage());
    }
    assertEquals(mapping, Mapping.of(mapping.toJson(), name));
    Path to = folder.resolve("to.db");
    Files.copy(empty, to, StandardCopyOption.REPLACE_EXISTING);
    ImportOptions options =
        new ImportOptions(Wishes.NONE, "ann", true, name, "kept again", Optional.empty());
    try (Store store = Store.open(to.toString(), Clock.systemUTC())) {
      store.act(
          "ann",
          "keep",
          name,
          edits -> {
            edits.keepMapping(name, body);
            return null;
          });
      for (String table : List.of("samples.csv", "drops.csv", "machines.csv")) {
        Path copy = folder.resolve(name + "-" + table);
        Files.copy(
            Path.of("src/test/resources/mapped", table), copy, StandardCopyOption.REPLACE_EXISTING);
        try {
          Importer importer = new Importer(copy, options);
          importer.preview(to.toString());
          importer.run(store, Progress.NONE);
          Mapping.of(store.mapping("kept again").orElseThrow(), "kept again");
        } catch (InputException e) {
          String told = e.getMessage(); // the rule is judged by what it does to a text
          Fuzz.assertWellTold(told.replace("option --machine-rule", name), file);
        }
      }
    }
    return Optional.empty();
  }
}
