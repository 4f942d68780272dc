/** The commands on records that do not fit in memory. */
package siltwright.large.internal;
