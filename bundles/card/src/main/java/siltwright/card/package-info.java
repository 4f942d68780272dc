/**
 * The service card: what one change of one element needs, in which order and why, from the
 * machine's own numbers and a template that a team can edit; and the check of cards that come back
 * filled.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.card;
