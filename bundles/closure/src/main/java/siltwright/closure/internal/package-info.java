/** The analysis {@code fit}: a thin adapter over {@code siltwright.closure}. */
package siltwright.closure.internal;
