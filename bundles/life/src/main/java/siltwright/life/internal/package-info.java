/** The analyses of component life: thin adapters over {@code siltwright.life}. */
package siltwright.life.internal;
