/** The view in which an engineer finds an interval by hand. */
package siltwright.interval.view;
