/** The plan as files for other programs: a calendar (RFC 5545) and a workbook of lists. */
package siltwright.plan.files.internal;
