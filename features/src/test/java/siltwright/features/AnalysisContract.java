package siltwright.features;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.lang.reflect.Array;
import java.lang.reflect.RecordComponent;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BiFunction;
import java.util.function.Supplier;
import org.osgi.framework.BundleContext;
import org.osgi.framework.FrameworkUtil;
import org.osgi.framework.InvalidSyntaxException;
import org.osgi.framework.ServiceReference;
import siltwright.analysis.Action;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.HistorySource;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Panel;
import siltwright.analysis.Parameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.exchange.RecordsReader;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.json.FleetReader;

/**
 * What every analysis keeps to, looked at inside the product: it sees the services that users get.
 * Takes the names of a fleet file and of a table of records; returns what each analysis breaks, by
 * the command that runs it on these.
 */
public final class AnalysisContract
    implements BiFunction<String, String, Map<String, List<String>>> {

  /** Stands for the fleet file among the values that analyses need. */
  private static final String FLEET = "FLEET";

  /** What analyses cannot run without. A new analysis with required parameters is added here. */
  private static final Map<String, Map<String, String>> NEEDED =
      Map.ofEntries(
          Map.entry("code", Map.of("counts", "4=1950,6=420,14=61")),
          Map.entry("compare", Map.of("by", "depot")),
          Map.entry("plan", Map.of("from", "2026-03-02")),
          Map.entry(
              "seal-ring",
              Map.of(
                  "original-section",
                  "3.53",
                  "section",
                  "3.3",
                  "groove-depth",
                  "2.8",
                  "groove-width",
                  "4.8",
                  "inside-diameter",
                  "110")),
          Map.entry("plug-torque", Map.of("diameter", "22", "pitch", "1.5", "turns", "4")),
          Map.entry("vent-time", Map.of("air", "60", "vent-bore", "4")),
          Map.entry(
              "bearing",
              Map.of(
                  "code",
                  "18/16/13",
                  "pitch-diameter",
                  "65",
                  "dynamic-rating",
                  "30",
                  "load",
                  "3",
                  "fatigue-limit",
                  "0.7",
                  "speed",
                  "1500",
                  "viscosity",
                  "30")),
          Map.entry("element", Map.of("limit-kPa", "130")),
          Map.entry("restart", Map.of("fleet", FLEET)),
          Map.entry("shed-cost", Map.of("fleet", FLEET)),
          Map.entry("fit", Map.of("fleet", FLEET)),
          Map.entry("counter", Map.of("fleet", FLEET, "of", "EX-12")),
          Map.entry("sampling", Map.of("draws", "60")));

  /** Tables, beside the one given, for analyses that read other columns. */
  private static final Map<String, String> TABLES =
      Map.of(
          "card-record", "filled-cards.csv",
          "element", "pit-element.csv",
          "restart", "pit-samples.csv",
          "shed-cost", "pit-samples.csv",
          "counter", "pit-counter.csv",
          "fit", "pit-samples.csv",
          "samples", "pit-samples.csv");

  /** Numbers that have no unit, and may say so: how many, a code's numbers, shapes and ratios. */
  private static final Set<String> BARE =
      Set.of(
          // how many
          "draws",
          "cycle",
          "passing",
          "failures",
          "components",
          // classes and scale numbers
          "as4059Class",
          "nas1638",
          "scaleNumber",
          // the filtration ratio, β
          "equivalentBeta",
          "beta4",
          "beta6",
          "beta14",
          "beta21",
          "beta38",
          "beta70");

  private static final String BAD_TEXT = "?~no such thing~?";

  @Override
  public Map<String, List<String>> apply(String fleetFile, String table) {
    Fleet fleet = FleetReader.read(Path.of(fleetFile)).fleet();
    Map<String, List<String>> breaches = new TreeMap<>();
    keepStore(fleetFile, table);
    for (Analysis analysis : analyses()) {
      Check check = new Check(analysis, fleet, fleetFile, table);
      breaches.put(check.command(fleetFile), check.breaches());
    }
    return breaches;
  }

  /** Makes a store of the fleet, for analyses of a history. */
  private static void keepStore(String fleetFile, String table) {
    Action bring = service(Action.class, "import");
    if (bring != null) {
      Values values = Values.of(bring.description(), Map.of("store", store(table)));
      bring.run(fleetFile, values, Progress.NONE);
    }
  }

  private static String store(String beside) {
    return Path.of(beside).resolveSibling("contract.db").toString();
  }

  private static <T> T service(Class<T> type, String id) {
    BundleContext context = FrameworkUtil.getBundle(AnalysisContract.class).getBundleContext();
    try {
      for (ServiceReference<T> r : context.getServiceReferences(type, null)) {
        T service = context.getService(r);
        if (id == null || ((Action) service).description().id().equals(id)) {
          return service;
        }
      }
      return null;
    } catch (InvalidSyntaxException e) {
      throw new IllegalStateException(e);
    }
  }

  private static List<Analysis> analyses() {
    BundleContext context = FrameworkUtil.getBundle(AnalysisContract.class).getBundleContext();
    List<Analysis> analyses = new ArrayList<>();
    try {
      for (ServiceReference<Analysis> r : context.getServiceReferences(Analysis.class, null)) {
        analyses.add(context.getService(r));
      }
    } catch (InvalidSyntaxException e) {
      throw new IllegalStateException(e);
    }
    return analyses;
  }

  /** One analysis held against the contract. */
  private static final class Check {
    private final Analysis analysis;
    private final Description description;
    private final Fleet fleet;
    private final String table;
    private final Map<String, String> needed;
    private final List<String> breaches = new ArrayList<>();

    Check(Analysis analysis, Fleet fleet, String fleetFile, String table) {
      this.analysis = analysis;
      this.description = analysis.description();
      this.fleet = fleet;
      this.table =
          Optional.ofNullable(TABLES.get(description.id()))
              .map(name -> Path.of(table).resolveSibling(name).toString())
              .orElse(table);
      needed = new TreeMap<>(NEEDED.getOrDefault(description.id(), Map.of()));
      needed.replaceAll((name, value) -> value.equals(FLEET) ? fleetFile : value);
    }

    String command(String fleetFile) {
      StringBuilder command = new StringBuilder(description.id());
      if (description.scope() == Scope.RECORDS) {
        command.append(' ').append(table);
      } else if (description.scope() == Scope.HISTORY) {
        command.append(' ').append(store(table));
      } else if (description.scope() != Scope.NONE) {
        command.append(' ').append(fleetFile);
      }
      needed.forEach((name, value) -> command.append(" --").append(name).append(' ').append(value));
      return command.toString();
    }

    List<String> breaches() {
      PrintStream out = System.out;
      PrintStream err = System.err;
      ByteArrayOutputStream printed = new ByteArrayOutputStream();
      System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
      System.setErr(System.out);
      try {
        run();
      } catch (RuntimeException e) {
        breaches.add("fails: " + e);
      } finally {
        System.setOut(out);
        System.setErr(err);
      }
      if (printed.size() > 0) {
        breaches.add("prints: " + printed.toString(StandardCharsets.UTF_8));
      }
      return breaches;
    }

    private void run() {
      for (Parameter<?> p : description.parameters()) {
        if (p instanceof NumberParameter n && n.unit().isEmpty()) {
          breaches.add("parameter " + n.name() + " has no unit; 1 for a ratio");
        }
        if (!p.name().matches("[a-z][a-z0-9]*(-[A-Za-z0-9]+)*") || p.meaning().isBlank()) {
          breaches.add(
              "parameter " + p.name() + ": lower case words or a unit, hyphens, and a meaning");
        }
      }
      Values values = Values.of(description, needed);
      CompletableFuture<String> other =
          CompletableFuture.supplyAsync(
              () -> text(analysis.run(context(values), values, Progress.NONE)));
      Result result = analysis.run(context(values), values, Progress.NONE);
      if (!text(result).equals(other.join())) {
        breaches.add("two threads get different results");
      }
      units(result);
      names(result);
      cancels(values);
      badValues();
    }

    private Context context(Values values) {
      if (description.scope() == Scope.HISTORY) {
        return Context.of(service(HistorySource.class, null).open(store(table)));
      }
      // No switch: its hidden class would have to be put into the bundle.
      if (description.scope() == Scope.NONE) {
        return Context.NONE;
      }
      if (description.scope() == Scope.MACHINE) {
        return Context.of(fleet, fleet.machines().get(0));
      }
      if (description.scope() == Scope.FLEET) {
        return Context.of(fleet);
      }
      return Context.of(
          RecordsReader.read(Path.of(table), analysis.columns(values)),
          needed.containsKey("fleet") ? Optional.of(fleet) : Optional.empty());
    }

    private void units(Result result) {
      for (Entry entry : result.entries()) {
        if (entry instanceof Entry.Value v) {
          unit("value", v.name(), v.unit(), List.of(v.cell()));
        } else if (entry instanceof Entry.Group g) {
          g.values().forEach(v -> unit("value", v.name(), v.unit(), List.of(v.cell())));
        } else if (entry instanceof Entry.Table t) {
          for (int c = 0; c < t.columns().size(); c++) {
            int column = c;
            Entry.Column head = t.columns().get(c);
            List<Cell> cells = t.rows().stream().map(row -> row.get(column)).toList();
            unit("column " + t.name() + " of", head.name(), head.unit(), cells);
          }
        }
      }
      for (Figure f : result.figures()) {
        axis(f, f.x());
        for (Panel p : f.panels()) {
          axis(f, p.y());
        }
      }
    }

    private void unit(String what, String name, String unit, List<Cell> cells) {
      boolean numeric =
          cells.stream()
              .anyMatch(
                  c ->
                      c instanceof Cell.Num
                          || c instanceof Cell.Range
                          || c instanceof Cell.Numbers
                          || c instanceof Cell.Named);
      if (numeric && unit.isEmpty() && !BARE.contains(name)) {
        breaches.add(what + " " + name + " has no unit; 1 for a ratio");
      }
    }

    private void axis(Figure f, Axis axis) {
      if (axis.unit().isEmpty()) {
        breaches.add("axis " + axis.label() + " of figure " + f.name() + " has no unit");
      }
    }

    private void names(Result result) {
      Set<String> names = new HashSet<>();
      for (Entry e : result.entries()) {
        if (!names.add(e.name())) {
          breaches.add("two entries are called " + e.name());
        }
      }
    }

    /** Asked to stop, a run stops at once; a run that never asks is over soon. */
    private void cancels(Values values) {
      AtomicInteger asked = new AtomicInteger();
      try {
        analysis.run(
            context(values),
            values,
            (share, doing) -> {
              asked.incrementAndGet();
              return false;
            });
        if (asked.get() > 0) {
          breaches.add("goes on although it was asked to stop");
        } else if (description.scope() != Scope.NONE) {
          breaches.add("never asks whether to go on");
        }
      } catch (CancellationException e) {
        if (asked.get() != 1) {
          breaches.add("was asked to stop " + asked.get() + " times");
        }
      }
    }

    private void badValues() {
      refuses("no-such-parameter", "1");
      for (Parameter<?> p : description.parameters()) {
        if (p instanceof NumberParameter n) {
          for (String bad : List.of("many", "NaN", above(n.high()), below(n.low()))) {
            refuses(p.name(), bad);
          }
        } else if (p instanceof WholeParameter w) {
          refuses(p.name(), "1.5");
          refuses(p.name(), Long.toString(w.low() - 1));
        } else if (p instanceof ChoiceParameter || p instanceof TextParameter) {
          refuses(p.name(), BAD_TEXT);
        }
      }
    }

    private static String above(double high) {
      return Double.toString(high + Math.max(1, Math.abs(high)));
    }

    private static String below(double low) {
      return Double.toString(low - Math.max(1, Math.abs(low)));
    }

    private void refuses(String parameter, String bad) {
      Map<String, String> texts = new HashMap<>(needed);
      texts.put(parameter, bad);
      try {
        Values values = Values.of(description, texts);
        analysis.run(context(values), values, Progress.NONE);
        breaches.add("takes " + bad + " for --" + parameter);
      } catch (InputException e) {
        String said = e.problems().get(0).toString();
        if (e.problems().size() != 1 || !said.contains(parameter) && !said.contains(bad)) {
          breaches.add("of " + bad + " for --" + parameter + " it says " + e.problems());
        }
      } catch (RuntimeException e) {
        breaches.add("of " + bad + " for --" + parameter + " it makes " + e);
      }
    }
  }

  /** Returns all that a result holds, arrays written out. */
  private static String text(Object part) {
    if (part instanceof Record) {
      StringBuilder text = new StringBuilder(part.getClass().getSimpleName());
      for (RecordComponent c : part.getClass().getRecordComponents()) {
        try {
          text.append('(').append(text(c.getAccessor().invoke(part))).append(')');
        } catch (ReflectiveOperationException e) {
          throw new IllegalStateException(e);
        }
      }
      return text.toString();
    }
    if (part instanceof Collection<?> all) {
      return all.stream().map(AnalysisContract::text).toList().toString();
    }
    if (part instanceof Map<?, ?> map) {
      Map<String, String> sorted = new TreeMap<>();
      map.forEach((k, v) -> sorted.put(text(k), text(v)));
      return sorted.toString();
    }
    if (part instanceof Supplier<?> later) {
      return text(later.get());
    }
    if (part instanceof Optional<?> maybe) {
      return maybe.map(AnalysisContract::text).orElse("");
    }
    if (part != null && part.getClass().isArray()) {
      List<String> all = new ArrayList<>();
      for (int i = 0; i < Array.getLength(part); i++) {
        all.add(text(Array.get(part, i)));
      }
      return all.toString();
    }
    return String.valueOf(part);
  }
}
