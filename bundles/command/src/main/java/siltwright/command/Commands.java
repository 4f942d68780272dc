package siltwright.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;
import siltwright.addons.AddOnFault;
import siltwright.analysis.Action;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.HistorySource;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.ReportWriter;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.exchange.FurtherTables;
import siltwright.exchange.HistoryTable;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.Revision;
import siltwright.model.history.FleetHistory;
import siltwright.model.json.FleetFile;
import siltwright.model.json.FleetRevision;

/** Runs analyses as commands: reads the arguments and the file, computes, prints and writes. */
final class Commands {
  /** Exit code: done. */
  static final int DONE = 0;

  /** Exit code: the program is at fault. */
  static final int PROGRAM = 1;

  /** Exit code: the input or the options are at fault. */
  static final int INPUT = 2;

  private final Syntax syntax;
  private final Optional<ReportWriter> report;
  private final Optional<ToIntFunction<String[]>> window;
  private final Documents documents;
  private final Function<Path, FleetFile> reader;
  private final BiFunction<Path, List<RecordColumn>, Records> table;
  private final Optional<HistorySource> histories;
  private final Clock clock;
  private final Console console;
  private volatile boolean cancelled;

  /**
   * Makes the commands.
   *
   * @param version version of the program
   * @param analyses the analyses in any order
   * @param actions the actions in any order
   * @param report writes reports, where the product has them
   * @param window opens the window, where the product has one
   * @param writers write documents of single analyses
   * @param reader reads fleet files
   * @param table reads tables of records
   * @param histories opens histories, where the product keeps any
   * @param clock time of reports and progress
   * @param console where output goes
   */
  Commands(
      String version,
      Collection<Analysis> analyses,
      Collection<Action> actions,
      Optional<ReportWriter> report,
      Optional<ToIntFunction<String[]>> window,
      Collection<DocumentWriter> writers,
      Function<Path, FleetFile> reader,
      BiFunction<Path, List<RecordColumn>, Records> table,
      Optional<HistorySource> histories,
      Clock clock,
      Console console) {
    SortedMap<String, Analysis> byId = new TreeMap<>();
    for (Analysis a : analyses) {
      byId.putIfAbsent(a.description().id(), a);
    }
    this.documents = new Documents(writers);
    SortedMap<String, Action> actionsById = new TreeMap<>();
    for (Action a : actions) {
      if (!byId.containsKey(a.description().id())) {
        actionsById.putIfAbsent(a.description().id(), a);
      }
    }
    this.syntax =
        new Syntax(
            version,
            byId,
            actionsById,
            report.isPresent(),
            window.isPresent(),
            histories.isPresent(),
            documents);
    this.histories = histories;
    this.report = report;
    this.window = window;
    this.reader = reader;
    this.table = table;
    this.clock = clock;
    this.console = console;
  }

  /**
   * Whether the arguments are understood, and are no question about the options that there are, of
   * which more may come with what writes documents.
   */
  boolean understands(String... args) {
    try {
      return !(syntax.read(args) instanceof Request.Show show && show.options());
    } catch (InputException e) {
      return false;
    }
  }

  /** Asks the run to stop. */
  void cancel() {
    cancelled = true;
  }

  /** Does what the arguments ask for and returns the exit code; throws nothing. */
  int run(String... args) {
    Optional<String> log = Optional.empty();
    int code;
    try {
      Request request = syntax.read(args);
      if (request instanceof Request.Run run) {
        log = run.option(Syntax.LOG);
        code = perform(run);
      } else if (request instanceof Request.Act act) {
        log = act.option(Syntax.LOG);
        code = perform(act);
      } else if (request instanceof Request.Open open) {
        String[] file = open.file().stream().toArray(String[]::new);
        code = window.orElseThrow().applyAsInt(file);
      } else {
        console.out().print(((Request.Show) request).text());
        code = DONE;
      }
    } catch (InputException e) {
      e.problems().forEach(this::tell);
      code = INPUT;
    } catch (CancellationException e) {
      console.err().print("siltwright: cancelled\n");
      code = PROGRAM;
    } catch (RuntimeException | Error e) {
      // the launcher told of an add-on that it set aside
      if (AddOnFault.behind(e) == null) {
        fault(e, log);
      }
      code = PROGRAM;
    }
    console.err().flush();
    if (console.out().checkError()) {
      console.err().print("siltwright: standard output was closed before all was written\n");
      console.err().flush();
      code = PROGRAM;
    }
    return code;
  }

  private int perform(Request.Run run) {
    Description d = run.analysis().description();
    Values values = Values.of(d, run.texts());
    Optional<Path> page = run.option(Syntax.REPORT).map(t -> path("--" + Syntax.REPORT, t));
    page.ifPresent(p -> checkParent("--" + Syntax.REPORT, p));
    Optional<Path> folder = run.option(Syntax.CSV).map(t -> path("--" + Syntax.CSV, t));
    folder.ifPresent(p -> checkFolder("--" + Syntax.CSV, p));
    List<Documents.Asked> asked = documents.asked(run);
    asked.forEach(this::checkPlace);

    Outcome outcome = compute(run, values);
    outcome.problems().forEach(this::tell);
    if (page.isPresent() || run.option(Syntax.JSON).isPresent()) {
      outcome.results().parallelStream().forEach(of -> of.result().figures());
    }
    boolean machines = d.scope() == Scope.MACHINE && run.option(Syntax.MACHINE).isEmpty();
    print(d, outcome, run.option(Syntax.JSON).isPresent(), machines);
    revise(d, values, outcome);
    folder.ifPresent(f -> writeTables(outcome, f, machines));
    page.ifPresent(p -> writeReport(d, outcome, p));
    asked.forEach(a -> writeDocument(a, outcome));
    return outcome.problems().isEmpty() ? DONE : INPUT;
  }

  private int perform(Request.Act act) {
    Description d = act.action().description();
    Values values = Values.of(d, act.texts());
    String file = act.option(Syntax.FILE).orElse("");
    Result result;
    try (ProgressLine progress = progress(1)) {
      result = act.action().run(file, values, progress.part(0));
    }
    List<Problem> problems = result.rows().map(rows -> refusals(file, rows)).orElse(List.of());
    Outcome outcome =
        new Outcome(
            file, file, values, List.of(new Outcome.Of("", file, result, Context.NONE)), problems);
    problems.forEach(this::tell);
    print(d, outcome, act.option(Syntax.JSON).isPresent(), false);
    return problems.isEmpty() ? DONE : INPUT;
  }

  private Outcome compute(Request.Run run, Values values) {
    Analysis analysis = run.analysis();
    Scope scope = analysis.description().scope();
    if (scope == Scope.NONE) {
      return single("", "", values, List.of(), analysis, Context.NONE);
    }
    String file = run.option(Syntax.FILE).orElseThrow();
    if (scope == Scope.RECORDS) {
      return ofRecords(file, run.option(Syntax.ROWS), values, analysis);
    }
    if (scope == Scope.HISTORY) {
      return ofHistory(file, values, analysis);
    }
    FleetFile read = reader.apply(path(Syntax.FILE, file));
    Fleet fleet = read.fleet();
    if (scope == Scope.FLEET) {
      if (fleet.machines().isEmpty() && !read.problems().isEmpty()) {
        throw new InputException(read.problems());
      }
      Context context = Context.of(fleet, FurtherTables.named(analysis.description(), values));
      return single(file, fleet.name(), values, read.problems(), analysis, context);
    }
    Optional<String> id = run.option(Syntax.MACHINE);
    if (id.isPresent()) {
      Machine m = machine(read, id.get());
      return single(file, m.name(), values, List.of(), analysis, Context.of(fleet, m));
    }
    try (ProgressLine progress = progress(fleet.machines().size())) {
      return new FleetRun(analysis, fleet, file, values, progress)
          .run(Runtime.getRuntime().availableProcessors(), read.problems());
    }
  }

  private Outcome ofHistory(String store, Values values, Analysis analysis) {
    HistorySource source =
        histories.orElseThrow(
            () ->
                new InputException(
                    new Problem(store, "", "", "a product with a store, which this one is not")));
    try (FleetHistory history = source.open(store)) {
      return single(store, store, values, List.of(), analysis, Context.of(history));
    }
  }

  private Outcome ofRecords(String file, Optional<String> rows, Values values, Analysis analysis) {
    if (rows.isEmpty() && histories.filter(h -> h.knows(file)).isPresent()) {
      throw new InputException(
          new Problem(
              "option",
              "--" + Syntax.ROWS,
              "nothing",
              "what a row is, since " + file + " is a store: " + HistoryTable.words()));
    }
    Optional<FleetFile> fleet = fleetFile(analysis.description(), values).map(reader);
    List<RecordColumn> columns = analysis.columns(values);
    Optional<Path> path =
        rows.isPresent() ? Optional.empty() : Optional.of(path(Syntax.FILE, file));
    Records records =
        path.isPresent() ? table.apply(path.get(), columns) : ofStore(file, rows.get(), columns);
    Outcome outcome =
        single(
            file,
            file,
            values,
            List.of(),
            analysis,
            Context.of(
                records,
                fleet.map(FleetFile::fleet),
                FurtherTables.named(analysis.description(), values),
                FurtherTables.inFolder(analysis.description(), values, path, columns)));
    List<Problem> problems = new ArrayList<>(fleet.map(FleetFile::problems).orElse(List.of()));
    for (Outcome.Of of : outcome.results()) {
      of.result().rows().ifPresent(r -> problems.addAll(refusals(file, r)));
    }
    return new Outcome(file, outcome.title(), values, outcome.results(), problems);
  }

  private Records ofStore(String store, String rows, List<RecordColumn> columns) {
    try (FleetHistory history = histories.orElseThrow().open(store)) {
      return HistoryTable.read(store, history, rows, columns);
    }
  }

  private static List<Problem> refusals(String file, Result.Rows rows) {
    List<Problem> problems = new ArrayList<>(rows.refusals());
    int more = rows.refused() - problems.size();
    if (more > 0) {
      problems.add(new Problem(file, "", more + " more rows at fault", "rows as those before"));
    }
    if (rows.refused() > 0) {
      String counts = rows.refused() + " of " + rows.read() + " rows that are left out";
      problems.add(new Problem(file, "", counts, "none; the other " + rows.kept() + " are kept"));
    }
    return problems;
  }

  private static Optional<Path> fleetFile(Description d, Values values) {
    return d.parameters().stream()
        .filter(FleetFileParameter.class::isInstance)
        .flatMap(p -> values.find(p).stream().map(v -> path("--" + p.name(), v.toString())))
        .findFirst();
  }

  /** Makes the result's revisions in the fleet file that an option names. */
  private void revise(Description d, Values values, Outcome outcome) {
    Optional<Path> file = fleetFile(d, values);
    List<Revision> revisions =
        outcome.results().stream().flatMap(of -> of.result().revisions().stream()).toList();
    if (file.isEmpty() || revisions.isEmpty()) {
      return;
    }
    Path fleet = file.get();
    try {
      byte[] bytes = Files.readAllBytes(fleet);
      WholeFile.write(fleet, FleetRevision.revised(bytes, fleet.toString(), revisions));
    } catch (IOException e) {
      throw notWritten(fleet, e);
    }
    long machines = revisions.stream().map(Revision::machine).distinct().count();
    long numbers = revisions.stream().mapToLong(r -> r.numbers().size()).sum();
    note(fleet + ": " + numbers + " numbers of " + machines + " machines revised");
  }

  private Outcome single(
      String file,
      String name,
      Values values,
      List<Problem> problems,
      Analysis analysis,
      Context context) {
    try (ProgressLine progress = progress(1)) {
      Result result = analysis.run(context, values, progress.part(0));
      String id = context.selected().map(Machine::id).orElse("");
      return new Outcome(
          file, name, values, List.of(new Outcome.Of(id, name, result, context)), problems);
    }
  }

  private ProgressLine progress(int parts) {
    return new ProgressLine(console, clock, () -> cancelled, parts);
  }

  private Machine machine(FleetFile read, String id) {
    Optional<Machine> machine = read.fleet().machine(id);
    if (machine.isPresent()) {
      return machine.get();
    }
    // The machine may be one that was left out: its problems say so.
    List<Problem> problems = new ArrayList<>(read.problems());
    String ids =
        read.fleet().machines().stream().map(Machine::id).collect(Collectors.joining(", "));
    problems.add(
        new Problem(
            "option",
            "--" + Syntax.MACHINE,
            id,
            ids.isEmpty() ? "a machine of the file, which has none" : "one of " + ids));
    throw new InputException(problems);
  }

  private void print(Description d, Outcome outcome, boolean json, boolean machines) {
    if (json) {
      console.out().print(machines ? JsonResult.ofMachines(d, outcome) : JsonResult.of(outcome));
      return;
    }
    String between = "";
    for (Outcome.Of of : outcome.results()) {
      String subject = (of.id() + " " + of.name()).strip();
      String heading = subject.isEmpty() ? d.title() : d.title() + ": " + subject;
      console.out().print(between + TextResult.of(heading, of.result()));
      between = "\n";
    }
    if (outcome.results().size() > 1) {
      console.out().print(between + TextOverview.of(d.title() + ": " + outcome.title(), outcome));
    }
  }

  private void writeTables(Outcome outcome, Path folder, boolean machines) {
    for (Outcome.Of of : outcome.results()) {
      Path to = machines ? folder.resolve(of.id()) : folder;
      try {
        CsvTables.write(of.result(), to);
      } catch (IOException | UncheckedIOException e) {
        throw notWritten(to, e);
      }
    }
    note("tables written to " + folder);
  }

  private void writeReport(Description d, Outcome outcome, Path page) {
    String title = outcome.title().isEmpty() ? d.title() : d.title() + ": " + outcome.title();
    List<Result> results = outcome.results().stream().map(Outcome.Of::result).toList();
    try {
      WholeFile.write(
          page,
          out ->
              report
                  .orElseThrow()
                  .write(title, outcome.file(), clock.instant(), results, outcome.problems(), out));
    } catch (IOException | UncheckedIOException e) {
      throw notWritten(page, e);
    }
    note("report written to " + page);
  }

  private void checkPlace(Documents.Asked asked) {
    if (asked.ending().isEmpty()) {
      checkFolder(asked.option(), asked.place());
    } else {
      checkParent(asked.option(), asked.place());
    }
  }

  private void writeDocument(Documents.Asked asked, Outcome outcome) {
    if (outcome.results().isEmpty()) {
      return;
    }
    List<Context> contexts = outcome.results().stream().map(Outcome.Of::context).toList();
    List<DocumentWriter.Output> files;
    try (ProgressLine progress = progress(1)) {
      files = asked.writer().write(asked.ending(), contexts, outcome.values(), progress.part(0));
    }
    for (DocumentWriter.Output file : files) {
      Path to = asked.ending().isEmpty() ? asked.place().resolve(file.name()) : asked.place();
      try {
        if (asked.ending().isEmpty()) {
          Files.createDirectories(to.getParent());
        }
        WholeFile.put(to, file.content());
      } catch (IOException e) {
        throw notWritten(to, e);
      }
    }
    note(asked.writer().form().option() + " written to " + asked.place());
  }

  private static InputException notWritten(Path path, Exception e) {
    return new InputException(
        new Problem(path.toString(), "", "", "a place that can be written to (" + why(e) + ")"));
  }

  private static String why(Exception e) {
    Throwable cause = e instanceof UncheckedIOException ? e.getCause() : e;
    if (cause instanceof NoSuchFileException) {
      return "there is no such folder";
    }
    if (cause instanceof AccessDeniedException) {
      return "not permitted";
    }
    return cause instanceof FileSystemException f && f.getReason() != null
        ? f.getReason()
        : String.valueOf(cause.getMessage());
  }

  static Path path(String option, String text) {
    try {
      return Path.of(text);
    } catch (InvalidPathException e) {
      throw new InputException(new Problem("option", option, text, "the name of a file"));
    }
  }

  private static void checkParent(String option, Path path) {
    Path parent = path.toAbsolutePath().getParent();
    if (parent == null || !Files.isDirectory(parent)) {
      throw new InputException(
          new Problem("option", option, path.toString(), "a file in a folder that is there"));
    }
    if (Files.isDirectory(path)) {
      throw new InputException(
          new Problem("option", option, path.toString(), "a file, not a folder"));
    }
  }

  private static void checkFolder(String option, Path path) {
    if (!Files.isDirectory(path)) {
      if (Files.exists(path)) {
        throw new InputException(
            new Problem("option", option, path.toString(), "a folder, not a file"));
      }
      checkParent(option, path);
    }
  }

  private void tell(Problem problem) {
    console.err().print(Text.clean(problem.toString()) + "\n");
  }

  private void note(String text) {
    console.err().print(Text.clean(text) + "\n");
  }

  private void fault(Throwable e, Optional<String> log) {
    Throwable deepest = e;
    while (deepest.getCause() != null) {
      deepest = deepest.getCause();
    }
    if (deepest instanceof OutOfMemoryError) {
      note(
          "siltwright: not enough memory: "
              + (Runtime.getRuntime().maxMemory() >> 20)
              + " MiB are too little for this; the option -Xmx2g of Java, or a greater number, gives"
              + " more");
      return;
    }
    StackTraceElement[] trace = deepest.getStackTrace();
    StringBuilder line = new StringBuilder("siltwright: fault of the program: ");
    line.append(e == deepest ? "" : e.getMessage() + ": ").append(deepest);
    if (trace.length > 0) {
      line.append(" at ").append(trace[0]);
    }
    line.append("; please report this line");
    if (log.isEmpty()) {
      line.append("; --log FILE writes the details");
    } else {
      line.append(written(e, log.get()));
    }
    note(line.toString());
  }

  private static String written(Throwable e, String log) {
    try {
      WholeFile.write(Path.of(log), out -> e.printStackTrace(new PrintWriter(out, true)));
      return " with " + log;
    } catch (IOException | RuntimeException cannot) {
      return "; " + log + " cannot be written";
    }
  }
}
