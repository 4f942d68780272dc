package siltwright.circuit.view;

import java.awt.Dimension;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.w3c.dom.Document;
import siltwright.charts.ChartTheme;
import siltwright.charts.screen.PdfPicture;

/** Pictures as files, beside each other, on light paper whatever the screen looks like. */
enum PictureFile {
  /** Two pixels for each of the picture's. */
  PNG {
    @Override
    void write(List<Picture> pictures, double motionS, OutputStream out) throws IOException {
      BufferedImage image =
          new BufferedImage(
              (int) Math.ceil(width(pictures) * SCALE),
              (int) Math.ceil(height(pictures) * SCALE),
              BufferedImage.TYPE_INT_RGB);
      Graphics2D g = image.createGraphics();
      try {
        g.scale(SCALE, SCALE);
        paint(pictures, motionS, g);
      } finally {
        g.dispose();
      }
      ImageIO.write(image, "png", out);
    }
  },
  /** Vectors; texts stay texts. */
  SVG {
    @Override
    void write(List<Picture> pictures, double motionS, OutputStream out) throws IOException {
      SVGGeneratorContext context = SVGGeneratorContext.createDefault(document());
      context.setPrecision(2);
      SVGGraphics2D g = new SVGGraphics2D(context, false);
      g.setSVGCanvasSize(
          new Dimension((int) Math.ceil(width(pictures)), (int) Math.ceil(height(pictures))));
      paint(pictures, motionS, g);
      Writer writer = new OutputStreamWriter(out, StandardCharsets.UTF_8);
      g.stream(writer, false);
      writer.flush();
    }
  },
  /** Vectors for paper. */
  PDF {
    @Override
    void write(List<Picture> pictures, double motionS, OutputStream out) throws IOException {
      PdfPicture.write(
          pictures.get(0).title(),
          "",
          (float) width(pictures),
          (float) height(pictures),
          g -> paint(pictures, motionS, g),
          out);
    }
  };

  private static final double SCALE = 2;
  private static final double GAP = 24;

  /**
   * Writes pictures.
   *
   * @param pictures at least one, beside each other in this order
   * @param motionS seconds that the dirt has been moving
   * @param out where to; not closed
   */
  abstract void write(List<Picture> pictures, double motionS, OutputStream out) throws IOException;

  /** Returns the end of its files' names. */
  String ending() {
    return name().toLowerCase(Locale.ROOT);
  }

  static double width(List<Picture> pictures) {
    return pictures.stream().mapToDouble(p -> p.plan().width()).sum() + GAP * (pictures.size() - 1);
  }

  static double height(List<Picture> pictures) {
    return pictures.stream().mapToDouble(p -> p.plan().height()).max().orElse(0);
  }

  static void paint(List<Picture> pictures, double motionS, Graphics2D g) {
    g.setPaint(ChartTheme.LIGHT.paper());
    g.fill(new Rectangle2D.Double(0, 0, width(pictures), height(pictures)));
    for (Picture picture : pictures) {
      picture.onPaper().paint(g, Picture.TEXT, motionS);
      g.translate(picture.plan().width() + GAP, 0);
    }
  }

  private static Document document() {
    try {
      return DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .getDOMImplementation()
          .createDocument("http://www.w3.org/2000/svg", "svg", null);
    } catch (ParserConfigurationException e) {
      throw new IllegalStateException("no XML document", e);
    }
  }
}
