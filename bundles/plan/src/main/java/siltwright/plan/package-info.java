/**
 * When which machine of a fleet has its element changed over the next months, who drives where for
 * it, and what has to lie in store.
 *
 * <p>Hour meters become hours to come with their uncertainty ({@link siltwright.plan.Usage}); the
 * cost curve of the interval becomes what an early or late change costs ({@link
 * siltwright.plan.ExcessCost}); {@link siltwright.plan.Planner} puts changes together into visits
 * so that both and the travel cost least, and says how far from the least that can be at most;
 * {@link siltwright.plan.Demand} tells what stock covers it.
 *
 * <p>Sources and derivations: docs/plan.md.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.plan;
