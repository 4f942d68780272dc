/**
 * The contamination balance of a machine's oil: where dirt comes in, what the filters take, what a
 * change of the element sheds, and what goes through the pump meanwhile.
 *
 * <p>{@link siltwright.contamination.Circuit} turns a machine into coefficients, {@link
 * siltwright.contamination.CycleSweep} finds the service cycle that repeats itself for any interval
 * and procedure, {@link siltwright.contamination.Simulation} steps any number of cycles and oil
 * changes through time, {@link siltwright.contamination.Wear} says what the counts do to a
 * component.
 *
 * <p>The package is cut by time scale: what happens in a step, in a cycle, and over all intervals
 * are classes of their own, because the oil has two clocks (minutes and hundreds of hours) and a
 * plain integrator spends its time on the fast one. Derivations: docs/theory.md.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.contamination;
