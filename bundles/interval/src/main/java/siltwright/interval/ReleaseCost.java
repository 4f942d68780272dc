package siltwright.interval;

import java.util.List;
import siltwright.contamination.Circuit;
import siltwright.contamination.Cycle;
import siltwright.contamination.CycleSweep;
import siltwright.contamination.Wear;
import siltwright.model.Bands;
import siltwright.model.Machine;

/**
 * What dirt costs that a change lets into the tank: the wear and the acute failures of a service
 * cycle that begins with it, less those of one that begins clean.
 *
 * <pre>  money = T [g(T; release) - g(T; none)]  </pre>
 *
 * <p>Source: design brief, change interval; by the sweep and the prices of {@code tune}. Not for
 * use by several threads.
 */
public final class ReleaseCost {
  private final Machine machine;
  private final CycleSweep sweep;
  private final Pricing pricing;
  private final Cycle cycle;

  private ReleaseCost(Machine machine) {
    this.machine = machine;
    Circuit circuit = Circuit.inTheLongRun(machine);
    List<Wear> wear = Wear.of(machine);
    sweep = new CycleSweep(circuit, wear);
    pricing = new Pricing(machine, circuit, 0);
    cycle = new Cycle(wear.size());
  }

  /** Prepares the cost of releases into a machine. */
  public static ReleaseCost of(Machine machine) {
    return new ReleaseCost(machine);
  }

  /**
   * Returns the money that a release costs.
   *
   * @param particles particles of each band let into the tank by one change
   * @param intervalH hours from that change to the next, h
   * @return money; infinite if no cycle repeats itself with so much dirt
   */
  public double money(Bands particles, double intervalH) {
    double with = perH(particles, intervalH);
    return intervalH * (with - perH(Bands.ZERO, intervalH));
  }

  private double perH(Bands particles, double intervalH) {
    sweep.fill(intervalH, 0, particles, cycle);
    return pricing.totalPerH(cycle, machine.procedures().get(0));
  }
}
