package siltwright.contamination;

import java.util.List;
import siltwright.model.Bands;

/**
 * The oil and the element at chosen hours after a change.
 *
 * @param hours hours since the change, rising from 0
 * @param perMl band counts at each, 1/mL
 * @param massG mass in the element at each, g
 */
public record Trace(double[] hours, List<Bands> perMl, double[] massG) {
  public Trace {
    perMl = List.copyOf(perMl);
  }

  /**
   * Follows a new element from given counts.
   *
   * @param circuit the circuit
   * @param startPerMl band counts just after the change, release mixed in, 1/mL
   * @param hours hours to look at, rising from 0; not modified
   */
  public static Trace of(Circuit circuit, Bands startPerMl, double[] hours) {
    Balance balance = new Balance(circuit, List.of());
    balance.counts(startPerMl.toArray());
    Bands[] perMl = new Bands[hours.length];
    double[] massG = new double[hours.length];
    for (int i = 0; i < hours.length; i++) {
      balance.runTo(hours[i]);
      perMl[i] = Bands.of(balance.n);
      massG[i] = balance.massG;
    }
    return new Trace(hours, List.of(perMl), massG);
  }
}
