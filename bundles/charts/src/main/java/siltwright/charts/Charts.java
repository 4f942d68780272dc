package siltwright.charts;

import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.function.Consumer;
import javax.imageio.ImageIO;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.title.TextTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.RectangleInsets;
import siltwright.analysis.Figure;
import siltwright.analysis.Panel;

/**
 * Figures as charts.
 *
 * <p>The same figure, theme and size give the same bytes on one machine. Values that are not
 * finite, or that a scale has no place for, leave a gap; a panel without any says so. A log axis
 * shows at most nine decades below its greatest value.
 */
public final class Charts {
  private static final int TEXT_SIZE = 12;
  private static final int TITLE_SIZE = 15;
  private static final int MOST_PIXELS = 16_384;

  private Charts() {}

  /** Returns a figure as a chart for the screen, with its title. */
  public static JFreeChart chart(Figure figure, ChartTheme theme) {
    JFreeChart chart = untitled(figure, theme);
    TextTitle title = new TextTitle(figure.title(), font().deriveFont(Font.BOLD, TITLE_SIZE));
    title.setPaint(theme.ink());
    title.setHorizontalAlignment(HorizontalAlignment.LEFT);
    title.setTextAlignment(HorizontalAlignment.LEFT);
    title.setMargin(new RectangleInsets(0, 0, 8, 0));
    chart.setTitle(title);
    return chart;
  }

  /**
   * Returns a figure as an {@code <svg>} element to stand in a page: no title in the picture, since
   * the page has it, but title and caption for those who listen; ids that no other figure has; text
   * as text in the reader's own font.
   *
   * @param figure the figure
   * @param theme its colours
   * @param widthPx width of its view box, px, at least 1
   * @param heightPx height of its view box, px, at least 1
   */
  public static String svg(Figure figure, ChartTheme theme, int widthPx, int heightPx) {
    check(widthPx, heightPx, 1);
    JFreeChart chart = untitled(figure, theme);
    return Svg.of(
        new Svg.Label(figure.name(), figure.title(), figure.caption()),
        g2 -> chart.draw(g2, new Rectangle2D.Double(0, 0, widthPx, heightPx)),
        widthPx,
        heightPx);
  }

  /**
   * Returns a drawing that is no chart as an {@code <svg>} element, in the same way.
   *
   * @param name name, which makes its ids
   * @param title what it shows
   * @param caption how to read it
   * @param drawing draws it, on a canvas of that size
   * @param widthPx width of its view box, px, at least 1
   * @param heightPx height of its view box, px, at least 1
   */
  public static String svg(
      String name,
      String title,
      String caption,
      Consumer<Graphics2D> drawing,
      int widthPx,
      int heightPx) {
    check(widthPx, heightPx, 1);
    return Svg.of(new Svg.Label(name, title, caption), drawing, widthPx, heightPx);
  }

  /**
   * Returns a figure as a PNG file, with its title.
   *
   * @param figure the figure
   * @param theme its colours
   * @param widthPx width, px of the layout, at least 1
   * @param heightPx height, px of the layout, at least 1
   * @param scale pixels of the file per px of the layout, such as 2 for a fine screen
   */
  public static byte[] png(
      Figure figure, ChartTheme theme, int widthPx, int heightPx, double scale) {
    return png(
        g2 -> chart(figure, theme).draw(g2, new Rectangle2D.Double(0, 0, widthPx, heightPx)),
        theme.paper(),
        widthPx,
        heightPx,
        scale);
  }

  /**
   * Returns a drawing that is no chart as a PNG file.
   *
   * @param drawing draws it
   * @param paper colour behind it
   * @param widthPx width, px of the layout, at least 1
   * @param heightPx height, px of the layout, at least 1
   * @param scale pixels of the file per px of the layout
   */
  public static byte[] png(
      Consumer<Graphics2D> drawing, Color paper, int widthPx, int heightPx, double scale) {
    check(widthPx, heightPx, scale);
    BufferedImage image =
        new BufferedImage(
            (int) Math.ceil(widthPx * scale),
            (int) Math.ceil(heightPx * scale),
            BufferedImage.TYPE_INT_RGB);
    Graphics2D g2 = image.createGraphics();
    try {
      g2.setRenderingHint(
          RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
      g2.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
      g2.setPaint(paper);
      g2.fillRect(0, 0, image.getWidth(), image.getHeight());
      g2.scale(scale, scale);
      drawing.accept(g2);
    } finally {
      g2.dispose();
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      ImageIO.write(image, "png", out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  private static void check(int widthPx, int heightPx, double scale) {
    double most = Math.max(widthPx, heightPx) * scale;
    if (widthPx < 1 || heightPx < 1 || !(scale > 0) || most > MOST_PIXELS) {
      throw new IllegalArgumentException(
          widthPx + " x " + heightPx + " px at scale " + scale + ": 1 to " + MOST_PIXELS + " px");
    }
  }

  private static Font font() {
    return new Font(Font.SANS_SERIF, Font.PLAIN, TEXT_SIZE);
  }

  private static JFreeChart untitled(Figure figure, ChartTheme theme) {
    Extent across = Extent.x(figure);
    boolean empty =
        across.isEmpty() || figure.panels().stream().allMatch(p -> Extent.y(p).isEmpty());
    ScaleAxis x = new ScaleAxis(figure.x(), across.across());
    style(x, theme);
    x.setLabel(PanelPlot.title(figure.x()));
    x.setAxisLinePaint(theme.quiet());
    x.setTickLabelsVisible(!empty);
    x.setTickMarksVisible(!empty);
    List<PanelPlot> panels = figure.panels().stream().map(p -> panel(p, theme)).toList();
    FigurePlot plot = new FigurePlot(x, panels);
    plot.setInsets(RectangleInsets.ZERO_INSETS);
    plot.setBackgroundPaint(null);
    plot.setOutlineVisible(false);
    JFreeChart chart = new JFreeChart(null, null, plot, false);
    chart.setBackgroundPaint(theme.paper());
    chart.setBorderVisible(false);
    chart.setPadding(new RectangleInsets(14, 16, 12, 22));
    chart
        .getRenderingHints()
        .put(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    chart.setTextAntiAlias(true);
    return chart;
  }

  private static PanelPlot panel(Panel panel, ChartTheme theme) {
    Extent upwards = Extent.y(panel);
    ScaleAxis y = new ScaleAxis(panel.y(), upwards.upwards());
    style(y, theme);
    y.setAxisLineVisible(false);
    y.setTickMarksVisible(false);
    y.setTickLabelsVisible(!upwards.isEmpty());
    PanelPlot plot = new PanelPlot(panel, theme, font(), y);
    plot.setBackgroundPaint(null);
    plot.setOutlineVisible(false);
    plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
    Color faint = mix(theme.grid(), theme.paper());
    boolean lines = !upwards.isEmpty();
    plot.setRangeGridlinesVisible(lines);
    plot.setDomainGridlinesVisible(lines);
    plot.setRangeMinorGridlinesVisible(lines);
    plot.setDomainMinorGridlinesVisible(lines);
    plot.setRangeGridlinePaint(theme.grid());
    plot.setDomainGridlinePaint(faint);
    plot.setRangeMinorGridlinePaint(faint);
    plot.setDomainMinorGridlinePaint(faint);
    plot.setRangeGridlineStroke(Look.stroke(1, null));
    plot.setDomainGridlineStroke(Look.stroke(1, null));
    plot.setRangeMinorGridlineStroke(Look.stroke(0.7f, null));
    plot.setDomainMinorGridlineStroke(Look.stroke(0.7f, null));
    return plot;
  }

  private static Color mix(Color a, Color b) {
    return new Color(
        (a.getRed() + b.getRed()) / 2,
        (a.getGreen() + b.getGreen()) / 2,
        (a.getBlue() + b.getBlue()) / 2);
  }

  private static void style(NumberAxis axis, ChartTheme theme) {
    axis.setLabelFont(font());
    axis.setLabelPaint(theme.ink());
    axis.setTickLabelFont(font().deriveFont(11.5f));
    axis.setTickLabelPaint(theme.quiet());
    axis.setTickMarkPaint(theme.quiet());
    axis.setTickLabelInsets(new RectangleInsets(3, 0, 2, 6));
  }
}
