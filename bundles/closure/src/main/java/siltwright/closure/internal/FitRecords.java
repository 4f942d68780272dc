package siltwright.closure.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import siltwright.closure.ElementLife;
import siltwright.contamination.Circuit;
import siltwright.model.ChangeProcedure;
import siltwright.model.DutyState;
import siltwright.model.Machine;
import siltwright.samples.CountError;
import siltwright.samples.OilRecord;
import siltwright.samples.SampleCheck;

/**
 * A machine's record as elements with what was seen while each was in.
 *
 * @param lives elements, earliest first
 * @param samples samples used
 * @param readings readings used
 * @param trips indicator trips used
 * @param passedOver what could not be used, and why
 */
record FitRecords(
    List<ElementLife> lives, int samples, int readings, int trips, List<String> passedOver) {
  /** Time constants after a change until a sample shows the oil in running again. */
  private static final double SETTLED = 6;

  private static final int LEAST_BANDS = 3;

  static FitRecords of(Machine machine, List<OilRecord> rows, CountError error) {
    List<String> passedOver = new ArrayList<>();
    List<ElementLife> lives = new ArrayList<>();
    Circuit circuit = Circuit.of(machine);
    double settledH = SETTLED * circuit.washOutH(0);
    int[] used = new int[3];
    // The record begins with an element of unknown age: its first change begins the first life.
    Optional<OilRecord> first =
        rows.stream().filter(r -> r.kind() == OilRecord.Kind.CHANGE).findFirst();
    double start = startOf(rows, first);
    List<OilRecord> inside = new ArrayList<>();
    int unknown = 0;
    List<SampleCheck> checks = SampleCheck.of(rows, 0);
    long doubtful = rows.stream().filter(r -> SampleCheck.doubtful(r, checks)).count();
    if (doubtful > 0) {
      passedOver.add(
          doubtful
              + (doubtful == 1 ? " sample" : " samples")
              + " to doubt, which the command samples names");
    }
    for (OilRecord r : rows) {
      if (SampleCheck.doubtful(r, checks)) {
        continue;
      }
      if (r.hours() < start) {
        unknown++;
      } else if (r.kind() == OilRecord.Kind.CHANGE) {
        if (r.hours() > start) {
          lives.add(life(machine, start, r.hours(), Optional.of(r), inside, error, settledH, used));
          inside.clear();
          start = r.hours();
        }
      } else {
        inside.add(r);
      }
    }
    double end = inside.stream().mapToDouble(OilRecord::hours).max().orElse(start);
    if (end > start) {
      lives.add(life(machine, start, end, Optional.empty(), inside, error, settledH, used));
    }
    if (unknown > 0) {
      passedOver.add(unknown + " rows of the element that was in when the record begins");
    }
    return new FitRecords(List.copyOf(lives), used[0], used[1], used[2], passedOver);
  }

  /** A record that begins in the first hours of the meter begins with a new element. */
  private static double startOf(List<OilRecord> rows, Optional<OilRecord> firstChange) {
    double begins = rows.isEmpty() ? 0 : rows.get(0).hours();
    double change = firstChange.map(OilRecord::hours).orElse(Double.POSITIVE_INFINITY);
    return begins < Math.min(change, 500) ? 0 : Math.min(change, begins);
  }

  private static ElementLife life(
      Machine machine,
      double start,
      double end,
      Optional<OilRecord> change,
      List<OilRecord> rows,
      CountError error,
      double settledH,
      int[] used) {
    List<ElementLife.Sample> samples = new ArrayList<>();
    List<ElementLife.Reading> readings = new ArrayList<>();
    OptionalDouble indicator = OptionalDouble.empty();
    List<String> states = machine.duty().stream().map(DutyState::id).toList();
    for (OilRecord r : rows) {
      double at = r.hours() - start;
      switch (r.kind()) {
        case SAMPLE -> {
          if (Double.isNaN(r.minutes())
              && at > settledH
              && at <= end - start
              && r.bands(error).filter(b -> b.bands() >= LEAST_BANDS).isPresent()) {
            samples.add(new ElementLife.Sample(at, r.bands(error).get()));
            used[0]++;
          }
        }
        case READING -> {
          int state =
              r.word("state").isEmpty()
                  ? machine.indicatorStateIndex()
                  : states.indexOf(r.word("state"));
          if (state >= 0 && at <= end - start && r.dropKPa() > 0) {
            readings.add(new ElementLife.Reading(at, state, r.dropKPa()));
            used[1]++;
          }
        }
        case INDICATOR -> {
          if (indicator.isEmpty() && at > 0) {
            indicator = OptionalDouble.of(at);
            used[2]++;
          }
        }
        default -> throw new IllegalStateException(r.kind().toString());
      }
    }
    Optional<ChangeProcedure> procedure =
        change
            .flatMap(c -> machine.procedure(c.word("procedure")))
            .or(() -> machine.procedure(machine.today().procedure()));
    return new ElementLife(
        end - start,
        change.isPresent(),
        indicator,
        change.isPresent() ? procedure.map(ChangeProcedure::backFlushShare).orElse(0.0) : 0,
        change.isPresent() ? procedure.map(ChangeProcedure::handlingDirtMg).orElse(0.0) : 0,
        samples,
        readings);
  }
}
