package siltwright.charts;

import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.CRC32;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NamedNodeMap;
import org.w3c.dom.Node;
import org.w3c.dom.Text;

/** Writes a picture as an SVG element for a page: small, and alone with its ids. */
final class Svg {
  private static final String NAMESPACE = "http://www.w3.org/2000/svg";
  private static final String FONTS =
      "'Segoe UI',Roboto,'Helvetica Neue',Helvetica,Arial,'Liberation Sans',sans-serif";
  private static final String HINTS =
      "color-rendering image-rendering shape-rendering "
          + "text-rendering font-family color-interpolation xml:space id clip-path";
  private static final Set<String> DROPPED = Set.of(HINTS.split(" "));
  private static final Pattern REFERENCE = Pattern.compile("url\\(#(.+)\\)");
  private static final Pattern RGB = Pattern.compile("rgb\\((\\d+),(\\d+),(\\d+)\\)");

  /** What XML has no place for, and marks that turn the direction of what follows. */
  private static final Pattern UNPRINTABLE =
      Pattern.compile(
          "[\\p{Cc}&&[^\\n\\t]]|[\\x{d800}-\\x{dfff}\\x{fffe}\\x{ffff}]"
              + "|[\\x{202a}-\\x{202e}\\x{2066}-\\x{2069}]");

  private static final int DECIMALS = 2;

  /** Stands for what makes the ids of a figure its own until that is known; no text holds it. */
  private static final String ID = "\u0001";

  private final Map<String, String> clips = new LinkedHashMap<>();
  private final Map<String, String> usedClips = new TreeMap<>();
  private final StringBuilder body = new StringBuilder();
  private final String wholeClip;

  private Svg(int widthPx, int heightPx) {
    wholeClip =
        String.format(Locale.ROOT, "M0 0 L%1$d 0 L%1$d %2$d L0 %2$d L0 0 Z", widthPx, heightPx);
  }

  /**
   * What a picture is called, for those who listen and to make its ids.
   *
   * @param name name
   * @param title what it shows
   * @param caption how to read it
   */
  record Label(String name, String title, String caption) {}

  static String of(Label label, Consumer<Graphics2D> picture, int widthPx, int heightPx) {
    SVGGeneratorContext context = SVGGeneratorContext.createDefault(document());
    context.setPrecision(DECIMALS);
    Canvas canvas = new Canvas(context);
    picture.accept(canvas);
    Element root = canvas.getRoot();
    Svg svg = new Svg(widthPx, heightPx);
    svg.findClips(root);
    svg.children(root);
    return svg.whole(label, widthPx, heightPx);
  }

  private static Document document() {
    try {
      return DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .getDOMImplementation()
          .createDocument(NAMESPACE, "svg", null);
    } catch (ParserConfigurationException e) {
      throw new IllegalStateException("no XML document", e);
    }
  }

  private String whole(Label label, int widthPx, int heightPx) {
    StringBuilder defs = new StringBuilder();
    usedClips.forEach(
        (path, id) ->
            defs.append("<clipPath id=\"")
                .append(id)
                .append("\"><path d=\"")
                .append(path)
                .append("\"/></clipPath>"));
    String inner = (defs.isEmpty() ? "" : "<defs>" + defs + "</defs>") + body;
    CRC32 sum = new CRC32();
    sum.update((label.name() + inner).getBytes(StandardCharsets.UTF_8));
    String prefix =
        label.name().replaceAll("[^A-Za-z0-9]+", "-")
            + "-"
            + Long.toString(sum.getValue(), Character.MAX_RADIX);
    return String.format(
            Locale.ROOT,
            "<svg xmlns=\"%s\" viewBox=\"0 0 %d %d\" role=\"img\" font-family=\"%s\""
                + " font-size=\"12\" stroke=\"#000\">",
            NAMESPACE,
            widthPx,
            heightPx,
            FONTS)
        + "<title>"
        + escaped(label.title())
        + "</title><desc>"
        + escaped(label.caption())
        + "</desc>"
        + inner.replace(ID, "f-" + prefix + "-")
        + "</svg>";
  }

  private void findClips(Element element) {
    if (element.getTagName().equals("clipPath")) {
      clips.put(element.getAttribute("id"), ((Element) element.getFirstChild()).getAttribute("d"));
    }
    for (Node n = element.getFirstChild(); n != null; n = n.getNextSibling()) {
      if (n instanceof Element child) {
        findClips(child);
      }
    }
  }

  private void children(Element element) {
    for (Node n = element.getFirstChild(); n != null; n = n.getNextSibling()) {
      if (n instanceof Text text) {
        body.append(escaped(text.getData()));
      } else if (n instanceof Element child && !child.getTagName().equals("defs")) {
        write(child);
      }
    }
  }

  private void write(Element element) {
    String name = element.getTagName();
    body.append('<').append(name);
    boolean area = name.equals("path");
    NamedNodeMap attributes = element.getAttributes();
    for (int i = 0; i < attributes.getLength(); i++) {
      Node a = attributes.item(i);
      if (!DROPPED.contains(a.getNodeName()) && !a.getNodeName().startsWith("xmlns")) {
        attribute(a.getNodeName(), shortened(a.getNodeValue()));
      }
    }
    Matcher clip = REFERENCE.matcher(element.getAttribute("clip-path"));
    if (area && clip.matches()) {
      String path = clips.get(clip.group(1));
      if (!path.equals(wholeClip)) {
        usedClips.computeIfAbsent(path, p -> ID + usedClips.size());
        body.append(" clip-path=\"url(#").append(usedClips.get(path)).append(")\"");
      }
    }
    if (element.hasChildNodes()) {
      body.append('>');
      children(element);
      body.append("</").append(name).append('>');
    } else {
      body.append("/>");
    }
  }

  private void attribute(String name, String value) {
    body.append(' ').append(name).append("=\"").append(escaped(value)).append('"');
  }

  /** Returns a colour by its digits and a size without its unit, which px is anyway. */
  private static String shortened(String value) {
    Matcher rgb = RGB.matcher(value);
    if (rgb.matches()) {
      return String.format(
          Locale.ROOT,
          "#%02x%02x%02x",
          Integer.parseInt(rgb.group(1)),
          Integer.parseInt(rgb.group(2)),
          Integer.parseInt(rgb.group(3)));
    }
    return value.endsWith("px") ? value.substring(0, value.length() - 2) : value;
  }

  private static String escaped(String text) {
    return UNPRINTABLE
        .matcher(text)
        .replaceAll("\ufffd")
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }

  /** Batik's canvas with text widths that do not depend on this machine's fonts. */
  private static final class Canvas extends SVGGraphics2D {
    Canvas(SVGGeneratorContext context) {
      super(context, false);
    }

    private Canvas(Canvas from) {
      super(from);
    }

    @Override
    public Graphics create() {
      return new Canvas(this);
    }

    @Override
    public FontMetrics getFontMetrics(Font font) {
      return new SansMetrics(font);
    }
  }
}
