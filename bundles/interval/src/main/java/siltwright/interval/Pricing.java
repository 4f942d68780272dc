package siltwright.interval;

import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.math3.special.Gamma;
import siltwright.contamination.Circuit;
import siltwright.contamination.Cycle;
import siltwright.contamination.Wear;
import siltwright.model.Acute;
import siltwright.model.ChangeProcedure;
import siltwright.model.Component;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.model.Survival;

/**
 * What a service cycle costs per hour.
 *
 * <pre>
 *   g = change/T + equipment + sum over components of
 *       at failure:  (renewal + consequence) (κ̄ / (η Γ(1 + 1/β)) + a N)
 *       by age:      age replacement with η/κ̄ and the hazard a N beside it
 * </pre>
 *
 * <p>κ̄ is the mean relative wear over the cycle, wash-out included, N the large particles that
 * pass an hour, a the chance of a failure per particle. Renewal reward over the cycle that repeats
 * itself. A part replaced at failure is renewed by wear and repaired after an acute failure, so
 * that the rates add; a part replaced by age is new after either.
 *
 * <p>Source: design brief, change interval.
 */
final class Pricing {
  private static final int J = SizeBands.COUNT;
  private static final double ML_PER_L = 1000;
  private static final double MIN_PER_H = 60;

  private final Machine machine;
  private final double equipmentPerH;
  private final Part[] parts;

  /** A component, ready to be priced. */
  private static final class Part {
    private double failureMoney;
    private double meanLifeH;
    private double shape;

    /** Life by another law than Weibull; null where it is Weibull. */
    private LawReplacement other;

    private double scaleH;
    private boolean byAge;
    private OptionalDouble ageH;
    private double plannedMoney;

    /** Cost at the best age, of a part that is replaced at it and wears by Weibull's law. */
    private BestAgeCost bestAge;

    /** Failures per hour for each particle per mL of a band in the tank. */
    private final double[] acute = new double[J];
  }

  Pricing(Machine machine, Circuit circuit, double equipmentPerH) {
    this(machine, circuit, equipmentPerH, null);
  }

  /**
   * Prepares the prices of a machine like another: what is known of the other's parts that are the
   * same is taken from there.
   *
   * @param like prices of the other, its components in the same order; null for none
   */
  Pricing(Machine machine, Circuit circuit, double equipmentPerH, Pricing like) {
    this.machine = machine;
    this.equipmentPerH = equipmentPerH;
    List<Component> components = machine.components();
    parts = new Part[components.size()];
    for (int i = 0; i < parts.length; i++) {
      Component c = components.get(i);
      Part p = new Part();
      p.failureMoney = c.renewalMoney() + c.consequenceMoney();
      Survival life = c.life().survival();
      p.shape = life.weibullShape().orElse(Double.NaN);
      p.scaleH = c.life().scaleH();
      p.other = life.weibullShape().isPresent() ? null : new LawReplacement(life);
      p.meanLifeH =
          p.scaleH * (p.other == null ? Gamma.gamma(1 + 1 / p.shape) : p.other.meanLife());
      p.byAge = c.replacement().byAge();
      p.ageH = c.replacement().ageH();
      p.plannedMoney = c.replacement().plannedMoney();
      if (c.acute().isPresent()) {
        Acute a = c.acute().get();
        double[] passed = Wear.passedShare(machine, c);
        double mlPerH = circuit.meanFlowLPerMin() * ML_PER_L * MIN_PER_H * c.flowShare();
        for (int j = SizeBands.bandFrom(a.sizeUmC()); j < J; j++) {
          p.acute[j] = a.hazardPerParticle() * mlPerH * passed[j];
        }
      }
      if (p.byAge && p.ageH.isEmpty() && p.other == null) {
        BestAgeCost known = like == null ? null : like.parts[i].bestAge;
        p.bestAge =
            known != null && known.isOf(p.shape, p.plannedMoney, p.failureMoney)
                ? known
                : new BestAgeCost(p.shape, p.plannedMoney, p.failureMoney);
      }
      parts[i] = p;
    }
  }

  /** What one change costs, element included. */
  private double changeMoney(ChangeProcedure p) {
    return machine.returnFilter().element().priceMoney() + machine.serviceMoney(p);
  }

  /** All of it, money per hour; infinite for a cycle that does not repeat itself. */
  double totalPerH(Cycle cycle, ChangeProcedure procedure) {
    if (cycle.state() != Cycle.State.REPEATS) {
      return Double.POSITIVE_INFINITY;
    }
    double sum = changeMoney(procedure) / cycle.intervalH() + equipmentPerH;
    for (int i = 0; i < parts.length; i++) {
      sum += perH(parts[i], cycle.meanWear(i), acutePerH(parts[i], cycle));
    }
    return sum;
  }

  /** The split; {@code shut} is the cycle that the same circuit has with its bypass shut. */
  CostSplit split(Cycle cycle, Cycle shut, ChangeProcedure procedure) {
    double wear = 0;
    double acute = 0;
    double all = 0;
    for (int i = 0; i < parts.length; i++) {
      double byWear = perH(parts[i], shut.meanWear(i), 0);
      wear += byWear;
      acute += perH(parts[i], shut.meanWear(i), acutePerH(parts[i], shut)) - byWear;
      all += perH(parts[i], cycle.meanWear(i), acutePerH(parts[i], cycle));
    }
    double interval = cycle.intervalH();
    return new CostSplit(
        machine.returnFilter().element().priceMoney() / interval,
        machine.serviceMoney(procedure) / interval,
        equipmentPerH,
        wear,
        acute,
        all - wear - acute);
  }

  private static double acutePerH(Part p, Cycle cycle) {
    double sum = 0;
    for (int j = 0; j < J; j++) {
      sum += p.acute[j] * cycle.meanPerMl(j);
    }
    return sum;
  }

  private static double perH(Part p, double wear, double acutePerH) {
    if (!p.byAge) {
      return p.failureMoney * (wear / p.meanLifeH + acutePerH);
    }
    if (wear == 0) {
      return p.failureMoney * acutePerH;
    }
    double scaleH = p.scaleH / wear;
    if (p.other != null) {
      return p.other.costPerH(scaleH, acutePerH, p.plannedMoney, p.failureMoney, p.ageH);
    }
    if (p.ageH.isEmpty()) {
      return p.bestAge.perH(scaleH, acutePerH);
    }
    AgeReplacement part =
        new AgeReplacement(p.shape, scaleH, acutePerH, p.plannedMoney, p.failureMoney);
    return part.costPerH(p.ageH.getAsDouble());
  }
}
