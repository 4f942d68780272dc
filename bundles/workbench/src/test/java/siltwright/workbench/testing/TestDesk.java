package siltwright.workbench.testing;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import java.util.function.Function;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.Revision;
import siltwright.model.Units;
import siltwright.model.json.Edit;
import siltwright.model.json.FleetReader;
import siltwright.workbench.Desk;
import siltwright.workbench.Scenario;

/**
 * A desk for the tests of views: computes at once or when told, remembers what it was asked, and
 * takes every edit.
 */
public final class TestDesk implements Desk {
  /** The demo fleet; a test runs in the folder of its bundle. */
  public static final Fleet DEMO =
      FleetReader.read(Path.of("..", "..", "demo-data", "three-pits.json")).fleet();

  public final List<String> selected = new ArrayList<>();
  public final List<String> revealed = new ArrayList<>();
  public final List<Edit> edits = new ArrayList<>();
  public final List<Finding> findings = new ArrayList<>();
  public final List<String> said = new ArrayList<>();
  public final Map<String, String> kept = new TreeMap<>();
  public Scenario scenario = Scenario.empty(Units.SI, false);
  private final boolean waits;
  private final Map<String, Runnable> waiting = new LinkedHashMap<>();

  private TestDesk(boolean waits) {
    this.waits = waits;
  }

  /** Returns a desk whose long work is done when it is asked for. */
  public static TestDesk atOnce() {
    return new TestDesk(false);
  }

  /** Returns a desk whose long work waits for {@link #work}. */
  public static TestDesk whenTold() {
    return new TestDesk(true);
  }

  /** Returns a scenario of the demo fleet with a machine selected. */
  public static Scenario demo(String id, Units units, boolean dark) {
    int at = DEMO.machines().stream().map(Machine::id).toList().indexOf(id);
    return scenario(Optional.of(DEMO), DEMO.machines().get(at), "/machines/" + at, units, dark);
  }

  /** Returns a scenario with a machine selected that is in no fleet. */
  public static Scenario alone(Machine machine, Units units, boolean dark) {
    return scenario(Optional.empty(), machine, "/machines/0", units, dark);
  }

  private static Scenario scenario(
      Optional<Fleet> fleet, Machine machine, String pointer, Units units, boolean dark) {
    return new Scenario(
        1,
        Optional.empty(),
        fleet,
        Optional.of(machine),
        Optional.of(pointer),
        List.of(),
        units,
        dark);
  }

  /** Does the work that waits, and says whether there was any. */
  public boolean work() {
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
  public void select(String machineId) {
    selected.add(machineId);
  }

  @Override
  public void reveal(String pointer) {
    revealed.add(pointer);
  }

  @Override
  public List<Problem> check(List<Edit> wanted) {
    return List.of();
  }

  @Override
  public List<Problem> edit(String label, List<Edit> wanted) {
    edits.addAll(wanted);
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
    if (waits) {
      waiting.put(slot, () -> compute(work, done, failed));
    } else {
      compute(work, done, failed);
    }
  }

  /** What the work throws besides that of which the user is told is a fault, and fails the test. */
  private <T> void compute(Function<Progress, T> work, Consumer<T> done, Consumer<String> failed) {
    T outcome;
    try {
      outcome = work.apply(Progress.NONE);
    } catch (CancellationException e) {
      failed.accept("cancelled");
      return;
    } catch (InputException e) {
      failed.accept(e.getMessage());
      return;
    }
    done.accept(outcome);
  }

  @Override
  public void publish(List<Finding> now) {
    findings.clear();
    findings.addAll(now);
  }

  @Override
  public void report(String title, List<Result> results) {}

  @Override
  public void status(String text) {
    said.add(text);
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
