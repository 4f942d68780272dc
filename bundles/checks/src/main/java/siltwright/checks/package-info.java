/**
 * Checks that a fitter can make at the machine: seal ring, plug thread, tank pressure, open tank,
 * pressure drop.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.checks;
