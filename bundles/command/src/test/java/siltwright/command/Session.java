package siltwright.command;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import siltwright.analysis.Action;
import siltwright.analysis.Analysis;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.ReportWriter;
import siltwright.exchange.RecordsReader;
import siltwright.model.Bands;
import siltwright.model.Fleet;
import siltwright.model.Ingress;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.json.FleetFile;

/** A command line with made-up analyses, whose output is caught. */
final class Session {
  private final ByteArrayOutputStream outBytes = new ByteArrayOutputStream();
  private final ByteArrayOutputStream errBytes = new ByteArrayOutputStream();
  private final List<Analysis> analyses = new ArrayList<>();
  private final List<Action> actions = new ArrayList<>();
  private final List<DocumentWriter> documents = new ArrayList<>();
  private Optional<ReportWriter> report = Optional.empty();
  private Optional<ToIntFunction<String[]>> window = Optional.empty();
  private Function<Path, FleetFile> reader = path -> fleet(List.of(), "m1", "m2", "m3");
  private Clock clock = Clock.fixed(Instant.parse("2026-01-02T03:04:05Z"), ZoneOffset.UTC);
  private boolean terminal;

  Session(Analysis... analyses) {
    this.analyses.addAll(Arrays.asList(analyses));
  }

  Session with(Action action) {
    actions.add(action);
    return this;
  }

  Session with(ReportWriter page) {
    report = Optional.of(page);
    return this;
  }

  Session opening(ToIntFunction<String[]> opener) {
    window = Optional.of(opener);
    return this;
  }

  Session with(DocumentWriter writer) {
    documents.add(writer);
    return this;
  }

  Session reading(Function<Path, FleetFile> other) {
    reader = other;
    return this;
  }

  Session watchedAt(Clock other) {
    clock = other;
    terminal = true;
    return this;
  }

  Commands commands() {
    Console console =
        new Console(
            new PrintStream(outBytes, false, StandardCharsets.UTF_8),
            new PrintStream(errBytes, false, StandardCharsets.UTF_8),
            terminal);
    return new Commands(
        "1.2.3",
        analyses,
        actions,
        report,
        window,
        documents,
        reader,
        RecordsReader::read,
        Optional.empty(),
        clock,
        console);
  }

  int run(String... args) {
    outBytes.reset();
    errBytes.reset();
    return commands().run(args);
  }

  String out() {
    return outBytes.toString(StandardCharsets.UTF_8);
  }

  String err() {
    return errBytes.toString(StandardCharsets.UTF_8);
  }

  static FleetFile fleet(List<Problem> problems, String... ids) {
    List<Machine> machines = Arrays.stream(ids).map(Session::machine).toList();
    return new FleetFile(new Fleet("Made-up fleet", "", "EUR", List.of(), machines), problems);
  }

  private static Machine machine(String id) {
    return new Machine(
        id,
        "Machine " + id.substring(1),
        "class",
        "site",
        null,
        null,
        List.of(),
        1,
        null,
        Optional.empty(),
        Optional.empty(),
        new Ingress(List.of(), List.of()),
        Bands.ZERO,
        Optional.empty(),
        List.of(),
        List.of(),
        null,
        null,
        null,
        Optional.empty(),
        null,
        Bands.ZERO,
        List.of());
  }
}
