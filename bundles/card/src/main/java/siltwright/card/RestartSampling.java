package siltwright.card;

import java.util.List;
import siltwright.contamination.Circuit;
import siltwright.model.Machine;

/**
 * When to take oil after a change so that what it let go can be seen.
 *
 * <pre>
 *   t1 = 2 V/⟨Q⟩                     mixed in
 *   t2 = t1 + τ of 14–21 µm(c)       the coarse part is down to 1/e: gives the slope
 *   t3 = t1 + 3 τ of 6–14 µm(c)      5 % left: what the oil was before
 * </pre>
 *
 * <p>τ is the wash-out time constant with a clean element at the mean flow of the duty; idling
 * takes longer. Later than t3 nothing is left to see.
 *
 * <p>Source: own choice of three times on the wash-out law of the contamination balance.
 *
 * @param minutes minutes after the restart, rising; empty where nothing takes the dirt out
 */
public record RestartSampling(List<Double> minutes) {
  private static final double MIN_PER_H = 60;
  private static final int COARSE = 2;
  private static final int FINE = 1;

  public RestartSampling {
    minutes = List.copyOf(minutes);
  }

  /** Returns the times for a machine. */
  public static RestartSampling of(Machine machine) {
    Circuit circuit = Circuit.of(machine);
    double mixed = 2 * machine.reservoir().volumeL() / circuit.meanFlowLPerMin();
    double coarse = MIN_PER_H * circuit.washOutH(COARSE);
    double fine = MIN_PER_H * circuit.washOutH(FINE);
    return Double.isFinite(mixed + coarse + fine)
        ? new RestartSampling(
            List.of(mixed, mixed + coarse, mixed + Math.max(3 * fine, 2 * coarse)))
        : new RestartSampling(List.of());
  }
}
