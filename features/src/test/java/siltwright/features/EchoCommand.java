package siltwright.features;

import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.function.ToIntFunction;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGraphics2D;
import org.apache.batik.svggen.SVGGraphics2DIOException;
import org.jfree.chart.ChartFactory;
import org.jfree.chart.JFreeChart;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.osgi.framework.FrameworkUtil;

/** The commands of a product made for tests: each does one thing that a test looks at. */
public final class EchoCommand implements ToIntFunction<String[]> {

  @Override
  public int applyAsInt(String[] arguments) {
    switch (arguments.length == 0 ? "" : arguments[0]) {
      case "exit":
        return Integer.parseInt(arguments[1]);
      case "fail":
        throw new IllegalStateException("asked to fail");
      case "storage":
        return waitForInput();
      case "loader":
        ClassLoader loader = EchoCommand.class.getClassLoader();
        System.out.println(
            loader == ClassLoader.getSystemClassLoader() ? "the class path's" : "its own");
        return 0;
      case "draw":
        System.out.println(chart());
        return 0;
      default:
        System.out.println(String.join("|", arguments));
        return 0;
    }
  }

  /** Prints the framework's folder and stays until the input ends. */
  private static int waitForInput() {
    System.out.println(
        Path.of(
            FrameworkUtil.getBundle(EchoCommand.class)
                .getBundleContext()
                .getProperty("org.osgi.framework.storage")));
    try {
      while (System.in.read() >= 0) {
        // nothing is expected
      }
      return 0;
    } catch (IOException e) {
      return 1;
    }
  }

  private static String chart() {
    XYSeries series = new XYSeries("cost");
    series.add(100, 7);
    series.add(500, 3);
    JFreeChart chart =
        ChartFactory.createXYLineChart("", "h", "cost", new XYSeriesCollection(series));
    try {
      SVGGraphics2D svg =
          new SVGGraphics2D(
              DocumentBuilderFactory.newInstance().newDocumentBuilder().newDocument());
      chart.draw((Graphics2D) svg, new Rectangle(300, 200));
      StringWriter text = new StringWriter();
      svg.stream(text);
      return text.toString();
    } catch (ParserConfigurationException | SVGGraphics2DIOException e) {
      throw new IllegalStateException(e);
    }
  }
}
