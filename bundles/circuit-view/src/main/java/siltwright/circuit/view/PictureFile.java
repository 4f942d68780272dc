package siltwright.circuit.view;

import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2D;
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
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.util.Matrix;
import org.w3c.dom.Document;
import siltwright.charts.ChartTheme;

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
  /** Vectors; texts as outlines, so that no font is missing anywhere. */
  PDF {
    @Override
    void write(List<Picture> pictures, double motionS, OutputStream out) throws IOException {
      float width = (float) width(pictures);
      float height = (float) height(pictures);
      try (PDDocument document = new PDDocument()) {
        PDPage page = new PDPage(new PDRectangle(width * PT_PER_PX, height * PT_PER_PX));
        document.addPage(page);
        PDDocumentInformation about = new PDDocumentInformation();
        about.setTitle(pictures.get(0).title());
        document.setDocumentInformation(about);
        PdfBoxGraphics2D g = new PdfBoxGraphics2D(document, width, height);
        paint(pictures, motionS, g);
        g.dispose();
        try (PDPageContentStream content = new PDPageContentStream(document, page)) {
          content.transform(Matrix.getScaleInstance(PT_PER_PX, PT_PER_PX));
          content.drawForm(g.getXFormObject());
        }
        document.save(out);
      }
    }
  };

  private static final float PT_PER_PX = 0.75f;

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
