/** Filled cards brought into a store. */
package siltwright.card.store.internal;
