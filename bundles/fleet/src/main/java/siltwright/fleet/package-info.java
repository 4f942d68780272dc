/**
 * Fleets side by side: do they differ, by how much, how sure is that, and what is it worth.
 *
 * <p>Recurrent events enter as columns ({@link siltwright.fleet.EventData}): machines, the hours
 * each was watched, the events in them. {@link siltwright.fleet.MeanCumulative} counts them without
 * a law, {@link siltwright.fleet.RateModel} compares fleets with allowance for what else differs,
 * {@link siltwright.fleet.PowerLaw} and {@link siltwright.fleet.TrendTests} ask whether they get
 * more frequent, {@link siltwright.fleet.PoissonRates} and {@link siltwright.fleet.GammaPoisson}
 * handle few events, {@link siltwright.fleet.MachineRatio} anything that is a sum over a sum, such
 * as cost per hour, and {@link siltwright.fleet.BeforeAfter} an intervention. Lives are the
 * business of {@code siltwright.life}.
 *
 * <p>The machine, not the event, is the unit that varies: variances are sums over machines, so that
 * one bad machine cannot pass for a bad fleet.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.fleet;
