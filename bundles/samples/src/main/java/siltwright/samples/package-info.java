/** What oil samples say, and how far a count can be trusted. */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.samples;
