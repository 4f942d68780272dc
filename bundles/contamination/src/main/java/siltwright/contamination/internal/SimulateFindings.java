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
                state.id(), Numbers.text(state.oilDegC()), percent(circuit.bypassShare(k, 0))),
            place);
      } else if (Double.isFinite(opensH)) {
        result.finding(
            Severity.WARNING,
            String.format(
                "In state %s the bypass opens %s after the change; at the end of the cycle %s %%"
                    + " of the flow goes past the element.",
                state.id(), time(opensH), percent(last.bypassShare().get(k))),
            place);
      }
    }
  }

  /** Returns a time as people say it: minutes where it is less than two hours. */
  private static String time(double hours) {
    return hours < 2
        ? Numbers.text(Math.rint(60 * hours)) + " min"
        : Numbers.text(hours, "h") + " h";
  }

  /** Returns a share in per cent; the digits after the point say something of small ones only. */
  private static String percent(double share) {
    double percent = 100 * share;
    return Numbers.text(percent < 10 ? Math.rint(10 * percent) / 10 : Math.rint(percent));
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
                "The indicator, read in state %s, trips %s after the change.",
                state, time(last.indicatorTripsH()))
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
