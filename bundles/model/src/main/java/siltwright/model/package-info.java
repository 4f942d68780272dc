/**
 * The machine model: what a fleet's machines are made of, in immutable records with the unit in
 * each name. Every analysis and view reads this one model and nothing else.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.2")
package siltwright.model;
