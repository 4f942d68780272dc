/**
 * Records in and out of a store: tables as people and laboratories keep them, documents of
 * telematics, fleet files.
 *
 * <p>A file is looked at first ({@link siltwright.transfer.Detection}): how it is written, what its
 * columns are, in which units. That gives a {@link siltwright.transfer.Mapping}, which a person can
 * look at, correct and keep under a name; only then is it read.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.transfer;
