package siltwright.charts;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringReader;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Layer.Style;
import siltwright.analysis.Panel;

class ChartsTest {
  private static final int WIDTH = 760;
  private static final int HEIGHT = 420;

  static List<Figure> samples() {
    return Samples.all();
  }

  private static String svg(Figure figure) {
    return Charts.svg(figure, ChartTheme.LIGHT, WIDTH, HEIGHT);
  }

  private static Document parsed(String svg) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)));
  }

  private static Figure figure(Axis.Scale scale, Layer... layers) {
    return new Figure(
        "f",
        "A title",
        "A caption.",
        Axis.linear("x", ""),
        List.of(new Panel(new Axis("y", "", scale), List.of(layers))));
  }

  @ParameterizedTest
  @MethodSource("samples")
  void svgIsAnElementForAPage(Figure figure) throws Exception {
    String svg = svg(figure);
    assertTrue(svg.startsWith("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 760 420\""));
    Element root = parsed(svg).getDocumentElement();
    assertEquals("img", root.getAttribute("role"));
    assertEquals("title", root.getFirstChild().getNodeName());
    assertEquals(figure.title(), root.getFirstChild().getTextContent());
    assertEquals(figure.caption(), root.getFirstChild().getNextSibling().getTextContent());
    String withoutNamespace = svg.replace("http://www.w3.org/2000/svg", "");
    for (String foreign : List.of("http", "<image", "<script", "<!", "<?", "href")) {
      assertFalse(withoutNamespace.contains(foreign), foreign);
    }
    assertFalse(Pattern.compile("\\d\\.\\d{3,}").matcher(svg).find(), "more than two decimals");
  }

  @Test
  void pointsBearTheirNamesAndRowsTheirs() {
    Figure figure =
        new Figure(
            "f",
            "t",
            "c",
            Axis.linear("x", "1"),
            List.of(
                new Panel(
                    Axis.names("rows", List.of("upper", "lower")),
                    List.of(
                        new Layer.Points(
                            "",
                            new double[] {1, 2},
                            new double[] {1, 2},
                            Layer.Mark.EVENT,
                            List.of("", "odd one"))))));
    String svg = svg(figure);
    for (String name : List.of("upper", "lower", "odd one")) {
      assertTrue(svg.contains(">" + name + "<"), name);
    }
  }

  @ParameterizedTest
  @MethodSource("samples")
  void labelsAreTexts(Figure figure) throws Exception {
    NodeList texts = parsed(svg(figure)).getElementsByTagName("text");
    Set<String> shown = new HashSet<>();
    for (int i = 0; i < texts.getLength(); i++) {
      shown.add(texts.item(i).getTextContent());
    }
    assertTrue(shown.contains(PanelPlot.title(figure.x())));
    for (Panel panel : figure.panels()) {
      assertTrue(shown.contains(PanelPlot.title(panel.y())));
      for (Layer layer : panel.layers()) {
        boolean none = Extent.y(panel).isEmpty() || layer.label().isEmpty();
        assertTrue(none || shown.contains(layer.label()), layer.label());
      }
    }
  }

  @Test
  void textsStayInsideThePicture() throws Exception {
    for (Figure figure : samples()) {
      NodeList texts = parsed(svg(figure)).getElementsByTagName("text");
      for (int i = 0; i < texts.getLength(); i++) {
        Element text = (Element) texts.item(i);
        double x = Double.parseDouble(text.getAttribute("x"));
        double y = Double.parseDouble(text.getAttribute("y"));
        double width =
            new SansMetrics(new java.awt.Font("SansSerif", 0, 12)).width(text.getTextContent());
        assertTrue(x >= 0 && x + width <= WIDTH, text.getTextContent());
        assertTrue(y >= 10 && y <= HEIGHT, text.getTextContent());
      }
    }
  }

  @Test
  void manyFiguresInOnePageShareNoId() {
    Set<String> ids = new HashSet<>();
    for (Figure figure : samples()) {
      Pattern.compile(" id=\"([^\"]*)\"")
          .matcher(svg(figure))
          .results()
          .forEach(m -> assertTrue(ids.add(m.group(1)), m.group(1)));
    }
    assertFalse(ids.isEmpty());
    // The same name with other data, as for the next machine.
    Figure one = figure(Axis.Scale.LINEAR, line("a", 1, 2, 3));
    Figure other = figure(Axis.Scale.LINEAR, line("a", 1, 3, 2));
    String id = svg(one).replaceFirst("(?s).* id=\"([^\"]*)\".*", "$1");
    assertFalse(svg(other).contains(id));
  }

  private static Layer line(String label, double... ys) {
    return new Layer.Line(label, Samples.range(0, ys.length - 1, ys.length - 1), ys, Style.MAIN);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void theSameFigureGivesTheSameBytes(Figure figure) {
    assertEquals(svg(figure), svg(figure));
    assertArrayEquals(
        Charts.png(figure, ChartTheme.DARK, 400, 300, 1),
        Charts.png(figure, ChartTheme.DARK, 400, 300, 1));
  }

  @Test
  void pngHasTheSizeAskedFor() throws IOException {
    byte[] png = Charts.png(Samples.cost(), ChartTheme.LIGHT, 400, 250, 1.5);
    var image = ImageIO.read(new ByteArrayInputStream(png));
    assertEquals(600, image.getWidth());
    assertEquals(375, image.getHeight());
    assertEquals(0xffffffff, image.getRGB(0, 0));
    assertThrows(
        IllegalArgumentException.class,
        () -> Charts.png(Samples.cost(), ChartTheme.LIGHT, 0, 250, 1));
    assertThrows(
        IllegalArgumentException.class,
        () -> Charts.png(Samples.cost(), ChartTheme.LIGHT, 4000, 4000, 100));
  }

  @Test
  void noDataIsSaid() {
    assertTrue(svg(Samples.nothing()).contains(">No data<"));
    assertTrue(svg(figure(Axis.Scale.LOG, line("gone", 0, -1, Double.NaN))).contains(">No data<"));
    assertFalse(svg(Samples.cost()).contains("No data"));
  }

  @Test
  void oddDataIsDrawnAllTheSame() {
    for (Axis.Scale scale : Axis.Scale.values()) {
      Figure odd =
          figure(
              scale,
              line("constant", 0.5, 0.5, 0.5),
              line("one point", 0.3),
              line("wild", -1e308, 1e308, 1e-300, Double.NaN, 0.2),
              new Layer.Span("open", Double.NEGATIVE_INFINITY, 1),
              new Layer.At("nowhere", Double.NaN, Style.LIMIT),
              new Layer.Level("high", Double.POSITIVE_INFINITY),
              new Layer.Band("band", new double[] {0, 1}, new double[] {0, 0}, new double[] {1, 1}),
              new Layer.Stack("", new double[] {0, 1}, List.of()),
              new Layer.Points("", new double[0], new double[0], Layer.Mark.EVENT));
      String svg = assertDoesNotThrow(() -> svg(odd));
      assertFalse(svg.contains("NaN") || svg.contains("Infinity") || svg.contains("\uFFFD"), svg);
    }
  }

  @Test
  void narrowPicturesAreDrawn() {
    for (Figure figure : samples()) {
      assertDoesNotThrow(() -> Charts.svg(figure, ChartTheme.DARK, 120, 90));
      assertDoesNotThrow(() -> Charts.svg(figure, ChartTheme.DARK, 1, 1));
    }
  }

  @Test
  void textsAreEscaped() throws Exception {
    String nasty = "</text><script>alert('x')</script>&\"\u0001\u0000\ud800\u202e";
    Figure figure =
        new Figure(
            nasty,
            nasty,
            nasty,
            Axis.linear(nasty, nasty),
            List.of(new Panel(Axis.linear(nasty, ""), List.of(line(nasty, 1, 2)))));
    String svg = svg(figure);
    assertFalse(svg.contains("<script"));
    assertEquals(
        nasty.replaceAll("[\u0001\u0000\ud800\u202e]", "\ufffd"),
        parsed(svg).getDocumentElement().getFirstChild().getTextContent());
  }

  @Test
  void longCurvesStaySmall() {
    double[] xs = Samples.range(1, 4000, 20_000);
    Layer line = new Layer.Line("long", xs, Samples.map(xs, x -> 900 / x + x / 1000), Style.MAIN);
    String svg = svg(figure(Axis.Scale.LINEAR, line));
    assertTrue(svg.length() < 20_000, () -> svg.length() + " characters");
  }
}
