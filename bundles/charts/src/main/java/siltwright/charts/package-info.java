/**
 * Figures, which are data, as charts: for the screen, as SVG and as PNG.
 *
 * <p>The only package that knows the chart library. What a line means decides how it looks; the
 * colours are data of a {@link siltwright.charts.ChartTheme}.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.charts;
