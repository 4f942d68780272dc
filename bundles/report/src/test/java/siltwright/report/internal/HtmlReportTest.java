package siltwright.report.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Panel;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.Problem;

class HtmlReportTest {
  private static final Instant MADE = Instant.parse("2026-11-25T08:05:30Z");
  private static final List<Problem> NONE = List.of();

  private static String report(List<Result> results, List<Problem> problems) {
    StringWriter out = new StringWriter();
    try {
      new HtmlReport(new LeftOut()).write("The title", "fleet.json", MADE, results, problems, out);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
    return out.toString();
  }

  private static String two() {
    return report(
        List.of(
            Samples.machine("loader-1", 700, Severity.NOTE),
            Samples.machine("press-1", 1560, Severity.WARNING, Severity.CAUTION)),
        List.of(new Problem("fleet.json", "/machines/3/reservoir/volume_L", "-40", "above 0 L")));
  }

  /** Returns the page as XML, which it also is but for its first line. */
  private static Document parsed(String html) throws Exception {
    assertTrue(html.startsWith("<!DOCTYPE html>\n"));
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(html.substring(html.indexOf('\n')))));
  }

  private static List<String> texts(Document page, String tag) {
    NodeList found = page.getElementsByTagName(tag);
    List<String> texts = new ArrayList<>();
    for (int i = 0; i < found.getLength(); i++) {
      texts.add(found.item(i).getTextContent());
    }
    return texts;
  }

  private static List<String> of(Document page, String tag, String attribute) {
    NodeList found = page.getElementsByTagName(tag);
    List<String> values = new ArrayList<>();
    for (int i = 0; i < found.getLength(); i++) {
      String value = ((Element) found.item(i)).getAttribute(attribute);
      if (!value.isEmpty()) {
        values.add(value);
      }
    }
    return values;
  }

  @Test
  void headingsFormAnOutline() throws Exception {
    Document page = parsed(two());
    assertEquals(List.of("The title"), texts(page, "h1"));
    assertEquals(
        List.of(
            "Contents",
            "Change interval: recommended",
            "Left out",
            "loader-1",
            "press-1",
            "Parameters used"),
        texts(page, "h2"));
    assertEquals(
        List.of(
            "What was left out and why",
            "Recommended",
            "Procedures side by side",
            "What the cost is made of",
            "Cost per hour against the change interval"),
        texts(page, "h3").subList(0, 5));
  }

  @Test
  void topSaysWhatMadeItWhenAndFromWhat() throws Exception {
    Document page = parsed(two());
    String top = page.getElementsByTagName("header").item(0).getTextContent();
    assertTrue(top.contains("Made by Siltwright on 2026-11-25 08:05 UTC from fleet.json."), top);
    assertTrue(top.contains("manuals, local codes and licensed practice come first"), top);
    assertFalse(report(List.of(), NONE).contains("from <b>fleet.json</b>,"));
  }

  @Test
  void nothingComesFromElsewhere() throws Exception {
    String html = two().replace("xmlns=\"http://www.w3.org/2000/svg\"", "");
    for (String foreign :
        List.of(
            "http:",
            "https:",
            "//",
            " src=",
            "@import",
            "<script",
            "<link",
            "<iframe",
            "<img",
            "<object",
            "javascript",
            " on",
            "xlink")) {
      int at = html.replaceAll("<style>(?s).*</style>|>[^<]*<", "><").indexOf(foreign);
      assertEquals(-1, at, foreign);
    }
    Matcher urls = Pattern.compile("url\\(([^)]*)\\)").matcher(html);
    while (urls.find()) {
      assertTrue(urls.group(1).startsWith("#"), urls.group());
    }
    Document page = parsed(two());
    String style = texts(page, "style").get(0);
    assertFalse(style.contains("http") || style.contains("url(") || style.contains("@import"));
    String hash =
        Base64.getEncoder()
            .encodeToString(
                MessageDigest.getInstance("SHA-256")
                    .digest(style.getBytes(StandardCharsets.UTF_8)));
    assertTrue(
        of(page, "meta", "content")
            .contains("default-src 'none'; style-src 'sha256-" + hash + "'"));
    // The policy forbids style attributes.
    assertFalse(html.contains(" style="));
  }

  @Test
  void linksLeadToWhatIsThereAndIdsAreUnique() throws Exception {
    String html = two();
    Document page = parsed(html);
    Set<String> ids = new HashSet<>();
    Pattern.compile(" id=\"([^\"]*)\"")
        .matcher(html)
        .results()
        .forEach(m -> assertTrue(ids.add(m.group(1)), m.group(1)));
    List<String> links = of(page, "a", "href");
    assertEquals(4, links.size());
    links.forEach(link -> assertTrue(ids.contains(link.substring(1)), link));
    Pattern.compile("url\\(#([^)]*)\\)")
        .matcher(html)
        .results()
        .forEach(m -> assertTrue(ids.contains(m.group(1)), m.group()));
  }

  @Test
  void twoEqualResultsShareNoId() throws Exception {
    Result one = Samples.machine("a", 700);
    String html = report(List.of(one, one), NONE);
    Set<String> ids = new HashSet<>();
    Pattern.compile(" id=\"([^\"]*)\"")
        .matcher(html)
        .results()
        .forEach(m -> assertTrue(ids.add(m.group(1)), m.group(1)));
  }

  @Test
  void severityIsInWordAndShape() throws Exception {
    Document page = parsed(two());
    List<String> findings = texts(page, "li");
    assertTrue(findings.stream().anyMatch(t -> t.startsWith("Warning. The bypass is open")));
    assertTrue(findings.stream().anyMatch(t -> t.startsWith("Caution. Today's interval")));
    assertTrue(findings.stream().anyMatch(t -> t.startsWith("Note. The bottom")));
    Set<String> shapes = new HashSet<>();
    for (Severity s : Severity.values()) {
      shapes.add(Marks.of(s).replaceAll(".*(<(circle|path).*)</svg>", "$1"));
    }
    assertEquals(3, shapes.size());
  }

  @Test
  void tablesStandAlignedWithUnitsInTheirHeads() throws Exception {
    Document page = parsed(two());
    List<String> heads = texts(page, "th");
    assertTrue(heads.contains("Interval (h)"));
    assertTrue(heads.contains("Cost (EUR/h)"));
    String html = two();
    assertTrue(html.contains("<td class=\"right\">490 to 770</td>"));
    assertTrue(html.contains("<td class=\"right\">47.25</td>"));
    assertTrue(html.contains("<td class=\"right\">2.50</td>"));
    assertTrue(html.contains("<th scope=\"row\">ports capped</th>"));
    assertTrue(html.contains("12\u202f480"));
    assertTrue(html.contains("1.62 / 3.4 / 21.5 / 48 / 49.9 / 50"));
    assertTrue(html.contains("cold start\u00a0140, idle\u00a021.37, work\u00a058.33"));
  }

  @Test
  void tablesForProgramsAreLeftOut() {
    assertFalse(two().contains("Cost curve, for programs"));
    assertFalse(two().contains("777"));
  }

  @Test
  void summaryHasARowAResult() {
    String html = two();
    String summary =
        html.substring(html.indexOf("class=\"summary\""), html.indexOf("id=\"section-left-out\""));
    assertTrue(summary.contains(">loader-1</a>") && summary.contains(">press-1</a>"));
    assertTrue(summary.contains("<td class=\"right\">602 to 791</td>"), summary);
    assertFalse(summary.contains("Equivalent filtration ratio"), "too long for a summary");
    assertFalse(
        report(List.of(Samples.machine("a", 700)), NONE).contains("class=\"summary\""),
        "one result needs none");
  }

  @Test
  void summaryOfSeveralCurrenciesNamesEach() {
    List<Result> results =
        List.of(
            one("a", new Entry.Value("cost", "Cost", "EUR/h", Cell.of(12))),
            one("b", new Entry.Value("cost", "Cost", "NOK/h", Cell.of(140))),
            one("c", new Entry.Value("other", "Other", "", Cell.of(1))));
    String html = report(results, NONE);
    assertTrue(html.contains(">12 EUR/h</td>") && html.contains(">140 NOK/h</td>"));
    assertTrue(html.contains(">–</td>"));
  }

  private static Result one(String subject, Entry.Value value) {
    return Result.of(Samples.TUNE, subject, Values.standard(Samples.TUNE))
        .add(new Entry.Group("best", "Best", List.of(value)))
        .build();
  }

  @Test
  void parametersStandOnceAndInTheirOrder() {
    String html = two();
    String part = html.substring(html.indexOf("class=\"parameters\""));
    assertTrue(part.indexOf(">longest<") < part.indexOf(">draws<"));
    assertTrue(part.contains(">4000.0 h<") || part.contains(">4000 h<"), part);
    assertEquals(part.indexOf(">longest<"), part.lastIndexOf(">longest<"));
    Result other =
        Result.of(Samples.TUNE, "x", Values.of(Samples.TUNE, Map.of("longest", "900"))).build();
    String differing = report(List.of(Samples.machine("a", 700), other), NONE);
    assertTrue(differing.contains(">900 h<"));
    assertTrue(differing.contains("<p class=\"lead\">x</p>"));
  }

  @Test
  void leftOutSaysWhatWhereAndWhy() throws Exception {
    Document page = parsed(two());
    assertTrue(texts(page, "th").contains("fleet.json"));
    List<String> cells = texts(page, "td");
    for (String cell : List.of("/machines/3/reservoir/volume_L", "-40", "above 0 L")) {
      assertTrue(cells.contains(cell), cell);
    }
  }

  @Test
  void theSameResultsGiveTheSameBytes() {
    assertEquals(two(), two());
  }

  @Test
  void aReportWithoutResultsIsAReport() throws Exception {
    Document page = parsed(report(List.of(), NONE));
    assertEquals(List.of("The title"), texts(page, "h1"));
    assertEquals(List.of(), texts(page, "h2"));
  }

  @Test
  void whateverTheTextsTheyStayTexts() throws Exception {
    String evil =
        "\"><script>alert(1)</script><img src=x onerror='x'>&amp;</style></svg>]]>"
            + "\u0000\u0007\u202e\ud800<!-- --";
    Description description =
        Description.of(
            "evil", evil, evil, Scope.NONE, NumberParameter.of("p", evil, 0, 1, 0.5, evil));
    Map<String, Double> named = new LinkedHashMap<>();
    named.put(evil, 1.0);
    Result result =
        Result.of(description, evil, Values.standard(description))
            .finding(Severity.WARNING, evil, evil)
            .value("v", evil, evil)
            .add(new Entry.Value("n", evil, evil, new Cell.Named(named)))
            .add(new Entry.Group("g", evil, List.of(new Entry.Value("x", evil, evil, Cell.of(1)))))
            .add(
                new Entry.Table(
                    evil,
                    evil,
                    Entry.Use.READ,
                    List.of(new Entry.Column(evil, evil, evil), new Entry.Column("b", "b", "")),
                    List.of(List.of(Cell.of(evil), Cell.of(1)))))
            .add(
                new Figure(
                    evil,
                    evil,
                    evil,
                    new Axis(evil, evil, Axis.Scale.LINEAR),
                    List.of(
                        new Panel(
                            Axis.linear(evil, evil),
                            List.of(
                                new Layer.Line(
                                    evil,
                                    new double[] {0, 1},
                                    new double[] {0, 1},
                                    Layer.Style.MAIN),
                                new Layer.At(evil, 0.5, Layer.Style.LIMIT),
                                new Layer.Level(evil, 0.5),
                                new Layer.Span(evil, 0, 1))))))
            .build();
    StringWriter out = new StringWriter();
    List<Problem> problems = List.of(new Problem(evil, evil, evil, evil));
    new HtmlReport(new LeftOut()).write(evil, evil, MADE, List.of(result, result), problems, out);
    String html = out.toString();
    Document page = parsed(html);
    for (String tag : List.of("script", "img")) {
      assertEquals(0, page.getElementsByTagName(tag).getLength());
    }
    assertEquals(1, page.getElementsByTagName("style").getLength());
    assertFalse(html.contains("<!--") || html.contains("\u0000") || html.contains("\u202e"));
    assertEquals(
        evil.replaceAll("[\u0000\u0007\u202e\ud800]", "\ufffd"), texts(page, "title").get(0));
  }
}
