/** The analysis {@code tune}: the interval engine as a service. */
package siltwright.interval.internal;
