package siltwright.paper.training;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import siltwright.model.Housing;
import siltwright.paper.Drawing;
import siltwright.paper.Sheet;
import siltwright.report.Html;
import siltwright.training.Lesson;
import siltwright.training.Pack;
import siltwright.training.Quiz;
import siltwright.training.Wording;

/** What each in the class takes home. */
final class Handout {
  private final Pack pack;
  private final Wording words;
  private final Map<String, String> values = new HashMap<>();

  Handout(Pack pack) {
    this.pack = pack;
    this.words = pack.words();
    values.put("fleet", pack.fleet().name());
    values.put("currency", pack.fleet().currency());
    values.put("use", words.number(pack.useHPerYear()));
  }

  /**
   * Writes it.
   *
   * @param medium what it is for
   * @param paper {@code A4} or {@code letter}
   */
  Sheet written(Sheet.Medium medium, String paper) {
    Sheet sheet =
        new Sheet(medium, words.text("title"), words.language(), style().replace("@PAPER@", paper));
    Html html = sheet.html();
    html.element("h1", words.text("title"));
    html.element("p", words.text("notice"), "class", "notice");
    html.element("p", words.text("invented", values), "class", "small");
    html.element("h2", words.text("idea.title")).begin("ol");
    for (int i = 1; i <= 4; i++) {
      html.element("li", words.text("idea." + i));
    }
    html.end().line();
    Slides slides = new Slides(pack);
    for (Housing housing : Housing.values()) {
      pack.dearest(housing)
          .ifPresent(
              l -> {
                html.begin("table", "class", "pair").begin("tr");
                for (Drawing d : slides.circuits(l)) {
                  html.begin("td");
                  sheet.drawing(d, "half").html().end();
                }
                html.end().end().line();
              });
    }
    html.element("h2", words.text("table.title"), "class", "page");
    lessons(html);
    html.element("p", words.text("table.use", values), "class", "small");
    if (!pack.without().isEmpty()) {
      values.put("ids", String.join(", ", pack.without()));
      html.element("p", words.text("without", values), "class", "small");
    }
    List<Drawing> compared = slides.comparisons();
    for (Drawing d : List.of(compared.get(0), compared.get(2))) {
      html.begin("div", "class", "whole");
      sheet.drawing(d, "most").html().end().line();
    }
    quiz(html);
    return sheet;
  }

  private static String style() {
    try (InputStream in = Handout.class.getResourceAsStream("handout.css")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void lessons(Html html) {
    html.begin("table", "class", "numbers").begin("thead").begin("tr");
    html.element("th", words.text("table.machine"));
    for (String key : List.of("table.shed", "table.ratio", "table.cost")) {
      html.element("th", words.text(key, values), "colspan", "2");
    }
    html.element("th", words.text("table.year", values)).end();
    html.begin("tr").element("th", "");
    for (int i = 0; i < 3; i++) {
      html.element("th", words.text("right")).element("th", words.text("wrong"));
    }
    html.element("th", "").end().end().begin("tbody").line();
    for (Lesson l : pack.lessons()) {
      html.begin("tr")
          .begin("td")
          .element("b", l.machine().id())
          .text(" " + l.machine().name())
          .end();
      number(html, l.right().cycle().releasedG());
      number(html, l.wrong().cycle().releasedG());
      number(html, l.right().ratio());
      number(html, l.wrong().ratio());
      number(html, l.right().cycle().split().total());
      number(html, l.wrong().cycle().split().total());
      html.begin("td", "class", "number").element("b", words.number(l.perYearMoney())).end().end();
      html.line();
    }
    html.end().end().line();
  }

  private void number(Html html, double value) {
    html.element("td", words.number(value), "class", "number");
  }

  private void quiz(Html html) {
    html.element("h2", words.text("quiz.title"), "class", "page").begin("ol", "class", "quiz");
    for (Quiz.Question q : pack.quiz().questions()) {
      html.begin("li").element("p", q.text()).element("p", "", "class", "lines").end().line();
    }
    html.end().element("h2", words.text("answers.title"), "class", "page");
    html.begin("ol", "class", "quiz");
    for (Quiz.Question q : pack.quiz().questions()) {
      html.begin("li");
      q.working().forEach(w -> html.element("p", w));
      html.begin("p").element("b", q.answer()).end().end().line();
    }
    html.end().line();
  }
}
