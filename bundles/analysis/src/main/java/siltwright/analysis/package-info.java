/**
 * The contract of an analysis: one service with an id, typed parameters and a run that returns
 * data. Its command, its view and its section of the report all follow from that one service.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.1")
package siltwright.analysis;
