/** The view <em>Records</em>: a store, what was done to it, and files brought in. */
package siltwright.store.view;
