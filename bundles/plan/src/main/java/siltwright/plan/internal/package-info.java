/** The analysis {@code plan}: tables in, the engine, and the result with its documents. */
package siltwright.plan.internal;
