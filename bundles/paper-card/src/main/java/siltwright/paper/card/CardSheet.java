package siltwright.paper.card;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import siltwright.card.Card;
import siltwright.card.RecordField;
import siltwright.paper.Fonts;
import siltwright.paper.PdfFile;
import siltwright.paper.ScanCode;
import siltwright.paper.Sheet;
import siltwright.report.Html;

/**
 * Cards on paper, black on white. A card has one page where its letters can still be read at arm's
 * length; else it has the front and the back of a sheet, in larger letters: the steps, and what is
 * looked at and written down.
 */
final class CardSheet {
  /** Sizes of the letters to try, pt, falling: on one page, and on front and back. */
  private static final double[] ONE_PAGE_PT = {11, 10.6, 10.2, 9.8, 9.4, 9, 8.6};

  private static final double[] TWO_PAGES_PT = {13, 12.5, 12, 11.5, 11, 10.5, 10, 9.5, 9, 8.6};

  private static final int TRIED_FIRST = 3;
  private static final String OPEN = "________";
  private static final int FIELDS_A_ROW = 3;

  private final List<Card> cards;
  private final String paper;

  /**
   * Makes a writer.
   *
   * @param cards the cards in order, at least one
   * @param paper {@code A4} or {@code letter}
   */
  CardSheet(List<Card> cards, String paper) {
    this.cards = cards;
    this.paper = paper;
  }

  /**
   * How cards are laid out.
   *
   * @param sizePt size of the letters, pt
   * @param pages pages of a card
   */
  private record Layout(double sizePt, int pages) {}

  /**
   * A layout and what it gives.
   *
   * @param layout the layout
   * @param pdf the cards in it
   */
  private record Tried(Layout layout, PdfFile pdf) {}

  /** Returns the cards as a PDF file. */
  PdfFile pdf() {
    return best().pdf();
  }

  /** Returns the cards as an HTML page. */
  String page() {
    return written(Sheet.Medium.HTML, best().layout()).page();
  }

  /** Of many cards those with most to say are tried first: where they fit, all do. */
  private Tried best() {
    if (cards.size() > TRIED_FIRST) {
      Layout layout = new CardSheet(longest(), paper).best().layout();
      Tried all = tried(layout.sizePt(), layout.pages());
      if (all.pdf().pages() <= layout.pages() * cards.size()) {
        return all;
      }
    }
    return largest(ONE_PAGE_PT, 1)
        .or(() -> largest(TWO_PAGES_PT, 2))
        .orElseGet(() -> tried(TWO_PAGES_PT[TWO_PAGES_PT.length - 1], 2));
  }

  private List<Card> longest() {
    return cards.stream()
        .sorted(Comparator.comparingInt((Card c) -> -c.toString().length()))
        .limit(TRIED_FIRST)
        .toList();
  }

  /** The largest letters with which no card has more pages. */
  private Optional<Tried> largest(double[] sizes, int pages) {
    Optional<Tried> best = Optional.empty();
    int fits = sizes.length;
    int tooLarge = -1;
    while (fits - tooLarge > 1) {
      int middle = (fits + tooLarge) / 2;
      Tried tried = tried(sizes[middle], pages);
      if (tried.pdf().pages() <= pages * cards.size()) {
        fits = middle;
        best = Optional.of(tried);
      } else {
        tooLarge = middle;
      }
    }
    return best;
  }

  private Tried tried(double sizePt, int pages) {
    Layout layout = new Layout(sizePt, pages);
    return new Tried(layout, written(Sheet.Medium.PDF, layout).pdf());
  }

  private Sheet written(Sheet.Medium medium, Layout layout) {
    Card head = cards.get(0);
    String title =
        cards.size() == 1
            ? head.template().word("title") + " " + head.id().machine()
            : head.template().word("title");
    String style =
        style()
            .replace("@PAPER@", paper)
            .replace("@SIZE@", String.format(Locale.ROOT, "%.1f", layout.sizePt()))
            .replace("Sheet,", Fonts.FAMILY + ",");
    Sheet sheet = new Sheet(medium, title, head.template().language(), style);
    for (int i = 0; i < cards.size(); i++) {
      sheet
          .html()
          .begin(
              "div",
              "class",
              (i == 0 ? "card first" : "card") + (layout.pages() == 1 ? "" : " both"))
          .line();
      new Writing(cards.get(i), sheet).all();
      sheet.html().end().line();
    }
    return sheet;
  }

  private static String style() {
    try (InputStream in = CardSheet.class.getResourceAsStream("card.css")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** One card while it is written. */
  private static final class Writing {
    private final Card card;
    private final Sheet sheet;
    private final Html html;
    private final Map<String, String> values;

    Writing(Card card, Sheet sheet) {
      this.card = card;
      this.sheet = sheet;
      this.html = sheet.html();
      this.values = card.values();
    }

    void all() {
      head();
      html.begin("div", "class", "notice");
      card.notice().forEach(n -> html.element("p", n));
      html.end().line();
      facts();
      steps();
      lower();
    }

    private String word(String key) {
      return card.template().word(key);
    }

    private void head() {
      html.begin("table", "class", "head").begin("tr").begin("td");
      html.element("h1", word("title") + " " + card.id().machine());
      html.element("p", values.get("machine"), "class", "name");
      html.element("p", word("site") + ": " + values.get("site"));
      html.element("p", word("way") + ": " + values.get("procedure"));
      html.element("p", identity(), "class", "small");
      html.end().begin("td", "class", "codecell");
      sheet.drawing(ScanCode.of(card.id().toString(), word("card") + " " + card.id()), "code");
      html.end().end().end().line();
    }

    private void facts() {
      html.begin("table", "class", "facts").begin("tr");
      html.begin("td").element("h2", word("changeAfter"));
      html.element("p", values.get("interval_h") + " h", "class", "big");
      if (values.containsKey("flat_h")) {
        html.element("p", word("flat") + ": " + values.get("flat_h") + " h", "class", "small");
      }
      html.element("p", word("today") + ": " + values.get("today_h") + " h", "class", "small");
      html.end();
      html.begin("td", "class", "wider").element("h2", word("element"));
      html.begin("p").element("b", values.get("elementId")).end();
      html.element("p", values.get("element"), "class", "small").element("h2", word("seals"));
      html.element("p", String.join("; ", card.seals()), "class", "small").end();
      html.begin("td", "class", "wide").element("h2", word("tools"));
      html.element("p", String.join("; ", card.tools()), "class", "small");
      html.element(
          "p",
          word("oil")
              + ": "
              + values.get("oil")
              + " · "
              + word("time")
              + ": "
              + values.get("labour_h")
              + " h",
          "class",
          "small");
      html.end();
      html.begin("td")
          .element("h2", word("hourMeter"))
          .element("p", values.getOrDefault("meter_h", OPEN) + " h");
      html.element("h2", word("nextChange"));
      html.element(
          "p",
          values.getOrDefault("next_h", "+ " + values.get("interval_h") + " = " + OPEN) + " h");
      if (values.containsKey("nextDate")) {
        html.element("p", "≈ " + values.get("nextDate"), "class", "small");
      }
      html.end().end().end().line();
    }

    private void steps() {
      html.begin("table", "class", "steps").line();
      for (Card.Step step : card.steps()) {
        html.begin("tr");
        html.element("td", Integer.toString(step.number()), "class", "number").begin("td");
        heed(step.cautions());
        html.begin("p");
        step.cautions().stream()
            .filter(c -> !c.first())
            .forEach(c -> html.element("span", "! " + c.name(), "class", "again").text(" "));
        html.element("span", step.text(), "class", "do").text(" ");
        html.element("span", String.join(" ", step.why()), "class", "why").end();
        html.end().begin("td", "class", "tick").element("div", "\u00a0", "class", "box").end();
        html.end().line();
      }
      html.end().line();
    }

    /** Those told in full; the reminders stand before the step on its line. */
    private void heed(List<Card.Caution> cautions) {
      for (Card.Caution c : cautions) {
        if (c.first()) {
          html.begin("p", "class", "heed").element("span", "! " + c.name(), "class", "sign");
          html.text(" " + c.text()).end();
        }
      }
    }

    private String identity() {
      return String.join(
          " · ",
          word("card") + " " + card.id(),
          word("template") + " " + card.template().id() + " " + card.template().version());
    }

    private void lower() {
      html.element("p", identity(), "class", "back");
      html.begin("table", "class", "lower").begin("tr").begin("td", "class", "part wrong");
      html.element("h2", word("otherWay"));
      html.element("p", String.join(" ", card.otherWay())).end();
      html.begin("td", "class", "part").element("h2", word("inspect")).begin("p");
      html.text(
          card.inspections().stream().map(i -> "☐\u00a0" + i).collect(Collectors.joining("  ")));
      html.end().end().end().end().line();
      html.element("h2", word("record"), "class", "record");
      form();
      signOff();
    }

    private void form() {
      html.begin("table", "class", "form").line();
      List<RecordField> fields = new ArrayList<>(card.fields().keySet());
      for (int i = 0; i < fields.size(); i += FIELDS_A_ROW) {
        html.begin("tr");
        for (int k = i; k < i + FIELDS_A_ROW; k++) {
          html.begin("td");
          if (k < fields.size()) {
            field(fields.get(k));
          }
          html.end();
        }
        html.end().line();
      }
      html.end().line();
    }

    private void field(RecordField field) {
      html.text(card.fields().get(field) + " ");
      switch (field.kind()) {
        case YES_NO -> choices(List.of("yes", "no"));
        case STATE -> choices(RecordField.STATES);
        case NUMBER, WORD -> html.text(OPEN);
      }
    }

    private void choices(List<String> keys) {
      html.begin("span", "class", "choice");
      keys.forEach(k -> html.text(" ☐\u00a0" + word(k)));
      html.end();
    }

    private void signOff() {
      html.begin("table", "class", "form sign-off").line();
      for (String who : List.of("doneBy", "checkedBy")) {
        html.begin("tr").element("td", word(who));
        html.element("td", word("date")).element("td", word("signature")).end().line();
      }
      html.end().line();
    }
  }
}
