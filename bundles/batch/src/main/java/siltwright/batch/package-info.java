/**
 * The change interval of very many machines: read and written one at a time, computed several at a
 * time, broken off and gone on with.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.batch;
