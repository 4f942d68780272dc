/** The view of cleanliness: counts and codes of a table of samples, and the restart wash-out. */
package siltwright.cleanliness.view;
