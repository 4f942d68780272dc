package siltwright.command;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Collection;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import java.util.function.Supplier;
import java.util.function.ToIntFunction;
import org.osgi.service.component.annotations.Activate;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Reference;
import org.osgi.service.component.annotations.ReferenceCardinality;
import org.osgi.service.component.annotations.ReferencePolicy;
import org.osgi.service.component.annotations.ReferencePolicyOption;
import siltwright.addons.Guard;
import siltwright.analysis.Action;
import siltwright.analysis.Analysis;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.HistorySource;
import siltwright.analysis.ReportWriter;
import siltwright.exchange.RecordsReader;
import siltwright.model.CostTerm;
import siltwright.model.LifeLaw;
import siltwright.model.LoadingLaw;
import siltwright.model.json.Extensions;
import siltwright.model.json.FleetFile;
import siltwright.model.json.FleetReader;

/** What the launcher calls with the arguments; returns the exit code. */
@Component(service = ToIntFunction.class, property = "siltwright.entry=command")
public final class CommandEntry implements ToIntFunction<String[]> {
  private final Guard guard;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Collection<Map.Entry<Map<String, Object>, Analysis>> analyses;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Collection<Map.Entry<Map<String, Object>, Action>> actions;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Collection<Map.Entry<Map<String, Object>, DocumentWriter>> documents;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Collection<Map.Entry<Map<String, Object>, LoadingLaw>> laws;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Collection<Map.Entry<Map<String, Object>, CostTerm>> terms;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Collection<Map.Entry<Map<String, Object>, LifeLaw>> lives;

  @Reference(
      cardinality = ReferenceCardinality.OPTIONAL,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile ReportWriter report;

  @Reference(
      cardinality = ReferenceCardinality.OPTIONAL,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile HistorySource histories;

  @Reference(
      target = "(siltwright.entry=open)",
      cardinality = ReferenceCardinality.OPTIONAL,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile ToIntFunction<String[]> window;

  @Reference(
      target = "(siltwright.entry=documents)",
      cardinality = ReferenceCardinality.OPTIONAL,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile ToIntFunction<String[]> later;

  @Reference(
      target = "(siltwright.entry=product)",
      cardinality = ReferenceCardinality.OPTIONAL,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Supplier<Map<String, String>> product;

  /**
   * Makes the entry.
   *
   * @param launcher calls add-ons under watch; null where there are none
   */
  @Activate
  public CommandEntry(
      @Reference(
              target = "(siltwright.entry=addons)",
              cardinality = ReferenceCardinality.OPTIONAL,
              policyOption = ReferencePolicyOption.GREEDY)
          BiFunction<Map<String, Object>, Callable<Object>, Object> launcher) {
    guard = new Guard(launcher);
  }

  private String version() {
    Supplier<Map<String, String>> told = product;
    return told == null ? "" : told.get().get("version");
  }

  @Override
  public int applyAsInt(String[] args) {
    // UTF-8 whatever the platform's charset is, so that output can be compared and read back.
    Console console =
        new Console(
            new PrintStream(System.out, false, StandardCharsets.UTF_8),
            new PrintStream(System.err, true, StandardCharsets.UTF_8),
            System.console() != null);
    Commands commands = commands(console);
    ToIntFunction<String[]> writers = later;
    if (writers != null && !commands.understands(args)) {
      int code = writers.applyAsInt(args);
      if (code != Commands.DONE) {
        return code;
      }
      commands = commands(console);
    }
    return run(commands, args);
  }

  private Commands commands(Console console) {
    return new Commands(
        version(),
        Guard.through(guard::analysis, analyses),
        Guard.through(guard::action, actions),
        Optional.ofNullable(report),
        Optional.ofNullable(window),
        Guard.through(guard::documents, documents),
        this::fleet,
        RecordsReader::read,
        Optional.ofNullable(histories),
        Clock.systemUTC(),
        console);
  }

  private FleetFile fleet(Path file) {
    // what follows is the balance of its machines
    Compiler.staySimple();
    return FleetReader.read(
        file,
        Extensions.of(
            () -> Guard.through(guard::loadingLaw, laws),
            () -> Guard.through(guard::costTerm, terms),
            () -> Guard.through(guard::lifeLaw, lives)));
  }

  private static int run(Commands commands, String... args) {
    Thread interrupt = new Thread(commands::cancel, "siltwright-interrupt");
    Runtime.getRuntime().addShutdownHook(interrupt);
    try {
      return commands.run(args);
    } finally {
      forget(interrupt);
    }
  }

  private static void forget(Thread hook) {
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException e) {
      // The program is being shut down: the hook is what got us here.
    }
  }
}
