package siltwright.training;

import java.util.List;
import java.util.Optional;
import siltwright.analysis.Progress;
import siltwright.contamination.Circuit;
import siltwright.interval.Tuning;
import siltwright.interval.Tuning.CycleAnswer;
import siltwright.interval.Tuning.ProcedureAnswer;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;

/**
 * One machine as a lesson: the same change at today's interval done in the way that sheds least and
 * in the way that sheds most.
 *
 * <pre>
 *   released = φ M (1 - fines) + H          M: mass in the element before the change
 *   ratio    = 1/(1 - E (1 - φ))            14–21 µm(c), E with a clean element
 *   a year   = (cost of the wrong way - cost of the right way) · hours a year
 * </pre>
 *
 * <p>Source: docs/theory.md (contamination balance), docs/theory-interval.md (cost).
 *
 * @param machine the machine
 * @param right the way that sheds least
 * @param wrong the way that sheds most
 * @param washOutMin time constant of the wash-out of 14–21 µm(c) with a clean element, min;
 *     infinite where nothing takes it out
 * @param perYearMoney what the wrong way costs more in a year; below 0 where it costs less
 */
public record Lesson(
    Machine machine, Way right, Way wrong, double washOutMin, double perYearMoney) {
  /** Band of the ratios and the wash-out: 14–21 µm(c). */
  static final int BAND = 2;

  private static final double HORIZON_H = 4000;
  private static final double MIN_PER_H = 60;

  /**
   * A way to change.
   *
   * @param procedure the procedure
   * @param cycle the cycle that repeats itself with it
   * @param ratio equivalent filtration ratio
   */
  public record Way(ChangeProcedure procedure, CycleAnswer cycle, double ratio) {}

  /**
   * Returns the lesson of a machine.
   *
   * @param machine the machine
   * @param useHPerYear hours of operation a year
   * @param progress told how far it is
   * @return nothing where the machine has one way only, or a way at which the element cannot hold
   *     what comes in
   */
  public static Optional<Lesson> of(Machine machine, double useHPerYear, Progress progress) {
    List<ChangeProcedure> ways =
        machine.procedures().stream().sorted(ChangeProcedure.CLEANEST_FIRST).toList();
    if (ways.size() < 2) {
      return Optional.empty();
    }
    List<ProcedureAnswer> answers = Tuning.procedures(machine, HORIZON_H, progress);
    Optional<Way> right = way(answers, ways.get(0));
    Optional<Way> wrong = way(answers, ways.get(ways.size() - 1));
    if (right.isEmpty() || wrong.isEmpty()) {
      return Optional.empty();
    }
    double more = wrong.get().cycle().split().total() - right.get().cycle().split().total();
    return Optional.of(
        new Lesson(
            machine,
            right.get(),
            wrong.get(),
            MIN_PER_H * Circuit.of(machine).washOutH(BAND),
            more * useHPerYear));
  }

  private static Optional<Way> way(List<ProcedureAnswer> answers, ChangeProcedure procedure) {
    return answers.stream()
        .filter(a -> a.procedure().equals(procedure))
        .findFirst()
        .flatMap(a -> a.atToday().map(c -> new Way(procedure, c, a.equivalentBeta().get(BAND))));
  }
}
