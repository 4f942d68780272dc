/**
 * When the element of a return filter is changed, how, and what it is worth: the long-run cost of
 * an hour of operation as a function of the interval, for every procedure and everything that could
 * be fitted.
 *
 * <p>A cycle of the contamination balance is priced ({@code Pricing}), the cheapest interval
 * searched within the limits ({@link siltwright.interval.Best}), and draws of the uncertain numbers
 * say how far it can be trusted ({@link siltwright.interval.Tuning}).
 *
 * <p>Sources: renewal reward and age replacement as in Barlow and Proschan, Mathematical Theory of
 * Reliability (1965); the cost model is the design brief's. Derivations: docs/theory.md.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.interval;
