package siltwright.paper;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.LuminanceSource;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Base64;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

/** A sheet in both media. */
class SheetTest {
  private static final String ID = "EX-Ä1/ports-capped/own_tmpl.2/7/0123abcd";
  private static final String STYLE =
      "@page { size: A4; margin: 10mm; } body { font-family: Sheet; font-size: 12pt; } .code { width:"
          + " 30mm; height: 30mm; } .code svg { width: 100%; }";

  private static Sheet sheet(Sheet.Medium medium) {
    Sheet sheet = new Sheet(medium, "A <sheet>", "de", STYLE);
    sheet.html().element("p", "Größe & Ziel ☐ µm(c) ≈ Ωжł");
    return sheet.drawing(ScanCode.of(ID, "the card"), "code");
  }

  @Test
  void thePageFetchesAndRunsNothing() throws Exception {
    String page = sheet(Sheet.Medium.HTML).page();
    assertFalse(page.contains("<script") || page.contains("src=") || page.contains("href="), page);
    assertFalse(page.replace("http://www.w3.org/2000/svg", "").contains("http://"), page);
    Matcher policy = Pattern.compile("style-src (?:&#39;|')sha256-([^&']+)").matcher(page);
    assertTrue(policy.find(), page);
    String style = page.substring(page.indexOf("<style>") + 7, page.indexOf("</style>"));
    byte[] sum =
        MessageDigest.getInstance("SHA-256").digest(style.getBytes(StandardCharsets.UTF_8));
    assertEquals(Base64.getEncoder().encodeToString(sum), policy.group(1));
    assertTrue(page.contains("<svg") && page.contains("lang=\"de\""), page);
  }

  /** Outside check: the JDK's XML parser. */
  @Test
  void thePageIsXml() throws Exception {
    String page = sheet(Sheet.Medium.HTML).page();
    DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(page.getBytes(StandardCharsets.UTF_8)));
  }

  @Test
  void thePdfHasItsFontInItAndItsTextAsText() throws Exception {
    PdfFile file = sheet(Sheet.Medium.PDF).pdf();
    assertEquals(1, file.pages());
    try (PDDocument pdf = Loader.loadPDF(file.bytes())) {
      String text = new PDFTextStripper().getText(pdf);
      assertTrue(text.contains("Größe & Ziel ☐ µm(c) ≈ Ωжł"), text);
      for (var name : pdf.getPage(0).getResources().getFontNames()) {
        PDFont font = pdf.getPage(0).getResources().getFont(name);
        assertTrue(font.isEmbedded(), font.getName());
        assertTrue(font.getName().contains("DejaVuSansCondensed"), font.getName());
      }
    }
  }

  @Test
  void theSameSheetGivesTheSameBytes() {
    assertArrayEquals(sheet(Sheet.Medium.PDF).pdf().bytes(), sheet(Sheet.Medium.PDF).pdf().bytes());
    assertEquals(sheet(Sheet.Medium.HTML).page(), sheet(Sheet.Medium.HTML).page());
  }

  @Test
  void nothingIsPrintedOnTheConsole() {
    PrintStream out = System.out;
    PrintStream err = System.err;
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
    System.setErr(System.out);
    try {
      sheet(Sheet.Medium.PDF).pdf();
    } finally {
      System.setOut(out);
      System.setErr(err);
    }
    assertEquals("", printed.toString(StandardCharsets.UTF_8));
  }

  /** The code is read back from the printed page, and with a fifth of it under grease. */
  @Test
  void theCodeIsReadFromThePage() throws Exception {
    try (PDDocument pdf = Loader.loadPDF(sheet(Sheet.Medium.PDF).pdf().bytes())) {
      assertEquals(ID, scanned(new PDFRenderer(pdf).renderImageWithDPI(0, 200)));
    }
    Drawing code = ScanCode.of(ID, "the card");
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(code.png(8)));
    assertEquals(ID, scanned(image));
    int side = image.getWidth();
    image
        .getGraphics()
        .fillRect(side * 55 / 100, side * 50 / 100, side * 28 / 100, side * 28 / 100);
    assertEquals(ID, scanned(image));
  }

  private static String scanned(BufferedImage image) throws Exception {
    int w = image.getWidth();
    int h = image.getHeight();
    LuminanceSource source = new RGBLuminanceSource(w, h, image.getRGB(0, 0, w, h, null, 0, w));
    return new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source))).getText();
  }
}
