/** View of filled service cards: a form that checks while it is filled, and keeps into a store. */
package siltwright.card.view;
