/** The analysis {@code element}: a thin adapter over {@code siltwright.element}. */
package siltwright.element.internal;
