package siltwright.workbench.internal;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.Revision;
import siltwright.model.Units;
import siltwright.model.json.Edit;
import siltwright.workbench.Desk;
import siltwright.workbench.Scenario;

/** The desk of one pane. Once closed it does nothing, so that a late call does no harm. */
final class PaneDesk implements Desk {
  private final String paneId;
  private final String title;
  private Bench bench;

  PaneDesk(Bench bench, String paneId, String title) {
    this.bench = bench;
    this.paneId = paneId;
    this.title = title;
  }

  /** Ends all that the pane has going on. */
  void close() {
    if (bench != null) {
      bench.runs().cancelAll(this);
      bench = null;
    }
  }

  @Override
  public Scenario scenario() {
    return bench == null ? Scenario.empty(Units.SI, false) : bench.scenario();
  }

  @Override
  public void select(String machineId) {
    if (bench != null) {
      bench.document().select(machineId);
    }
  }

  @Override
  public void reveal(String pointer) {
    if (bench != null) {
      bench.reveal(bench.document().selected(), pointer);
    }
  }

  @Override
  public List<Problem> check(List<Edit> edits) {
    return bench == null ? List.of() : bench.document().check(edits);
  }

  @Override
  public List<Problem> edit(String label, List<Edit> edits) {
    return bench == null ? List.of() : bench.document().edit(label, edits);
  }

  @Override
  public List<Problem> revise(String label, List<Revision> revisions) {
    return bench == null ? List.of() : bench.document().revise(label, revisions);
  }

  @Override
  public <T> void compute(
      String slot,
      String title,
      Function<Progress, T> work,
      Consumer<T> done,
      Consumer<String> failed) {
    if (bench != null) {
      bench.runs().start(this, slot, title, work, done, failed);
    }
  }

  @Override
  public void publish(List<Finding> findings) {
    if (bench != null) {
      Scenario now = bench.scenario();
      if (now.machine().isPresent()) {
        bench.findings().publish(title, now.machine().get().id(), now.machine().get(), findings);
      } else if (now.fleet().isPresent()) {
        bench.findings().publish(title, "", now.fleet().get(), findings);
      }
    }
  }

  /** Replaces what this pane has to say of a machine, selected or not. */
  void publish(Machine machine, List<Finding> findings) {
    if (bench != null) {
      bench.findings().publish(title, machine.id(), machine, findings);
    }
  }

  /** Returns whether the product can write reports. */
  boolean hasReport() {
    return bench != null && bench.hasReport();
  }

  @Override
  public void report(String title, List<Result> results) {
    if (bench != null) {
      bench.saveReport(title, results);
    }
  }

  @Override
  public void status(String text) {
    if (bench != null) {
      bench.status(text);
    }
  }

  @Override
  public Optional<String> recall(String key) {
    return bench == null ? Optional.empty() : bench.settings().get(key(key));
  }

  @Override
  public void keep(String key, String value) {
    if (bench != null) {
      bench.settings().put(key(key), value);
    }
  }

  private String key(String key) {
    return "pane." + paneId + "." + key;
  }
}
