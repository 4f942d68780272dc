/**
 * The change interval of very many machines: read and written one at a time, computed several at a
 * time, broken off and gone on with.
 */
package siltwright.batch;
