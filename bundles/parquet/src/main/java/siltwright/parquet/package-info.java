/**
 * Tables in Parquet files: the rows of one that somebody wrote, one after the other, and a file
 * written of rows.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.parquet;
