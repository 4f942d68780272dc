package siltwright.addons.internal;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
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
import siltwright.model.CostTerm;
import siltwright.model.LifeLaw;
import siltwright.model.LoadingLaw;

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
      Map.ofEntries(
          Map.entry("siltwright.analysis.Analysis", "analysis"),
          Map.entry("siltwright.analysis.Action", "command"),
          Map.entry("siltwright.analysis.DocumentWriter", "document"),
          Map.entry("siltwright.analysis.ReportWriter", "report"),
          Map.entry("siltwright.analysis.ReportSection", "section of the report"),
          Map.entry("siltwright.analysis.HistorySource", "store"),
          Map.entry("siltwright.model.LoadingLaw", "loading law"),
          Map.entry("siltwright.model.LifeLaw", "life law"),
          Map.entry("siltwright.model.CostTerm", "cost term"),
          Map.entry("siltwright.workbench.View", "view"));

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
    Object number = bundle.get("bundle");
    SortedMap<String, SortedSet<String>> byKind = new TreeMap<>();
    byKind.put("analysis", names(number, analyses, a -> a.description().id()));
    byKind.put("command", names(number, actions, a -> a.description().id()));
    byKind.put(
        "document", names(number, documents, d -> d.form().analysis() + " --" + d.form().option()));
    byKind.put("cost term", names(number, terms, CostTerm::id));
    byKind.put("life law", names(number, lives, LifeLaw::id));
    byKind.put("loading law", names(number, laws, LoadingLaw::id));
    byKind.values().removeIf(Set::isEmpty);
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

  private static <T> SortedSet<String> names(
      Object bundle,
      Collection<Map.Entry<Map<String, Object>, T>> services,
      Function<T, String> name) {
    SortedSet<String> names = new TreeSet<>();
    for (Map.Entry<Map<String, Object>, T> service : services) {
      if (service.getKey().get("service.bundleid").equals(bundle)) {
        names.add(name.apply(service.getValue()));
      }
    }
    return names;
  }
}
