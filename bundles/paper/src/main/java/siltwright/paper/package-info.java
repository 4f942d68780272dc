/**
 * Sheets to print: one layout as an HTML page and as a PDF, with drawings and codes for scanners.
 * It knows neither machines nor analyses; the only bundle that sees the PDF and code libraries.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.paper;
