package siltwright.charts.screen;

import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2D;
import java.awt.Graphics2D;
import java.io.IOException;
import java.io.OutputStream;
import java.util.function.Consumer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.util.Matrix;

/** A picture as a page of PDF: vectors, texts as outlines, so that no font is missing anywhere. */
public final class PdfPicture {
  private static final float POINTS_PER_PX = 0.75f;

  private PdfPicture() {}

  /**
   * Writes a page as large as the picture.
   *
   * @param title title of the document
   * @param subject what it shows; empty for none
   * @param widthPx width of the picture, px
   * @param heightPx height of the picture, px
   * @param painter paints it
   * @param out where to; not closed
   */
  public static void write(
      String title,
      String subject,
      float widthPx,
      float heightPx,
      Consumer<Graphics2D> painter,
      OutputStream out)
      throws IOException {
    try (PDDocument document = new PDDocument()) {
      PDPage page = new PDPage(new PDRectangle(widthPx * POINTS_PER_PX, heightPx * POINTS_PER_PX));
      document.addPage(page);
      PDDocumentInformation about = new PDDocumentInformation();
      about.setTitle(title);
      if (!subject.isEmpty()) {
        about.setSubject(subject);
      }
      document.setDocumentInformation(about);
      PdfBoxGraphics2D g2 = new PdfBoxGraphics2D(document, widthPx, heightPx);
      painter.accept(g2);
      g2.dispose();
      try (PDPageContentStream content = new PDPageContentStream(document, page)) {
        content.transform(Matrix.getScaleInstance(POINTS_PER_PX, POINTS_PER_PX));
        content.drawForm(g2.getXFormObject());
      }
      document.save(out);
    }
  }
}
