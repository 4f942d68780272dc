/** The analysis {@code samples}: a thin adapter over {@code siltwright.samples}. */
package siltwright.samples.internal;
