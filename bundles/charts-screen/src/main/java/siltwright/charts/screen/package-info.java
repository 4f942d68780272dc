/**
 * Figures on the screen: a component that shows a figure, reads exact values out at the pointer,
 * zooms, pans, copies and saves.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.charts.screen;
