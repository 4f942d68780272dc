/** The service card as a sheet to print: HTML and PDF. */
package siltwright.paper.card;
