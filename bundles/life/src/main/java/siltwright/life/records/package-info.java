/** Lives out of a user's table: the columns, every row checked, what was refused. */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.life.records;
