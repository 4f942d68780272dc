/** Filled cards brought into a store, each as a change of the element with its evidence. */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.card.store;
