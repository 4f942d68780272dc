/** The command {@code tune-many}. */
package siltwright.batch.internal;
