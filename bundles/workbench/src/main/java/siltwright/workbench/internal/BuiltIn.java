package siltwright.workbench.internal;

import java.util.List;
import java.util.function.Function;
import siltwright.analysis.Scope;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.View;

/**
 * A view of the window itself.
 *
 * @param id its id
 * @param rank its place among the views
 * @param opener makes its panes
 */
record BuiltIn(String id, int rank, Function<Desk, Pane> opener) implements View {
  static final String START = "start";
  static final String FLEET = "fleet";
  static final String INSPECTOR = "inspector";
  static final String FINDINGS = "findings";
  static final String RUNS = "runs";
  static final List<String> IDS = List.of(START, FLEET, INSPECTOR, FINDINGS, RUNS);

  static List<View> of(Bench bench) {
    return List.of(
        new BuiltIn(START, 10, desk -> new StartPane(bench)),
        new BuiltIn(FLEET, 20, desk -> new FleetPane(bench)),
        new BuiltIn(INSPECTOR, 30, desk -> new InspectorPane(bench, desk)),
        new BuiltIn(FINDINGS, 40, desk -> new FindingsPane(bench)),
        new BuiltIn(RUNS, 50, desk -> new RunsPane(bench)));
  }

  @Override
  public String title() {
    return Texts.of("view." + id);
  }

  @Override
  public Scope scope() {
    return id.equals(INSPECTOR) ? Scope.MACHINE : Scope.FLEET;
  }

  @Override
  public Pane open(Desk desk) {
    return opener.apply(desk);
  }
}
