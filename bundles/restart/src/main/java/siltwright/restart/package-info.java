/** What a change of the element let go, read from counts after the restart. */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.restart;
