package siltwright.addons.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Reference;
import org.osgi.service.component.annotations.ReferenceCardinality;
import org.osgi.service.component.annotations.ReferencePolicy;
import org.osgi.service.component.annotations.ReferencePolicyOption;
import siltwright.analysis.Action;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.FlagParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;

/** What is installed, from where, what it adds and what it lacks. */
@Component
public final class BundlesAnalysis implements Analysis {
  private static final FlagParameter ALL =
      new FlagParameter("all", "lists libraries too, which add nothing of their own");
  private static final Description DESCRIPTION =
      Description.of(
          "bundles",
          "Bundles",
          "What is installed, from where, what does it add and what does it lack?",
          Scope.NONE,
          ALL);

  /** What bundles add, by the interface of the service. */
  private static final Map<String, String> KINDS =
      Map.of(
          "siltwright.analysis.Analysis", "analysis",
          "siltwright.analysis.Action", "command",
          "siltwright.analysis.DocumentWriter", "document",
          "siltwright.analysis.ReportWriter", "report",
          "siltwright.analysis.HistorySource", "store",
          "siltwright.workbench.View", "view");

  private static final List<Entry.Column> COLUMNS = columns(Entry.Use.DATA);
  private static final List<Entry.Column> COLUMNS_OF_ADD_ONS = columns(Entry.Use.READ);

  /** What is lacking is told by the findings, in full. */
  private static List<Entry.Column> columns(Entry.Use ofAddOns) {
    return List.of(
        new Entry.Column("name", "Bundle", ""),
        new Entry.Column("version", "Version", ""),
        new Entry.Column("state", "State", ""),
        new Entry.Column("adds", "Adds", ""),
        new Entry.Column("signed", "Signed by", "", ofAddOns),
        new Entry.Column("from", "From", "", ofAddOns),
        new Entry.Column("lacks", "Lacks", "", Entry.Use.DATA),
        new Entry.Column("stage", "Stage", "", Entry.Use.DATA),
        new Entry.Column("file", "File", "", Entry.Use.DATA));
  }

  /** Names of what is offered, by the number of the bundle that offers it. */
  private final Map<Object, Offer> offers = new ConcurrentHashMap<>();

  private record Offer(long bundle, String kind, Supplier<String> name) {}

  @Reference(
      target = "(siltwright.entry=bundles)",
      cardinality = ReferenceCardinality.OPTIONAL,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Supplier<List<Map<String, Object>>> installed;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addAnalysis(Analysis analysis, Map<String, Object> properties) {
    offer(analysis, properties, "analysis", () -> analysis.description().id());
  }

  void removeAnalysis(Analysis analysis) {
    offers.remove(analysis);
  }

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addAction(Action action, Map<String, Object> properties) {
    offer(action, properties, "command", () -> action.description().id());
  }

  void removeAction(Action action) {
    offers.remove(action);
  }

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addWriter(DocumentWriter writer, Map<String, Object> properties) {
    offer(
        writer,
        properties,
        "document",
        () -> writer.form().analysis() + " --" + writer.form().option());
  }

  void removeWriter(DocumentWriter writer) {
    offers.remove(writer);
  }

  private void offer(
      Object of, Map<String, Object> properties, String kind, Supplier<String> name) {
    offers.put(of, new Offer((Long) properties.get("service.bundleid"), kind, name));
  }

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Supplier<List<Map<String, Object>>> source = installed;
    List<Map<String, Object>> bundles = source == null ? List.of() : source.get();
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    List<List<Cell>> own = new ArrayList<>();
    List<List<Cell>> addOns = new ArrayList<>();
    for (Map<String, Object> bundle : bundles) {
      String adds = adds(bundle);
      if (bundle.get("stage").equals("add-on")) {
        addOns.add(row(bundle, adds));
      } else if (!adds.isEmpty() || !text(bundle, "lacks").isEmpty() || values.get(ALL)) {
        own.add(row(bundle, adds));
      }
      if (!text(bundle, "lacks").isEmpty()) {
        result.finding(
            text(bundle, "state").equals("set aside") ? Severity.WARNING : Severity.NOTE,
            text(bundle, "name") + " " + text(bundle, "version") + ": " + text(bundle, "lacks"),
            text(bundle, "file"));
      }
      if ((Long) bundle.get("threads") > 0) {
        result.finding(
            Severity.CAUTION,
            text(bundle, "name") + " has left " + bundle.get("threads") + " threads running.",
            text(bundle, "file"));
      }
    }
    result.value("bundles", "Bundles of the product", "1", bundles.size() - addOns.size());
    result.add(new Entry.Table("product", "The product", Entry.Use.READ, COLUMNS, own));
    result.value("addOns", "Add-ons", "1", addOns.size());
    if (!addOns.isEmpty()) {
      result.add(
          new Entry.Table("addOnBundles", "Add-ons", Entry.Use.READ, COLUMNS_OF_ADD_ONS, addOns));
    }
    return result.build();
  }

  private static List<Cell> row(Map<String, Object> bundle, String adds) {
    List<Cell> row = new ArrayList<>();
    for (Entry.Column column : COLUMNS) {
      String text = column.name().equals("adds") ? adds : text(bundle, column.name());
      row.add(text.isEmpty() ? new Cell.None() : Cell.of(text));
    }
    return row;
  }

  private static String text(Map<String, Object> bundle, String key) {
    return bundle.get(key).toString();
  }

  /** Names where a bundle runs; else what its description says, such as "2 documents". */
  private String adds(Map<String, Object> bundle) {
    SortedMap<String, TreeSet<String>> byKind = new TreeMap<>();
    for (Offer offer : List.copyOf(offers.values())) {
      if (bundle.get("bundle").equals(offer.bundle())) {
        byKind.computeIfAbsent(offer.kind(), k -> new TreeSet<>()).add(offer.name().get());
      }
    }
    SortedMap<String, Integer> described = new TreeMap<>();
    for (Object service : (List<?>) bundle.get("services")) {
      String kind = KINDS.get(service);
      if (kind != null && !byKind.containsKey(kind)) {
        described.merge(kind, 1, Integer::sum);
      }
    }
    List<String> texts = new ArrayList<>();
    byKind.forEach((kind, names) -> texts.add(kind + " " + String.join(", ", names)));
    described.forEach((kind, n) -> texts.add(n == 1 ? kind : n + " " + kind + "s"));
    return String.join("; ", texts);
  }
}
