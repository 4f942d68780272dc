/**
 * Records that last: one database behind one class, {@link siltwright.store.Store}, embedded in a
 * file or on a server.
 *
 * <p>Everything that changes the store is an action with a name and a person, done in one
 * transaction. Rows are written once: an edit ends a row and makes another, so the rows themselves
 * are the journal, an undo needs no copy of what was before, and two people who change one row at
 * once cannot lose either's work ({@code docs/decisions/0013-rows-that-are-never-changed.md}).
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.store;
