package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.integration.IterativeLegendreGaussIntegrator;
import org.apache.commons.math3.distribution.LogNormalDistribution;
import org.apache.commons.math3.special.Gamma;
import org.junit.jupiter.api.Test;
import siltwright.contamination.Circuit;
import siltwright.contamination.Cycle;
import siltwright.contamination.CycleSweep;
import siltwright.contamination.Wear;
import siltwright.model.Acute;
import siltwright.model.Bands;
import siltwright.model.BasicLife;
import siltwright.model.BetaPoint;
import siltwright.model.ChangeProcedure;
import siltwright.model.Component;
import siltwright.model.ComponentLife;
import siltwright.model.Ingress;
import siltwright.model.IngressSource;
import siltwright.model.Machine;
import siltwright.model.NamedLife;
import siltwright.model.PressureFilter;
import siltwright.model.Replacement;
import siltwright.model.SizeBands;
import siltwright.model.SizeDistribution;

/**
 * What parts cost an hour, written out: renewal reward (Barlow and Proschan 1965) with integrals of
 * Commons Math, from the wear and the counts of the cycle.
 */
class PricingTest {
  private static final double T = 400;
  private static final double HAZARD = 3e-13;
  private static final double FLOW_SHARE = 0.4;
  private static final double PLANNED = 2500;
  private static final ComponentLife WEIBULL = Machines.small().components().get(0).life();
  private static final ComponentLife LOGNORMAL =
      WEIBULL.withLaw(new NamedLife(BasicLife.LOGNORMAL.id(), Optional.empty())).withShape(1.8);

  /** 200 L/min x 1000 mL/L x 60 min/h, of which this part passes a share. */
  private static final double ML_PER_H = FLOW_SHARE * 200 * 1000 * 60;

  private static Machine machine(ComponentLife life, Replacement replacement, Bands sensitivity) {
    Machine m = Machines.small();
    Component c = m.components().get(0);
    Component pump =
        new Component(
            c.id(),
            c.kind(),
            false,
            FLOW_SHARE,
            sensitivity,
            c.exponent(),
            c.reference(),
            0,
            life,
            Optional.of(new Acute(14, HAZARD)),
            replacement,
            7000,
            5000);
    return m.withComponents(List.of(pump));
  }

  private static Machine machine(ComponentLife life, OptionalDouble ageH) {
    Replacement byAge = new Replacement(true, ageH, PLANNED);
    return machine(life, byAge, Machines.small().components().get(0).sensitivity());
  }

  private static Cycle cycle(Machine m, Circuit circuit) {
    Cycle cycle = new Cycle(1);
    new CycleSweep(circuit, Wear.of(m)).fill(T, Machines.first(m), cycle);
    return cycle;
  }

  private static double hazardPerH(Cycle cycle) {
    double sum = 0;
    for (int j = 2; j < SizeBands.COUNT; j++) { // from 14 um(c) on
      sum += HAZARD * ML_PER_H * cycle.meanPerMl(j);
    }
    return sum;
  }

  /** What the part costs beside the changes, by the program. */
  private static double partPerH(Machine m) {
    // element 100, seals 10, 1 h x 70, 1 h x 150, 1 L x 4
    return new CostCurve(m, 0).perH(T, Machines.first(m)) - 334 / T;
  }

  private static double costPerH(UnivariateFunction reliability, double ageH) {
    double service =
        new IterativeLegendreGaussIntegrator(16, 1e-10, 1e-10)
            .integrate(100_000, reliability, 0, ageH);
    double left = reliability.value(ageH);
    return (PLANNED * left + 12_000 * (1 - left)) / service;
  }

  private static double least(UnivariateFunction reliability) {
    double least = Double.POSITIVE_INFINITY;
    for (double age = 2000; age < 4e5; age *= 1.03) {
      least = Math.min(least, costPerH(reliability, age));
    }
    return least;
  }

  @Test
  void aPartRenewedAtAnAgeCostsWhatItsRenewalsCost() {
    Machine m = machine(WEIBULL, OptionalDouble.of(5000));
    Cycle cycle = cycle(m, Circuit.inTheLongRun(m));
    double scaleH = 9000 / cycle.meanWear(0);
    double hazard = hazardPerH(cycle);
    UnivariateFunction left = t -> Math.exp(-Math.pow(t / scaleH, 1.8) - hazard * t);
    double expected = costPerH(left, 5000);
    assertEquals(expected, partPerH(m), 1e-8 * expected);
    double best = least(left);
    assertEquals(best, partPerH(machine(WEIBULL, OptionalDouble.empty())), 1e-4 * best);
  }

  /** The hours of a lognormal life are kept at points: theory, other laws of life. */
  @Test
  void aPartOfAnotherLawIsPricedByThatLaw() {
    Machine m = machine(LOGNORMAL, OptionalDouble.of(5000));
    Cycle cycle = cycle(m, Circuit.inTheLongRun(m));
    double scaleH = 9000 / cycle.meanWear(0);
    double hazard = hazardPerH(cycle);
    LogNormalDistribution life = new LogNormalDistribution(Math.log(scaleH), 1 / 1.8);
    UnivariateFunction left = t -> (1 - life.cumulativeProbability(t)) * Math.exp(-hazard * t);
    double expected = costPerH(left, 5000);
    assertEquals(expected, partPerH(m), 1e-3 * expected);
    double best = least(left);
    assertEquals(best, partPerH(machine(LOGNORMAL, OptionalDouble.empty())), 2e-3 * best);

    Machine atFailure = machine(LOGNORMAL, Replacement.AT_FAILURE, Bands.of(1, 2, 4, 4, 4, 4));
    double meanH = 9000 * Math.exp(1 / (2 * 1.8 * 1.8));
    double rates = 12_000 * (cycle.meanWear(0) / meanH + hazard);
    assertEquals(rates, partPerH(atFailure), 2e-3 * rates);
  }

  /** What would wear it does not come in: what is left is chance. */
  @Test
  void aPartThatDoesNotWearFailsByChanceOnly() {
    SizeDistribution coarse = new SizeDistribution("coarse", Bands.of(0, 0, 0.3, 0.3, 0.2, 0.2));
    Ingress in = new Ingress(List.of(), List.of(new IngressSource("rods", 30, coarse)));
    Replacement byAge = new Replacement(true, OptionalDouble.empty(), PLANNED);
    for (ComponentLife life : List.of(WEIBULL, LOGNORMAL)) {
      Machine m = machine(life, byAge, Bands.of(1, 0, 0, 0, 0, 0)).withIngress(in);
      m = m.withProcedures(List.of(Machines.first(m).withRelease(0, 0)));
      Cycle cycle = cycle(m, Circuit.inTheLongRun(m));
      assertEquals(0, cycle.meanWear(0));
      double chance = 12_000 * hazardPerH(cycle);
      assertTrue(chance > 0);
      assertEquals(chance, partPerH(m), 1e-9 * chance);
    }
  }

  /** Of each size one particle in five gets through. */
  @Test
  void aPressureFilterKeepsParticlesFromWhatIsBehindIt() {
    PressureFilter filter =
        new PressureFilter(List.of(new BetaPoint(4, 5), new BetaPoint(40, 5)), 1);
    Machine m =
        Machines.pressureFiltered(
            machine(WEIBULL, Replacement.AT_FAILURE, Bands.of(1, 2, 4, 4, 4, 4)), filter);
    Component pump = m.components().get(0);
    Component behind =
        new Component(
            pump.id(),
            pump.kind(),
            true,
            pump.flowShare(),
            pump.sensitivity(),
            pump.exponent(),
            pump.reference(),
            0,
            WEIBULL,
            pump.acute(),
            pump.replacement(),
            7000,
            5000);
    m = m.withComponents(List.of(behind));
    Cycle cycle = cycle(m, Circuit.inTheLongRun(m));
    double rates = cycle.meanWear(0) / (9000 * Gamma.gamma(1 + 1 / 1.8)) + hazardPerH(cycle) / 5;
    assertEquals(12_000 * rates, partPerH(m), 1e-6 * 12_000 * rates);
  }

  /** With a bypass that is shut the part would cost the first two; the rest is the bypass. */
  @Test
  void theBypassCostsWhatAShutOneWouldSave() {
    Machine m = machine(WEIBULL, OptionalDouble.of(5000));
    Circuit circuit = Circuit.inTheLongRun(m);
    double longH = 3000;
    ChangeProcedure p = Machines.first(m);
    Cycle open = new Cycle(1);
    Cycle shut = new Cycle(1);
    new CycleSweep(circuit, Wear.of(m)).fill(longH, p, open);
    new CycleSweep(circuit.withoutBypass(), Wear.of(m)).fill(longH, p, shut);
    CostSplit split = Tuning.along(m, Option.TODAY, p, longH).get(0).orElseThrow().split();
    UnivariateFunction byWear = t -> Math.exp(-Math.pow(t * shut.meanWear(0) / 9000, 1.8));
    UnivariateFunction byBoth = t -> byWear.value(t) * Math.exp(-hazardPerH(shut) * t);
    UnivariateFunction all =
        t -> Math.exp(-Math.pow(t * open.meanWear(0) / 9000, 1.8) - hazardPerH(open) * t);
    double wear = costPerH(byWear, 5000);
    double both = costPerH(byBoth, 5000);
    double most = costPerH(all, 5000);
    assertTrue(most > 1.1 * both, most + " against " + both);
    assertEquals(wear, split.wear(), 1e-8 * most);
    assertEquals(both - wear, split.acute(), 1e-8 * most);
    assertEquals(most - both, split.bypass(), 1e-8 * most);
  }
}
