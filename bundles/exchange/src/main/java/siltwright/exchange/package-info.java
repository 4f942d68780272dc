/** Tables of records from files: strict about every row, helpful about how they were written. */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.exchange;
