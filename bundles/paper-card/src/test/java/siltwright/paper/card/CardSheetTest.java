package siltwright.paper.card;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.analysis.Progress;
import siltwright.card.Card;
import siltwright.card.Facts;
import siltwright.card.TemplateReader;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.json.FleetReader;
import siltwright.paper.PdfFile;

/** Cards of the demo fleet on paper. */
class CardSheetTest {
  private static final Fleet FLEET =
      FleetReader.read(Path.of("../../demo-data/three-pits.json")).fleet();
  private static final Facts.Hours TODAY =
      new Facts.Hours(false, OptionalDouble.empty(), OptionalDouble.empty(), Optional.empty());

  private static Card card(Fleet fleet, String machine, String language) {
    Machine m = fleet.machine(machine).orElseThrow();
    return Card.of(
        TemplateReader.standard(language),
        Facts.of(fleet, m, Facts.cleanest(m), TODAY, Progress.NONE));
  }

  /** Returns a fleet whose names are as long as files allow, or in other scripts. */
  private static Fleet renamed(String name) throws Exception {
    String text = Files.readString(Path.of("../../demo-data/three-pits.json"));
    text = text.replaceAll("\"name\": \"[^\"]*\"", "\"name\": \"" + name + "\"");
    return FleetReader.read(text.getBytes(StandardCharsets.UTF_8), "long").fleet();
  }

  private static String text(PdfFile file) throws Exception {
    try (PDDocument pdf = Loader.loadPDF(file.bytes())) {
      return new PDFTextStripper().getText(pdf).replaceAll("\\s+", " ");
    }
  }

  /** On paper, too, the caution stands before the step: above it, or before it on its line. */
  @ParameterizedTest
  @CsvSource({"EX-11,en", "EX-12,de", "HT-14,en"})
  void cautionsArePrintedBeforeTheirSteps(String machine, String language) throws Exception {
    Card card = card(FLEET, machine, language);
    String printed = text(new CardSheet(List.of(card), "A4").pdf());
    String page = new CardSheet(List.of(card), "A4").page().replace("&#39;", "'");
    for (String whole : List.of(plain(printed), plain(page))) {
      int at = 0;
      for (Card.Step step : card.steps()) {
        for (Card.Caution c : step.cautions()) {
          if (c.first()) {
            at = after(whole, "! " + c.name(), at);
            at = after(whole, c.text(), at);
          }
        }
        for (Card.Caution c : step.cautions()) {
          if (!c.first()) {
            at = after(whole, "! " + c.name(), at);
          }
        }
        at = after(whole, step.text(), at);
      }
    }
  }

  /** As capitals print it: without a sharp s. */
  private static String plain(String text) {
    return text.toLowerCase(Locale.ROOT).replace("ß", "ss");
  }

  private static int after(String whole, String part, int from) {
    int at = whole.indexOf(plain(part), from);
    assertTrue(at >= from, "not in its place: " + part + " in " + whole);
    return at + part.length();
  }

  @Test
  void theWholeFleetIsAPageOrASheetEach() {
    List<Card> cards = FLEET.machines().stream().map(m -> card(FLEET, m.id(), "en")).toList();
    PdfFile file = new CardSheet(cards, "A4").pdf();
    assertTrue(
        file.pages() == cards.size() || file.pages() == 2 * cards.size(), file.pages() + " pages");
  }

  @ParameterizedTest
  @CsvSource({
    "A4,595,842,long",
    "letter,612,792,long",
    "A4,595,842,Экскаватор № 7 Μηχανή ü ß ł ő ñ ç"
  })
  void textStaysOnThePaperWhateverTheNames(String paper, int width, int height, String named)
      throws Exception {
    String name =
        named.equals("long")
            ? "Überlandförderbrückenabsetzerhydraulikaggregatgehäuse".repeat(4).substring(0, 199)
            : named;
    PdfFile file = new CardSheet(List.of(card(renamed(name), "EX-12", "de")), paper).pdf();
    assertTrue(file.pages() <= 2, file.pages() + " pages");
    List<String> outside = new ArrayList<>();
    PDFTextStripper stripper =
        new PDFTextStripper() {
          @Override
          protected void processTextPosition(TextPosition t) {
            if (t.getX() < 10
                || t.getX() + t.getWidth() > width - 10
                || t.getY() < 10
                || t.getY() > height - 10) {
              outside.add(t.getUnicode() + " at " + t.getX() + ", " + t.getY());
            }
            super.processTextPosition(t);
          }
        };
    try (PDDocument pdf = Loader.loadPDF(file.bytes())) {
      String text = stripper.getText(pdf).replaceAll("\\s+", "");
      assertTrue(text.contains(name.replaceAll("\\s+", "")), text);
    }
    assertEquals(List.of(), outside);
  }

  /** Black and white: what a worn copier makes of it still has all of it. */
  @Test
  void cardsAreBlackOnWhite() throws Exception {
    try (PDDocument pdf =
        Loader.loadPDF(new CardSheet(List.of(card(FLEET, "EX-11", "en")), "A4").pdf().bytes())) {
      BufferedImage image = new PDFRenderer(pdf).renderImageWithDPI(0, 72, ImageType.RGB);
      for (int y = 0; y < image.getHeight(); y++) {
        for (int x = 0; x < image.getWidth(); x++) {
          int rgb = image.getRGB(x, y);
          assertEquals(rgb >> 16 & 0xff, rgb & 0xff, "colour at " + x + ", " + y);
        }
      }
    }
  }
}
