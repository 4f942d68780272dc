package siltwright.interval.view;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.Revision;
import siltwright.model.Units;
import siltwright.model.json.Edit;
import siltwright.model.json.FleetReader;
import siltwright.workbench.Desk;
import siltwright.workbench.Scenario;

/** A desk that computes at once and remembers what it was asked. */
final class OneDesk implements Desk {
  static final Fleet DEMO =
      FleetReader.read(Path.of("..", "..", "demo-data", "three-pits.json")).fleet();

  final List<Edit> edits = new ArrayList<>();
  final List<String> said = new ArrayList<>();
  Scenario scenario = Scenario.empty(Units.SI, false);

  /** Returns a scenario of a machine of the demo fleet. */
  static Scenario of(String id, Units units, boolean dark) {
    List<Machine> machines = DEMO.machines();
    int at = machines.stream().map(Machine::id).toList().indexOf(id);
    return new Scenario(
        1,
        Optional.empty(),
        Optional.of(DEMO),
        Optional.of(machines.get(at)),
        Optional.of("/machines/" + at),
        List.of(),
        units,
        dark);
  }

  @Override
  public Scenario scenario() {
    return scenario;
  }

  @Override
  public void select(String machineId) {}

  @Override
  public void reveal(String pointer) {}

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
    done.accept(work.apply(Progress.NONE));
  }

  @Override
  public void publish(List<Finding> findings) {}

  @Override
  public void report(String title, List<Result> results) {}

  @Override
  public void status(String text) {
    said.add(text);
  }

  @Override
  public Optional<String> recall(String key) {
    return Optional.empty();
  }

  @Override
  public void keep(String key, String value) {}
}
