package siltwright.checks.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.checks.DropReading;
import siltwright.model.DutyState;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;

/** A pressure drop read at the machine, and what it says of the element and its bypass. */
@Component
@Capability(namespace = "siltwright.command", name = "drop-reading")
public final class DropReadingAnalysis implements Analysis {
  private static final NumberParameter READING =
      NumberParameter.optional(
          "reading", "kPa", 0, 2000, "reading over the whole filter before the change");
  private static final NumberParameter FLOW =
      NumberParameter.optional(
          "flow",
          "L/min",
          1,
          5000,
          "flow at the reading; else that of the state the indicator is read in");
  private static final NumberParameter OIL =
      NumberParameter.optional(
          "oil", "°C", -40, 120, "oil temperature at the reading; else that of the same state");
  private static final NumberParameter AFTER =
      NumberParameter.optional("after", "kPa", 0, 2000, "reading after the change");
  private static final NumberParameter FLOW_AFTER =
      NumberParameter.optional(
          "flow-after", "L/min", 1, 5000, "flow at that reading; else as before");
  private static final NumberParameter OIL_AFTER =
      NumberParameter.optional("oil-after", "°C", -40, 120, "oil temperature then; else as before");
  private static final NumberParameter ERROR =
      NumberParameter.of(
          "error", "1", 0.01, 0.5, 0.25, "what gauge, flow and viscosity leave open, ± share");

  private static final Description DESCRIPTION =
      Description.of(
          "drop-reading",
          "Pressure drop read at the machine",
          "Corrects a reading to rated flow and viscosity and tells how loaded the element is, and"
              + " whether the change left its marks.",
          Scope.MACHINE,
          READING,
          FLOW,
          OIL,
          AFTER,
          FLOW_AFTER,
          OIL_AFTER,
          ERROR);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Machine machine = context.machine();
    progress.check(0, machine.id());
    DutyState warm = warm(machine);
    double flow = values.find(FLOW).orElse(warm.flowLPerMin());
    double oil = values.find(OIL).orElse(warm.oilDegC());
    Optional<DropReading> before =
        values.find(READING).map(r -> DropReading.of(machine, r, flow, oil));
    Optional<DropReading> after =
        values
            .find(AFTER)
            .map(
                r ->
                    DropReading.of(
                        machine,
                        r,
                        values.find(FLOW_AFTER).orElse(flow),
                        values.find(OIL_AFTER).orElse(oil)));
    if (before.isEmpty() && after.isEmpty()) {
      // What a clean element would read is worth knowing before anyone goes to the machine.
      before =
          Optional.of(
              DropReading.of(machine, DropReading.cleanReadingKPa(machine, flow, oil), flow, oil));
    }
    Result.Builder result = Result.of(DESCRIPTION, machine, values);
    List<List<Cell>> rows = new ArrayList<>();
    String first = values.find(READING).isPresent() ? "before" : "clean element";
    before.ifPresent(d -> rows.add(row(first, d)));
    after.ifPresent(d -> rows.add(row("after", d)));
    result.add(
        new Entry.Table(
            "readings",
            "Readings",
            Entry.Use.READ,
            List.of(
                new Entry.Column("reading", "Reading", ""),
                new Entry.Column("element_kPa", "Over the element", "kPa"),
                new Entry.Column("clean_kPa", "Clean element here", "kPa"),
                new Entry.Column("rated_kPa", "At rated flow and viscosity", "kPa"),
                new Entry.Column("ratio", "Over clean", "1"),
                new Entry.Column("bypassShare", "Through the bypass", "1"),
                new Entry.Column("ofCapacity", "Held, of its capacity", "1")),
            rows));
    double error = values.get(ERROR);
    if (values.find(READING).isPresent()) {
      before.ifPresent(d -> judgeBefore(result, d, error));
    }
    after.ifPresent(d -> judgeAfter(result, d, error));
    if (values.find(READING).isPresent() && before.isPresent() && after.isPresent()) {
      judgeBoth(result, before.get(), after.get(), error);
    }
    result.finding(NOTE, Cautions.MANUAL, "");
    return result.build();
  }

  private static DutyState warm(Machine machine) {
    String id = machine.returnFilter().indicatorState();
    return machine.duty().stream()
        .filter(d -> d.id().equals(id))
        .findFirst()
        .orElseThrow(
            () ->
                new InputException(
                    new Problem("machine", machine.id(), id, "a duty state with this id")));
  }

  private static List<Cell> row(String which, DropReading d) {
    return List.of(
        Cell.of(which),
        Cell.of(d.elementKPa()),
        Cell.of(d.cleanKPa()),
        Cell.of(d.ratedKPa()),
        Cell.of(d.ratio()),
        Cell.of(d.bypassShare()),
        d.massShare().map(Cell::of).orElseGet(Cell.None::new));
  }

  private static void judgeBefore(Result.Builder result, DropReading d, double error) {
    if (d.bypassShare() >= 1) {
      result.finding(
          WARNING, "All of the flow passes the element by: it catches nothing.", "reading");
    } else if (d.bypassShare() > 0) {
      result.finding(
          CAUTION,
          "The bypass is open: " + Math.round(100 * d.bypassShare()) + " % pass the element by.",
          "reading");
    } else if (d.ratio() < 1 - error) {
      result.finding(
          WARNING,
          "Less than a clean element would make ("
              + Numbers.text(d.elementKPa())
              + " against "
              + Numbers.text(d.cleanKPa())
              + " kPa): element collapsed, torn or missing, bypass stuck open, or the gauge is"
              + " wrong.",
          "reading");
    }
  }

  private static void judgeAfter(Result.Builder result, DropReading d, double error) {
    if (d.ratio() < 1 - error) {
      result.finding(
          WARNING,
          "After the change the filter makes less than a clean element should: element missing or"
              + " not seated, seal left out, bypass stuck open.",
          "after");
    } else if (d.ratio() > 1 + 2 * error) {
      result.finding(
          WARNING,
          "After the change the filter makes "
              + Numbers.text(d.ratio())
              + " times what a clean element should: wrong element, wrapping left on, or the old"
              + " one put back.",
          "after");
    } else {
      result.finding(NOTE, "After the change the reading is that of a clean element.", "after");
    }
  }

  private static void judgeBoth(
      Result.Builder result, DropReading before, DropReading after, double error) {
    if (before.ratio() < 1 + error && Math.abs(after.ratio() - before.ratio()) <= error) {
      result.finding(
          CAUTION,
          "The change moved the reading by no more than its error: the old element was hardly"
              + " loaded, or oil went round it.",
          "after");
    }
  }
}
