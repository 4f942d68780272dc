/** The analysis {@code compare}: a thin adapter over {@code siltwright.fleet}. */
package siltwright.fleet.internal;
