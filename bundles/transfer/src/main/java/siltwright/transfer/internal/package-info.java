/** Import, export, journal and archive as commands. */
package siltwright.transfer.internal;
