package siltwright.command;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.function.ToIntFunction;
import java.util.jar.Manifest;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Reference;
import org.osgi.service.component.annotations.ReferenceCardinality;
import org.osgi.service.component.annotations.ReferencePolicy;
import org.osgi.service.component.annotations.ReferencePolicyOption;
import siltwright.analysis.Action;
import siltwright.analysis.Analysis;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.HistorySource;
import siltwright.analysis.ReportWriter;
import siltwright.exchange.RecordsReader;
import siltwright.model.json.FleetReader;

/** What the launcher calls with the arguments; returns the exit code. */
@Component(service = ToIntFunction.class, property = "siltwright.entry=command")
public final class CommandEntry implements ToIntFunction<String[]> {
  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile List<Analysis> analyses;

  @Reference(
      cardinality = ReferenceCardinality.OPTIONAL,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile ReportWriter report;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile List<DocumentWriter> documents;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile List<Action> actions;

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

  /** The version that the bundle's own manifest states. */
  private static String version() {
    try (InputStream in = CommandEntry.class.getResourceAsStream("/META-INF/MANIFEST.MF")) {
      String stated = new Manifest(in).getMainAttributes().getValue("Bundle-Version");
      return stated == null ? "" : stated;
    } catch (IOException e) {
      throw new IllegalStateException("the command bundle's manifest cannot be read", e);
    }
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
        analyses,
        actions,
        Optional.ofNullable(report),
        Optional.ofNullable(window),
        documents,
        FleetReader::read,
        RecordsReader::read,
        Optional.ofNullable(histories),
        Clock.systemUTC(),
        console);
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
