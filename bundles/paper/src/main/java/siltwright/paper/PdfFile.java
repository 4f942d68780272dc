package siltwright.paper;

import com.openhtmltopdf.extend.FSObjectDrawer;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.render.DefaultObjectDrawerFactory;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.font.FontMapper;
import org.apache.pdfbox.pdmodel.font.FontMappers;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * A PDF file. The same sheet gives the same bytes.
 *
 * @param pages number of its pages
 * @param bytes the file; not modified
 */
public record PdfFile(int pages, byte[] bytes) {
  /** Type of the objects that stand for drawings. */
  static final String DRAWING = "image/x-drawing";

  /** Fonts of the system are never asked for: not looked through, not taken. */
  private static final FontMapper OWN_FONT = new OwnFont();

  private static final int BOLD = 700;
  private static final int REGULAR = 400;

  static PdfFile of(String title, String xhtml, List<Drawing> drawings) {
    XRLog.setLoggingEnabled(false);
    FontMappers.set(OWN_FONT);
    DefaultObjectDrawerFactory drawers = new DefaultObjectDrawerFactory();
    drawers.registerDrawer(DRAWING, drawer(drawings));
    PdfRendererBuilder builder =
        new PdfRendererBuilder()
            .useFastMode()
            // tagged for those who listen; and no base fonts, which would be looked for in the
            // system
            .usePdfUaAccessibility(true)
            .withW3cDocument(parse(xhtml), "/")
            .useUriResolver((base, uri) -> null)
            .useObjectDrawerFactory(drawers)
            .useFont(() -> Fonts.open(false), Fonts.FAMILY, REGULAR, FontStyle.NORMAL, true)
            .useFont(() -> Fonts.open(true), Fonts.FAMILY, BOLD, FontStyle.NORMAL, true)
            // under the name by which drawings ask for it
            .useFont(() -> Fonts.open(false), Fonts.DRAWN, REGULAR, FontStyle.NORMAL, true)
            .useFont(() -> Fonts.open(true), Fonts.DRAWN, BOLD, FontStyle.NORMAL, true);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
      renderer.createPDFWithoutClosing();
      PDDocument document = renderer.getPdfDocument();
      document.setDocumentInformation(about(title));
      document.setDocumentId((long) xhtml.hashCode());
      document.save(out);
      return new PdfFile(document.getNumberOfPages(), out.toByteArray());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** No time of making: it would make every file another one. */
  private static PDDocumentInformation about(String title) {
    PDDocumentInformation about = new PDDocumentInformation();
    about.setTitle(title);
    about.setProducer("Siltwright");
    Calendar none = new GregorianCalendar(TimeZone.getTimeZone("UTC"), Locale.ROOT);
    none.setTimeInMillis(0);
    about.setCreationDate(none);
    return about;
  }

  private static FSObjectDrawer drawer(List<Drawing> drawings) {
    return (element, x, y, width, height, out, context, dotsPerPixel) -> {
      Drawing drawing = drawings.get(Integer.parseInt(element.getAttribute("data-index")));
      double wide = width / dotsPerPixel;
      double scale = wide / drawing.widthPx();
      out.drawWithGraphics(
          (float) x,
          (float) y,
          (float) wide,
          (float) (height / dotsPerPixel),
          g2 -> {
            g2.scale(scale, scale);
            drawing.painter().accept(g2);
          });
      return null;
    };
  }

  private static Document parse(String xhtml) {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
      factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
      return factory.newDocumentBuilder().parse(new InputSource(new StringReader(xhtml)));
    } catch (ParserConfigurationException | SAXException e) {
      throw new IllegalStateException("a sheet that is not XML", e);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
