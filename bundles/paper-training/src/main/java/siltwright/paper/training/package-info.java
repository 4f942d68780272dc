/** The training pack on paper and on slides. */
package siltwright.paper.training;
