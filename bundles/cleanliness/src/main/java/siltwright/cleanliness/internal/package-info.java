/** The analysis of cleanliness codes as a service. */
package siltwright.cleanliness.internal;
