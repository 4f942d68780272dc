/** The checks as services. */
package siltwright.checks.internal;
