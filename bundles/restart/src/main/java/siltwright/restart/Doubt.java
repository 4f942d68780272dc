package siltwright.restart;

import siltwright.model.ChangeProcedure;
import siltwright.model.Ingress;
import siltwright.model.Machine;

/**
 * How well the numbers besides the release are known before the samples: standard deviations of
 * logarithms. Own choice; docs/restart-study.md shows what it does if they are wrong by a factor of
 * two.
 *
 * @param base counts that the oil settles at
 * @param baseSlope how they fall with size, per doubling of size
 * @param rate wash-out rate: flow after the restart, field efficiency
 * @param sizes how the release's particles fall with size, per doubling of size
 * @param medianG release before anything is seen, g
 * @param releaseSd standard deviation of its logarithm
 */
public record Doubt(
    double base, double baseSlope, double rate, double sizes, double medianG, double releaseSd) {
  private static final double MG_PER_G = 1000;
  private static final double LEAST_MG = 20;

  /** What holds where nothing else is known: a release between 20 mg and 50 g. */
  public static final Doubt STANDARD = new Doubt(0.5, 0.2, 0.25, 0.2, 1, 2);

  /**
   * Returns the standard doubts with a release round what the machine's procedures are said to let
   * go: the geometric mean of them, at today's interval.
   */
  public static Doubt of(Machine machine) {
    double caughtMg =
        (Ingress.rateMgPerH(machine.ingress().reservoir())
                + Ingress.rateMgPerH(machine.ingress().returnLine()))
            * machine.today().intervalH();
    double sum = 0;
    for (ChangeProcedure p : machine.procedures()) {
      double mg = p.backFlushShare() * caughtMg + p.handlingDirtMg();
      sum += Math.log(Math.max(LEAST_MG, mg) / MG_PER_G);
    }
    return STANDARD.withRelease(Math.exp(sum / machine.procedures().size()), STANDARD.releaseSd());
  }

  /** Returns the same with the spread of all but the release times a factor. */
  public Doubt times(double factor) {
    return new Doubt(
        base * factor, baseSlope * factor, rate * factor, sizes * factor, medianG, releaseSd);
  }

  /** Returns the same with another prior of the release. */
  public Doubt withRelease(double newMedianG, double newReleaseSd) {
    return new Doubt(base, baseSlope, rate, sizes, newMedianG, newReleaseSd);
  }
}
