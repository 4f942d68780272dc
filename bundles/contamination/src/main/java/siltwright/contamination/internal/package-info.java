/** The simulation as an analysis: its parameters, tables, figures and findings. */
package siltwright.contamination.internal;
