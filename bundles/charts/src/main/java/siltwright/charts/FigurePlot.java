package siltwright.charts;

import java.awt.Graphics2D;
import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.CombinedDomainXYPlot;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.PlotState;

/** Panels one above the other; leaves room on the right for labels that stand beside an area. */
final class FigurePlot extends CombinedDomainXYPlot {
  private static final long serialVersionUID = 1;

  private final transient List<PanelPlot> panels;

  FigurePlot(ValueAxis x, List<PanelPlot> panels) {
    super(x);
    this.panels = panels;
    setGap(14);
    panels.forEach(this::add);
  }

  @Override
  public void draw(
      Graphics2D g2,
      Rectangle2D area,
      Point2D anchor,
      PlotState parentState,
      PlotRenderingInfo info) {
    double margin = 0;
    for (PanelPlot panel : panels) {
      margin = Math.max(margin, panel.besideWidth(g2, area.getWidth()));
    }
    Rectangle2D kept =
        new Rectangle2D.Double(
            area.getX(), area.getY(), area.getWidth() - margin, area.getHeight());
    super.draw(g2, kept, anchor, parentState, info);
  }
}
