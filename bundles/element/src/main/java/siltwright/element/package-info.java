/** How long a filter element will still do, from a log of its pressure drop. */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.element;
