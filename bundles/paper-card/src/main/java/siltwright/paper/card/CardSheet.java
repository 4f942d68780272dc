package siltwright.paper.card;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import siltwright.card.Card;
import siltwright.card.RecordField;
import siltwright.paper.Fonts;
import siltwright.paper.PdfFile;
import siltwright.paper.ScanCode;
import siltwright.paper.Sheet;
import siltwright.report.Html;

/**
 * Cards on paper, black on white, one to a page where it fits: letters are made smaller down to a
 * size that can still be read at arm's length, and no further.
 */
final class CardSheet {
  /** Sizes of the letters to try, pt. */
  private static final double[] SIZES_PT = {11.5, 11, 10.5, 10, 9.6, 9.2, 8.8, 8.4};

  private static final String OPEN = "________";
  private static final int FIELDS_A_ROW = 2;

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

  /** Returns the cards as a PDF file. */
  PdfFile pdf() {
    return written(Sheet.Medium.PDF, size()).pdf();
  }

  /** Returns the cards as an HTML page. */
  String page() {
    return written(Sheet.Medium.HTML, size()).page();
  }

  /** The largest letters with which each card has one page; the largest of all if none do. */
  private double size() {
    for (double size : SIZES_PT) {
      if (written(Sheet.Medium.PDF, size).pdf().pages() == cards.size()) {
        return size;
      }
    }
    return SIZES_PT[1];
  }

  private Sheet written(Sheet.Medium medium, double sizePt) {
    Card head = cards.get(0);
    String title =
        cards.size() == 1
            ? head.template().word("title") + " " + head.id().machine()
            : head.template().word("title");
    String style =
        style()
            .replace("@PAPER@", paper)
            .replace("@SIZE@", String.format(Locale.ROOT, "%.1f", sizePt))
            .replace("Sheet,", Fonts.FAMILY + ",");
    Sheet sheet = new Sheet(medium, title, head.template().language(), style);
    for (int i = 0; i < cards.size(); i++) {
      sheet.html().begin("div", "class", i == 0 ? "card first" : "card").line();
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
      html.element(
          "p",
          word("card")
              + " "
              + card.id()
              + " · "
              + word("template")
              + " "
              + card.template().id()
              + " "
              + card.template().version(),
          "class",
          "sheet-foot");
    }

    private String word(String key) {
      return card.template().word(key);
    }

    private void head() {
      html.begin("table").begin("tr").begin("td");
      html.element("h1", word("title") + " " + card.id().machine());
      html.element("p", values.get("machine"), "class", "name");
      html.element("p", word("site") + ": " + values.get("site"));
      html.element("p", word("way") + ": " + values.get("procedure"));
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
      html.begin("td").element("h2", word("element"));
      html.begin("p").element("b", values.get("elementId")).end();
      html.element("p", values.get("element"), "class", "small").element("h2", word("seals"));
      html.element("p", String.join("; ", card.seals()), "class", "small").end();
      html.begin("td").element("h2", word("tools"));
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
      html.begin("td").element("h2", word("hourMeter")).element("p", OPEN + " h");
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
        html.element("p", step.text(), "class", "do");
        html.element("p", String.join(" ", step.why()), "class", "why");
        html.end().begin("td", "class", "tick").element("div", "\u00a0", "class", "box").end();
        html.end().line();
      }
      html.end().line();
    }

    /** First those told in full, a line each, then the reminders in one line. */
    private void heed(List<Card.Caution> cautions) {
      for (Card.Caution c : cautions) {
        if (c.first()) {
          html.begin("p", "class", "heed").element("span", "! " + c.name(), "class", "sign");
          html.text(" " + c.text()).end();
        }
      }
      List<Card.Caution> again = cautions.stream().filter(c -> !c.first()).toList();
      if (!again.isEmpty()) {
        html.begin("p", "class", "heed");
        for (Card.Caution c : again) {
          html.element("span", "! " + c.name(), "class", "again").text(" ");
        }
        html.end();
      }
    }

    private void lower() {
      html.begin("table", "class", "lower").begin("tr").begin("td", "class", "left");
      html.begin("div", "class", "part wrong").element("h2", word("otherWay"));
      html.element("p", String.join(" ", card.otherWay())).end();
      html.begin("div", "class", "part").element("h2", word("inspect")).begin("ul");
      card.inspections().forEach(i -> html.element("li", i));
      html.end().end().end();
      html.begin("td").element("h2", word("record"));
      form();
      signOff();
      html.end().end().end().line();
    }

    private void form() {
      html.begin("table", "class", "form").line();
      List<RecordField> fields = new ArrayList<>(card.template().fields().keySet());
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
      html.text(card.template().fields().get(field) + " ");
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
      html.begin("table", "class", "form").line();
      for (String who : List.of("doneBy", "checkedBy")) {
        html.begin("tr").element("td", word(who) + " " + OPEN + OPEN);
        html.element("td", word("date") + " " + OPEN + "  " + word("signature") + " " + OPEN);
        html.end().line();
      }
      html.end().line();
    }
  }
}
