package siltwright.charts.screen;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.List;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.charts.ChartTheme;

class FigureFileTest {
  private static final double[] XS = {100, 250.5, 400};
  private static final Figure FIGURE =
      new Figure(
          "cost",
          "Cost against interval",
          "How to read it",
          Axis.linear("Interval", "h"),
          List.of(
              new Panel(
                  Axis.linear("Cost", "EUR/h"),
                  List.of(
                      new Layer.Line(
                          "sum, all", XS, new double[] {3, 1 / 3.0, Double.NaN}, Layer.Style.MAIN),
                      new Layer.Band("draws", XS, new double[] {1, 2, 3}, new double[] {4, 5, 6}),
                      new Layer.At("today", 300, Layer.Style.REFERENCE)))));

  @Test
  void pngHasTwoPixelsForEachOfTheScreen() throws Exception {
    BufferedImage image =
        ImageIO.read(new ByteArrayInputStream(FigureFile.PNG.bytes(FIGURE, 400, 300)));
    assertEquals(800, image.getWidth());
    assertEquals(600, image.getHeight());
  }

  @Test
  void svgIsTheOneOfReports() {
    assertTrue(new String(FigureFile.SVG.bytes(FIGURE, 400, 300), UTF_8).contains("Cost (EUR/h)"));
  }

  /** Outside check: PDFBox reads the file back and draws the curve in its colour. */
  @Test
  void pdfIsReadBackWithSizeTitleAndCurve() throws Exception {
    try (PDDocument document = Loader.loadPDF(FigureFile.PDF.bytes(FIGURE, 400, 300))) {
      assertEquals(1, document.getNumberOfPages());
      assertEquals(300, document.getPage(0).getMediaBox().getWidth(), 0.01, "400 px in points");
      assertEquals("Cost against interval", document.getDocumentInformation().getTitle());
      BufferedImage drawn = new PDFRenderer(document).renderImageWithDPI(0, 96);
      int colour = ChartTheme.LIGHT.lines().get(0).getRGB() & 0xffffff;
      int hits = 0;
      for (int x = 0; x < drawn.getWidth(); x++) {
        for (int y = 0; y < drawn.getHeight(); y++) {
          hits += (drawn.getRGB(x, y) & 0xffffff) == colour ? 1 : 0;
        }
      }
      assertTrue(hits > 50, hits + " pixels of the curve");
    }
  }

  @Test
  void csvHasAllDigitsUnitsAndEachXOnce() {
    assertEquals(
        "Interval [h],\"sum, all [EUR/h]\",\"draws, low [EUR/h]\",\"draws, high [EUR/h]\","
            + "today [h]\r\n"
            + "100,3,1,4,300\r\n"
            + "250.5,0.3333333333333333,2,5,\r\n"
            + "400,,3,6,\r\n",
        new String(FigureFile.CSV.bytes(FIGURE, 400, 300), UTF_8));
    assertTrue(FigureFile.tabbed(FIGURE).startsWith("Interval [h]\tsum, all [EUR/h]\t"));
  }
}
