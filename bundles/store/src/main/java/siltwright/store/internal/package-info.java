/** The store as services: histories for analyses, the analysis {@code history}. */
package siltwright.store.internal;
