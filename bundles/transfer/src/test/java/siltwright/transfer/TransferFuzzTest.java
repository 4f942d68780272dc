package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.RecordKind;
import siltwright.model.testing.Fuzz;
import siltwright.model.testing.Mutation;
import siltwright.store.Store;

/**
 * Whatever a file to be brought into a store holds, it comes in or is refused; what came in,
 * written by export and brought into another store, is the same there.
 */
class TransferFuzzTest {
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-01-02T03:04:05Z"), ZoneOffset.UTC);

  /** More files than a corpus has. */
  private static final int FIRST = 40;

  @TempDir Path folder;
  private Path empty;
  private int rounds;

  @BeforeEach
  void makeStore() {
    empty = folder.resolve("empty.db");
    Store.open(empty.toString(), CLOCK).close();
  }

  @Test
  void anyTextComesInOrIsRefused() throws Exception {
    Fuzz.of("table", Mutation.TEXT, this::read).run(60);
  }

  @Test
  void anySpreadsheetComesInOrIsRefused() throws Exception {
    Fuzz.of("spreadsheet", Mutation.ZIP, this::read).run(60);
  }

  @Test
  void anyParquetComesInOrIsRefused() throws Exception {
    Fuzz.of("parquet", Mutation.BYTES, this::read)
        .with(Path.of("src/test/resources/laboratory.parquet"))
        .run(60);
  }

  @Test
  void anyDocumentComesInOrIsRefused() throws Exception {
    Fuzz.of("telematics", Mutation.TEXT, this::read).run(60);
  }

  private Optional<String> read(Path file) throws IOException {
    rounds++;
    Path first = folder.resolve("first.db");
    try {
      bring(file, first);
    } catch (InputException e) {
      return Optional.of(e.getMessage());
    }
    if (rounds > FIRST && rounds % 4 > 0) {
      return Optional.empty(); // to write and read it all again takes most of the time
    }
    List<Path> written = export(first, "first", rounds % 3);
    Path second = folder.resolve("second.db");
    Files.copy(empty, second, StandardCopyOption.REPLACE_EXISTING);
    Files.writeString(folder.resolve("machines.csv"), machines(first));
    add(folder.resolve("machines.csv"), second);
    for (Path out : written) {
      ImportReport report = add(out, second);
      assertEquals(0, report.refused(), () -> out + ": " + report.problems());
    }
    assertEquals(machines(first), machines(second));
    List<Path> again = export(second, "second", 0);
    for (Path out : export(first, "first", 0)) {
      Path other = out.resolveSibling(out.getFileName().toString().replace("first", "second"));
      assertEquals(Files.readString(out), Files.readString(other));
    }
    for (List<Path> files : List.of(written, again)) {
      for (Path out : files) {
        Files.deleteIfExists(out);
      }
    }
    return Optional.empty();
  }

  private void bring(Path file, Path store) throws IOException {
    Files.copy(empty, store, StandardCopyOption.REPLACE_EXISTING);
    Importer importer = new Importer(file, Bench.options(Wishes.NONE));
    if (importer.isTable()) {
      importer.sheets();
      Preview preview = importer.preview(folder.resolve("none.db").toString());
      preview.questions().forEach(q -> Fuzz.assertWellTold(q.toString(), file));
    }
    ImportReport report = add(file, store);
    report.problems().forEach(p -> Fuzz.assertWellTold(p.toString(), file));
  }

  private ImportReport add(Path file, Path store) {
    try (Store to = Store.open(store.toString(), CLOCK)) {
      ImportReport report = new Importer(file, Bench.options(Wishes.NONE)).run(to, Progress.NONE);
      try (FleetHistory history = to.history()) {
        Importer.mends(report, history);
      }
      return report;
    }
  }

  /** The machines with what is known of them, as a table. */
  private static String machines(Path store) {
    try (FleetHistory history = Store.read(store.toString())) {
      List<String> lines = new ArrayList<>(List.of("machine,serial,name,class,site,zone"));
      history
          .machines()
          .forEach(
              m ->
                  lines.add(
                      String.join(
                          ",",
                          quoted(m.id()),
                          quoted(m.serial()),
                          quoted(m.name()),
                          quoted(m.machineClass()),
                          quoted(m.site()),
                          m.zone().equals(ZoneOffset.UTC) ? "" : quoted(m.zone().toString()))));
      return String.join("\n", lines) + "\n";
    }
  }

  private static String quoted(String text) {
    return '"' + text.replace("\"", "\"\"") + '"';
  }

  /** Writes all kinds of record, as CSV, Parquet or spreadsheets. */
  private List<Path> export(Path store, String name, int form) throws IOException {
    List<Path> files = new ArrayList<>();
    try (FleetHistory history = Store.read(store.toString())) {
      for (RecordKind kind : RecordKind.values()) {
        if (history.count(kind, "") > 0) {
          Path to =
              folder.resolve(name + "-" + kind + List.of(".csv", ".parquet", ".xlsx").get(form));
          Files.deleteIfExists(to);
          Exporter exporter = new Exporter(history, List.of(kind), "", Progress.NONE);
          switch (form) {
            case 0 -> exporter.csv(kind, to);
            case 1 -> exporter.parquet(kind, to);
            default -> exporter.xlsx(to);
          }
          files.add(to);
        }
      }
    }
    return files;
  }
}
