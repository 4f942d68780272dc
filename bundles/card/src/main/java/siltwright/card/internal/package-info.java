/** The analyses {@code card}, {@code card-template} and {@code card-record}. */
package siltwright.card.internal;
