package siltwright.circuit.view;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
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

/** A desk that does long work when told to. */
final class TestDesk implements Desk {
  final List<String> revealed = new ArrayList<>();
  final Map<String, String> kept = new HashMap<>();
  private final Map<String, Runnable> waiting = new HashMap<>();
  String status = "";
  private Scenario scenario = Scenario.empty(Units.SI, false);

  /** A scenario with a machine selected. */
  static Scenario with(Machine machine, Units units, boolean dark) {
    return new Scenario(
        1,
        Optional.empty(),
        Optional.empty(),
        Optional.of(machine),
        Optional.of("/machines/0"),
        List.of(),
        units,
        dark);
  }

  void scenario(Scenario now) {
    scenario = now;
  }

  /** Does the work that waits, and says whether there was any. */
  boolean work() {
    List<Runnable> now = List.copyOf(waiting.values());
    waiting.clear();
    now.forEach(Runnable::run);
    return !now.isEmpty();
  }

  @Override
  public Scenario scenario() {
    return scenario;
  }

  @Override
  public void select(String machineId) {}

  @Override
  public void reveal(String pointer) {
    revealed.add(pointer);
  }

  @Override
  public List<Problem> check(List<Edit> edits) {
    return List.of();
  }

  @Override
  public List<Problem> edit(String label, List<Edit> edits) {
    return List.of();
  }

  @Override
  public List<Problem> revise(String label, List<Revision> revisions) {
    return List.of();
  }

  @Override
  public <T> void compute(
      String slot,
      String title,
      Function<Progress, T> work,
      Consumer<T> done,
      Consumer<String> failed) {
    waiting.put(
        slot,
        () -> {
          T outcome;
          try {
            outcome = work.apply(Progress.NONE);
          } catch (CancellationException e) {
            failed.accept("cancelled");
            return;
          } catch (RuntimeException e) {
            failed.accept(e.getMessage());
            return;
          }
          done.accept(outcome);
        });
  }

  @Override
  public void publish(List<Finding> findings) {}

  @Override
  public void report(String title, List<Result> results) {}

  @Override
  public void status(String text) {
    status = text;
  }

  @Override
  public Optional<String> recall(String key) {
    return Optional.ofNullable(kept.get(key));
  }

  @Override
  public void keep(String key, String value) {
    if (value.isEmpty()) {
      kept.remove(key);
    } else {
      kept.put(key, value);
    }
  }
}
