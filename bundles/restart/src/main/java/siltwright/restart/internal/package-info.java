/** The analyses of restart samples: thin adapters over {@code siltwright.restart}. */
package siltwright.restart.internal;
