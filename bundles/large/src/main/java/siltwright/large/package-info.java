/**
 * Records that do not fit in memory: component lives, events and oil samples by the hundred
 * million, in Parquet files, read part by part by whatever works on them. What parts come to is
 * added in their order, so that the answer does not depend on who worked.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.large;
