/** Components that views share: tables of results, files of records, severities, quiet texts. */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.workbench.parts;
