package siltwright.model;

import java.util.Comparator;
import java.util.Set;

/**
 * A way to change the element.
 *
 * @param id name in the file
 * @param name name for people
 * @param backFlushShare φ: share of what the element held that the change sheds into the clean tank
 * @param handlingDirtMg dirt that the change lets into the tank besides, mg
 * @param handlingDirt its size distribution
 * @param labourH hours of work, h
 * @param downtimeH hours that the machine stands for it, h
 * @param oilLostL oil lost, L
 * @param sealsMoney seals and small parts
 * @param housings housings on which it can be done
 */
public record ChangeProcedure(
    String id,
    String name,
    double backFlushShare,
    double handlingDirtMg,
    SizeDistribution handlingDirt,
    double labourH,
    double downtimeH,
    double oilLostL,
    double sealsMoney,
    Set<Housing> housings) {
  /** Those that shed least first; of two that shed alike, the one that lets less dirt in. */
  public static final Comparator<ChangeProcedure> CLEANEST_FIRST =
      Comparator.comparingDouble(ChangeProcedure::backFlushShare)
          .thenComparingDouble(ChangeProcedure::handlingDirtMg);

  public ChangeProcedure {
    housings = Set.copyOf(housings);
  }

  /** Returns the particles of each band that one change lets in by handling. */
  public Bands handlingParticles() {
    return handlingDirt.particlesPerG().times(handlingDirtMg / 1000);
  }

  /** Returns this procedure with another back-flush share and other handling dirt. */
  public ChangeProcedure withRelease(double backFlush, double handlingMg) {
    return new ChangeProcedure(
        id,
        name,
        backFlush,
        handlingMg,
        handlingDirt,
        labourH,
        downtimeH,
        oilLostL,
        sealsMoney,
        housings);
  }
}
