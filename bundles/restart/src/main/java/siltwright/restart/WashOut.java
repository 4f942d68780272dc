package siltwright.restart;

import siltwright.contamination.Circuit;
import siltwright.model.Bands;
import siltwright.model.Ingress;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/**
 * How a release would show in the oil of one machine.
 *
 * <pre>  n_j(t) = b_j + (G s_j/V) exp(-a_j t)  </pre>
 *
 * <p>b the counts the oil settles at, G the grams released, s_j their particles of band j per gram,
 * a_j the rate at which the band washes out with a clean element. b and a are those of the
 * contamination balance ({@link Circuit}); source: design brief, restart samples.
 *
 * @param volumeMl oil volume, mL
 * @param ratePerMin a_j, 1/min
 * @param basePerMl b_j, 1/mL
 * @param particlesPerG s_j
 */
public record WashOut(double volumeMl, Bands ratePerMin, Bands basePerMl, Bands particlesPerG) {
  private static final double ML_PER_L = 1000;
  private static final double MIN_PER_H = 60;

  /**
   * Returns the wash-out of a machine whose release has the sizes of what its element holds.
   *
   * <p>What the element holds is what comes in, less what other sinks take of each band.
   */
  public static WashOut of(Machine machine) {
    Circuit circuit = Circuit.inTheLongRun(machine);
    Bands in =
        Ingress.particlesPerH(machine.ingress().reservoir())
            .plus(Ingress.particlesPerH(machine.ingress().returnLine()));
    double volumeMl = machine.reservoir().volumeL() * ML_PER_L;
    double flowMlPerH = circuit.meanFlowLPerMin() * ML_PER_L * MIN_PER_H;
    double[] kept = new double[SizeBands.COUNT];
    double[] rate = new double[SizeBands.COUNT];
    double[] base = circuit.steadyPerMl(0).toArray();
    double mass = 0;
    for (int j = 0; j < kept.length; j++) {
      double perH = 1 / circuit.washOutH(j);
      rate[j] = perH / MIN_PER_H;
      double caught = circuit.captureShare(j, 0) * flowMlPerH / (perH * volumeMl);
      kept[j] = in.get(j) * Math.min(1, caught);
      mass += kept[j] * SizeBands.particleG(j);
      base[j] = Double.isFinite(base[j]) ? base[j] : 0;
    }
    return new WashOut(volumeMl, Bands.of(rate), Bands.of(base), Bands.of(kept).times(1 / mass));
  }

  /** Returns the time constant of a band, min. */
  public double tauMin(int j) {
    return 1 / ratePerMin.get(j);
  }
}
