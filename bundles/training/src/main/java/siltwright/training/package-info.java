/**
 * What an instructor teaches from: the right and the wrong way to change an element, in grams, in
 * one ratio and in money, from the team's own machines, and a quiz whose answers are worked.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.training;
