/** The view of component lives: the records, the fits, and what is left out of them. */
package siltwright.life.view;
