/** The analysis {@code bundles}: what is installed. */
package siltwright.addons.internal;
