/** The window. */
package siltwright.workbench.internal;
