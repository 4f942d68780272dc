package siltwright.life.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.function.Function;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.Revision;
import siltwright.model.Units;
import siltwright.model.json.Edit;
import siltwright.workbench.Desk;
import siltwright.workbench.Scenario;

/** A desk that computes at once and remembers what it was asked. */
final class OneDesk implements Desk {
  final Map<String, String> kept = new TreeMap<>();
  final List<String> said = new ArrayList<>();
  Scenario scenario = Scenario.empty(Units.SI, false);

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
    try {
      done.accept(work.apply(Progress.NONE));
    } catch (InputException e) {
      failed.accept(e.problems().get(0).toString());
    }
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
    return Optional.ofNullable(kept.get(key));
  }

  @Override
  public void keep(String key, String value) {
    kept.put(key, value);
  }
}
