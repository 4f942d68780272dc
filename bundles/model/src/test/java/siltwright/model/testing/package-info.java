/** Files that nobody meant to write, for tests of what reads files. */
package siltwright.model.testing;
