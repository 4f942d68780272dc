package siltwright.contamination.internal;

import java.util.List;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.Numbers;
import siltwright.analysis.Result;
import siltwright.cleanliness.Iso4406;
import siltwright.contamination.Circuit;
import siltwright.contamination.Simulation.ServiceCycle;
import siltwright.model.CleanlinessCode;
import siltwright.model.DutyState;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** What the user should know of a simulation. */
final class SimulateFindings {
  private final Machine machine;
  private final Circuit circuit;

  SimulateFindings(Machine machine, Circuit circuit) {
    this.machine = machine;
    this.circuit = circuit;
  }

  /** Adds what holds for the last cycle. */
  void add(List<ServiceCycle> cycles, Result.Builder result) {
    ServiceCycle last = cycles.get(cycles.size() - 1);
    bypass(last, result);
    indicator(last, result);
    target(last, result);
    mass(result);
  }

  private void bypass(ServiceCycle last, Result.Builder result) {
    for (int k = 0; k < circuit.states(); k++) {
      DutyState state = machine.duty().get(k);
      String place = "duty/" + state.id();
      double opensH = last.bypassOpensH().get(k);
      if (circuit.bypassShare(k, 0) > 0) {
        result.finding(
            Severity.CAUTION,
            String.format(
                "In state %s (%s °C) the bypass is open even with a clean element: %s %% of"
                    + " the flow goes past it.",
                state.id(),
                Numbers.text(state.oilDegC()),
                Numbers.text(100 * circuit.bypassShare(k, 0))),
            place);
      } else if (Double.isFinite(opensH)) {
        result.finding(
            Severity.WARNING,
            String.format(
                "In state %s the bypass opens %s h after the change; at the end of the cycle %s %%"
                    + " of the flow goes past the element.",
                state.id(), Numbers.text(opensH), Numbers.text(100 * last.bypassShare().get(k))),
            place);
      }
    }
  }

  private void indicator(ServiceCycle last, Result.Builder result) {
    if (machine.returnFilter().indicatorKPa().isEmpty()) {
      return;
    }
    String state = machine.returnFilter().indicatorState();
    boolean trips = Double.isFinite(last.indicatorTripsH());
    result.finding(
        Severity.NOTE,
        trips
            ? String.format(
                "The indicator, read in state %s, trips %s h after the change.",
                state, Numbers.text(last.indicatorTripsH()))
            : String.format("The indicator, read in state %s, does not trip in the cycle.", state),
        "returnFilter/indicator");
  }

  private void target(ServiceCycle last, Result.Builder result) {
    machine
        .limits()
        .target()
        .filter(target -> dirtier(last, target))
        .ifPresent(
            target ->
                result.finding(
                    Severity.CAUTION,
                    String.format(
                        "At the end of the cycle the oil is %s, dirtier than the target %s.",
                        SimulateTables.code(last.endPerMl()), target),
                    "limits/targetCode"));
  }

  private static boolean dirtier(ServiceCycle last, CleanlinessCode target) {
    double[] counts = SizeBands.toCumulative(last.endPerMl().toArray());
    return Iso4406.scaleNumber(counts[0]) > target.at4()
        || Iso4406.scaleNumber(counts[1]) > target.at6()
        || Iso4406.scaleNumber(counts[2]) > target.at14();
  }

  private void mass(Result.Builder result) {
    double fines = machine.returnFilter().element().finesShare();
    result.finding(
        Severity.NOTE,
        fines > 0
            ? String.format(
                "Masses in the element include its fines share, %s %% outside 4 to 100 µm(c);"
                    + " released masses do not.",
                Numbers.text(100 * fines))
            : "Masses are of particles from 4 to 100 µm(c). What is finer loads an element as"
                + " well: where it matters, give the element a fines share.",
        "returnFilter/element");
  }
}
