/**
 * Results as a document. The writer is a service; it knows results, not machines, so that each
 * analysis has its section with nothing else written.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.report;
