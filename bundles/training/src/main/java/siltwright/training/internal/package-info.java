/** The analysis {@code training}. */
package siltwright.training.internal;
