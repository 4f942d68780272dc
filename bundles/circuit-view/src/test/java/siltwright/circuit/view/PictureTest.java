package siltwright.circuit.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import siltwright.analysis.Progress;
import siltwright.charts.ChartTheme;
import siltwright.circuit.view.Course.Stretch;
import siltwright.model.Machine;
import siltwright.model.Units;

/** The picture is drawn, on any canvas. */
class PictureTest {
  private static Picture picture(Machine m, String procedure, boolean dark) {
    Course course = Course.of(m, m.procedure(procedure).orElseThrow(), Progress.NONE);
    Readings r =
        new Readings(
            course, course.look(Stretch.MINUTES, 20), Readings.MEAN, Units.SI, Words.bundle());
    return new Picture(
        Draughtsman.plan(m), r, m.name() + " <&> \"", "caption", dark, Words.bundle());
  }

  private static BufferedImage painted(Picture p, double seconds) {
    BufferedImage image =
        new BufferedImage(
            (int) p.plan().width(), (int) p.plan().height(), BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    p.paint(g, Picture.TEXT, seconds);
    g.dispose();
    return image;
  }

  /** Pixels in a box that are not paper. */
  private static int inked(BufferedImage image, Box box, Color paper) {
    int rgb = paper.getRGB();
    return (int) Arrays.stream(pixels(image, box)).filter(p -> p != rgb).count();
  }

  private static int[] pixels(BufferedImage image, Box box) {
    int w = (int) Math.ceil(box.w());
    int h = (int) Math.ceil(box.h());
    return image.getRGB((int) box.x(), (int) box.y(), w, h, null, 0, w);
  }

  @Test
  void everyMachineIsDrawnWithEveryPartAndTag() {
    boolean dark = false;
    for (Machine m : PlanTest.machines().toList()) {
      dark = !dark;
      Picture p = picture(m, "pull-in-place", dark);
      BufferedImage image = painted(p, 0);
      Color paper = p.theme().paper();
      p.plan()
          .places()
          .forEach(part -> assertTrue(inked(image, part.box(), paper) > 20, part::toString));
      p.plan()
          .tags()
          .forEach(tag -> assertTrue(inked(image, tag.box(), paper) > 100, tag::toString));
      // nothing runs over the rim
      int w = image.getWidth();
      int h = image.getHeight();
      assertEquals(0, inked(image, new Box(0, 0, w, 3), paper));
      assertEquals(0, inked(image, new Box(0, h - 3, w, 3), paper));
      assertEquals(0, inked(image, new Box(w - 3, 0, 3, h), paper));
      assertEquals(0, inked(image, new Box(0, 0, 3, h), paper));
    }
  }

  @Test
  void theDirtMovesAndTheRestDoesNot() {
    Picture p = picture(DemoFleet.machine("EX-11"), "pull-in-place", false);
    BufferedImage now = painted(p, 0);
    BufferedImage later = painted(p, 0.5);
    assertTrue(differing(now, later, new Box(0, 0, now.getWidth(), now.getHeight())) > 500);
    Box pump = p.plan().place("pump0").orElseThrow().box();
    assertEquals(0, differing(now, later, new Box(pump.x() + 4, pump.y() + 8, 44, 36)));
    assertEquals(0, differing(now, painted(p, 0), new Box(0, 0, now.getWidth(), now.getHeight())));
  }

  @Test
  void aWrongChangeLooksDirtier() {
    Machine m = DemoFleet.machine("EX-11");
    Picture wrong = picture(m, "pull-in-place", false);
    Picture right = picture(m, "ports-capped", false);
    Box tank = wrong.plan().place("tank").orElseThrow().box();
    Box oil = new Box(tank.x() + 240, tank.y() + 40, tank.w() - 260, tank.h() - 50);
    assertTrue(darkness(painted(wrong, 0), oil) > 1.15 * darkness(painted(right, 0), oil));
  }

  private static double darkness(BufferedImage image, Box box) {
    return Arrays.stream(pixels(image, box)).mapToDouble(p -> 1 - luminance(new Color(p))).sum();
  }

  private static int differing(BufferedImage a, BufferedImage b, Box box) {
    int[] first = pixels(a, box);
    int[] second = pixels(b, box);
    int count = 0;
    for (int i = 0; i < first.length; i++) {
      count += first[i] == second[i] ? 0 : 1;
    }
    return count;
  }

  /** Relative luminance and contrast as WCAG 2.1 defines them. */
  private static double luminance(Color c) {
    double[] rgb = {c.getRed() / 255.0, c.getGreen() / 255.0, c.getBlue() / 255.0};
    for (int i = 0; i < 3; i++) {
      rgb[i] = rgb[i] <= 0.03928 ? rgb[i] / 12.92 : Math.pow((rgb[i] + 0.055) / 1.055, 2.4);
    }
    return 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
  }

  @Test
  void dirtierIsFurtherFromThePaperInLightnessAndSeenAtAll() {
    for (boolean dark : new boolean[] {false, true}) {
      double paper = luminance(dark ? ChartTheme.DARK.paper() : ChartTheme.LIGHT.paper());
      double before = 0;
      for (int i = 0; i < Shades.STEPS.length; i++) {
        double own = luminance(Shades.at(i, dark));
        double contrast = (Math.max(own, paper) + 0.05) / (Math.min(own, paper) + 0.05);
        assertTrue(contrast >= 3, "step " + i + " dark " + dark + " " + contrast);
        assertTrue(contrast > before, "step " + i + " dark " + dark + " " + contrast);
        before = contrast;
      }
    }
  }

  @Test
  void filesAreWhatTheySay() throws Exception {
    List<Picture> both =
        List.of(
            picture(DemoFleet.machine("HT-15"), "pull-in-place", true),
            picture(DemoFleet.machine("HT-15"), "canister-whole", true));
    BufferedImage png = ImageIO.read(new ByteArrayInputStream(bytes(PictureFile.PNG, both)));
    assertEquals((int) Math.ceil(2 * PictureFile.width(both)), png.getWidth());
    assertEquals(Color.WHITE.getRGB(), png.getRGB(2, 2), "light paper");

    String svg = new String(bytes(PictureFile.SVG, both), StandardCharsets.UTF_8);
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
    Document document =
        factory
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
    assertEquals("svg", document.getDocumentElement().getTagName());
    assertTrue(svg.contains("steering"), "texts are texts");
    assertNotEquals(0, document.getElementsByTagName("circle").getLength());

    try (PDDocument pdf = Loader.loadPDF(bytes(PictureFile.PDF, both))) {
      assertEquals(1, pdf.getNumberOfPages());
      assertEquals(0.75 * PictureFile.width(both), pdf.getPage(0).getMediaBox().getWidth(), 0.01);
    }
  }

  private static byte[] bytes(PictureFile kind, List<Picture> pictures) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    kind.write(pictures, 0, out);
    return out.toByteArray();
  }
}
