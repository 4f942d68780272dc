package siltwright.batch.internal;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Activate;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Reference;
import org.osgi.service.component.annotations.ReferenceCardinality;
import org.osgi.service.component.annotations.ReferencePolicy;
import org.osgi.service.component.annotations.ReferencePolicyOption;
import siltwright.addons.Guard;
import siltwright.analysis.Action;
import siltwright.analysis.Cell;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.FlagParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.batch.Summary;
import siltwright.batch.TuneMany;
import siltwright.interval.TuningParameters;
import siltwright.model.CostTerm;
import siltwright.model.LifeLaw;
import siltwright.model.LoadingLaw;
import siltwright.model.json.Extensions;
import siltwright.store.StoreOptions;
import siltwright.wide.BackEnd;
import siltwright.wide.WideOptions;

/** Change intervals of very many machines. */
@Component
@Capability(namespace = "siltwright.command", name = "tune-many")
public final class TuneManyAction implements Action {
  private static final int REASONS = 20;
  private static final TextParameter FLEET =
      TextParameter.required(
          "fleet", "a fleet file (JSON)", "the machines that those of the table are like");
  private static final TextParameter TO =
      TextParameter.required(
          "to",
          "FILE.csv or FILE.parquet",
          "table of results, a row a machine; until it is whole it has .part behind its name");
  private static final FlagParameter RESUME =
      new FlagParameter("resume", "go on with what a run that was broken off has left");
  private static final WholeParameter AHEAD =
      new WholeParameter(
          "ahead",
          1,
          100_000,
          256,
          "on this computer: machines held in memory at once, about 20 KB each");
  private static final Description DESCRIPTION =
      Description.of(
          "tune-many",
          "Change intervals of many machines",
          "Tunes every machine of a table, however long, and writes a row for each.",
          Scope.NONE,
          FLEET,
          TO,
          RESUME,
          TuningParameters.HORIZON,
          TuningParameters.DRAWS,
          TuningParameters.SEED,
          WideOptions.THREADS,
          AHEAD,
          WideOptions.ON,
          WideOptions.KIT,
          WideOptions.SECRET);

  private final Guard guard;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Collection<Map.Entry<Map<String, Object>, LoadingLaw>> laws = List.of();

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Collection<Map.Entry<Map<String, Object>, CostTerm>> terms = List.of();

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Collection<Map.Entry<Map<String, Object>, LifeLaw>> lives = List.of();

  /**
   * Makes the command.
   *
   * @param launcher calls add-ons under watch; null where there are none
   */
  @Activate
  public TuneManyAction(
      @Reference(
              target = "(siltwright.entry=addons)",
              cardinality = ReferenceCardinality.OPTIONAL,
              policyOption = ReferencePolicyOption.GREEDY)
          BiFunction<Map<String, Object>, Callable<Object>, Object> launcher) {
    guard = new Guard(launcher);
  }

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public String file() {
    return "Table of machines (CSV, XLSX, Parquet): a column machine with the id of each, a column like with"
        + " the machine of the fleet file that it is like, and for what differs a column named by"
        + " its place there, such as today/interval_h or components/pump/life/scale_h.";
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    Path to = StoreOptions.path("--to", values.get(TO));
    Path table = StoreOptions.path("FILE", file);
    Path fleet = StoreOptions.path("--fleet", values.get(FLEET));
    try (BackEnd backEnd = WideOptions.backEnd(values, values.get(AHEAD).intValue())) {
      Summary summary =
          TuneMany.run(
              new TuneMany.Task(
                  table,
                  fleet,
                  Extensions.of(
                      () -> Guard.through(guard::loadingLaw, laws),
                      () -> Guard.through(guard::costTerm, terms),
                      () -> Guard.through(guard::lifeLaw, lives)),
                  to,
                  values.get(RESUME),
                  TuningParameters.of(values),
                  backEnd),
              progress);
      return told(summary, to, values);
    }
  }

  private static Result told(Summary summary, Path to, Values values) {
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    result.value("machines", "Machines", "1", summary.machines());
    if (summary.before() > 0) {
      result.value("before", "Of these computed before", "1", summary.before());
    }
    long without = summary.reasons().stream().mapToLong(Map.Entry::getValue).sum();
    result.value("without", "Machines without an interval", "1", without);
    if (summary.intervalH().length > 0) {
      for (int i = 0; i < 3; i++) {
        String share = List.of("5", "50", "95").get(i);
        result.value(
            "interval" + share,
            "Best interval, " + share + " % of machines up to",
            "h",
            summary.intervalH()[i]);
      }
    }
    if (summary.today() > 0) {
      String money = summary.currency() + "/h";
      result.value("todayPerH", "All cost today", money, summary.todayPerH());
      result.value("bestPerH", "All cost at their best intervals", money, summary.bestPerH());
    }
    result.value("to", "Written to", to.toString());
    if (!summary.reasons().isEmpty()) {
      List<List<Cell>> rows = new ArrayList<>();
      summary.reasons().stream()
          .limit(REASONS)
          .forEach(r -> rows.add(List.of(Cell.of(r.getValue()), Cell.of(r.getKey()))));
      result.add(
          new Entry.Table(
              "reasons",
              "Why machines have no interval",
              Entry.Use.READ,
              List.of(
                  new Entry.Column("machines", "Machines", "1"),
                  new Entry.Column("reason", "Reason", "")),
              rows));
      result.finding(
          Severity.CAUTION,
          without + " of " + summary.machines() + " machines have no interval.",
          "reasons");
    }
    return result.build();
  }
}
