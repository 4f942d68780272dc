package siltwright.paper.training;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.DocumentWriter.Output;
import siltwright.analysis.Progress;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.Fleet;
import siltwright.model.json.FleetReader;
import siltwright.training.Pack;

/** The folder for a class. */
class TrainingDocumentTest {
  private static final Description DESCRIPTION =
      Description.of("training", "", "", Scope.FLEET, Pack.parameters());

  private static List<Output> pack(String name, String language) throws Exception {
    String text = Files.readString(Path.of("../../demo-data/three-pits.json"));
    if (!name.isEmpty()) {
      text = text.replaceAll("\"name\": \"[^\"]*\"", "\"name\": \"" + name + "\"");
    }
    Fleet fleet = FleetReader.read(text.getBytes(StandardCharsets.UTF_8), "fleet").fleet();
    return new TrainingDocument()
        .write(
            "",
            List.of(Context.of(fleet)),
            Values.of(DESCRIPTION, Map.of("language", language)),
            Progress.NONE);
  }

  private static byte[] file(List<Output> files, String name) {
    return files.stream()
        .filter(f -> f.name().equals(name))
        .findFirst()
        .orElseThrow(() -> new AssertionError(files.stream().map(Output::name).toList()))
        .content();
  }

  private static String text(byte[] pdf) throws Exception {
    try (PDDocument document = Loader.loadPDF(pdf)) {
      return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
    }
  }

  @Test
  void everySlideIsThereInEveryForm() throws Exception {
    List<Output> files = pack("", "en");
    long slides = files.stream().filter(f -> f.name().endsWith(".svg")).count();
    assertEquals(slides, files.stream().filter(f -> f.name().endsWith(".png")).count());
    assertTrue(slides >= 4 + 3 + 2 * 6, slides + " slides");
    for (Output f : files) {
      if (f.name().endsWith(".svg")) {
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(f.content()));
      } else if (f.name().endsWith(".png")) {
        assertEquals(
            2 * Slides.WIDTH, ImageIO.read(new ByteArrayInputStream(f.content())).getWidth());
      }
    }
    try (PDDocument deck = Loader.loadPDF(file(files, "slides.pdf"))) {
      assertEquals(slides, deck.getNumberOfPages());
    }
    String handout = text(file(files, "handout.pdf"));
    assertTrue(handout.indexOf("come first") < handout.indexOf("Quiz"), handout);
    assertTrue(handout.indexOf("Quiz") < handout.indexOf("Answers"), handout);
    String wrong =
        new String(file(files, "slides/04-circuit-open-bowl-wrong.svg"), StandardCharsets.UTF_8);
    assertTrue(wrong.contains("Into the clean side"), wrong);
  }

  @Test
  void longNamesAndOtherLanguagesSurvive() throws Exception {
    String longest =
        "Überlandförderbrückenabsetzerhydraulikaggregatgehäuse".repeat(4).substring(0, 199);
    String handout = text(file(pack(longest, "de"), "handout.pdf")).replaceAll("\\s+", "");
    assertTrue(handout.contains(longest), handout);
    assertTrue(handout.contains("DerGedanke"), handout);
  }

  @Test
  void theSameFleetGivesTheSameBytes() throws Exception {
    List<Output> one = pack("", "de");
    List<Output> two = pack("", "de");
    for (int i = 0; i < one.size(); i++) {
      assertArrayEquals(one.get(i).content(), two.get(i).content(), one.get(i).name());
    }
  }
}
