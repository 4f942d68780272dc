/**
 * What happened to the machines: hour meters, element changes, oil samples, pressure drops, parts
 * replaced, faults reported. Analyses read it through {@link siltwright.model.history.FleetHistory}
 * and know nothing of where it is kept.
 *
 * <p>{@link siltwright.model.history.RecordKind} is the one place that says which fields a record
 * has, in which units and within which bounds; store, import and export follow it.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.model.history;
