package siltwright.paper.training;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import siltwright.model.Housing;
import siltwright.paper.Drawing;
import siltwright.training.Lesson;
import siltwright.training.Pack;
import siltwright.training.Quiz;
import siltwright.training.Wording;

/** The slides of a pack: circuits, comparisons, quiz. */
final class Slides {
  static final int WIDTH = 960;
  static final int HEIGHT = 540;

  private static final int MOST_MACHINES = 20;
  private static final double MARGIN = 40;
  private static final double THINNEST = 2.5;
  private static final double THICKEST = 20;

  private final Pack pack;
  private final Wording words;

  Slides(Pack pack) {
    this.pack = pack;
    this.words = pack.words();
  }

  /** Returns all slides in order. */
  List<Drawing> all() {
    List<Drawing> all = new ArrayList<>();
    for (Housing housing : Housing.values()) {
      pack.dearest(housing).ifPresent(l -> all.addAll(circuits(l)));
    }
    all.addAll(comparisons());
    for (int i = 0; i < pack.quiz().questions().size(); i++) {
      Quiz.Question q = pack.quiz().questions().get(i);
      all.add(question(q, i + 1));
      all.add(answer(q, i + 1));
    }
    return all;
  }

  /** Returns the circuit of a lesson, the right way and the wrong one. */
  List<Drawing> circuits(Lesson lesson) {
    return List.of(circuit(lesson, true), circuit(lesson, false));
  }

  /** Returns what is compared over the machines: grams, ratios, money. */
  List<Drawing> comparisons() {
    Map<String, String> v =
        Map.of("currency", pack.fleet().currency(), "use", words.number(pack.useHPerYear()));
    return List.of(
        bars(
            "shed",
            words.text("shed.title"),
            words.text("shed.axis"),
            0,
            l -> l.right().cycle().releasedG(),
            l -> l.wrong().cycle().releasedG()),
        bars(
            "ratio",
            words.text("ratio.title"),
            words.text("ratio.axis"),
            1,
            l -> l.right().ratio(),
            l -> l.wrong().ratio()),
        bars(
            "cost",
            words.text("cost.title"),
            words.text("cost.axis", v),
            0,
            l -> Double.NaN,
            Lesson::perYearMoney));
  }

  private Drawing slide(String name, String title, String caption, Painting painting) {
    return new Drawing(
        name,
        title,
        caption,
        WIDTH,
        HEIGHT,
        g2 -> {
          Brush brush = new Brush(g2);
          double y = brush.text(title, MARGIN, 50, WIDTH - 2 * MARGIN, 26, true, Brush.INK);
          painting.paint(brush, y, g2);
        });
  }

  private interface Painting {
    void paint(Brush brush, double y, Graphics2D g2);
  }

  private Drawing circuit(Lesson lesson, boolean right) {
    Lesson.Way way = right ? lesson.right() : lesson.wrong();
    Housing housing = lesson.machine().returnFilter().housing();
    double fines = lesson.machine().returnFilter().element().finesShare();
    double held = way.cycle().retainedG() * (1 - fines);
    double away = held * (1 - way.procedure().backFlushShare());
    double into = way.cycle().releasedG();
    Map<String, String> v = new LinkedHashMap<>();
    v.put("id", lesson.machine().id());
    v.put("interval", words.number(way.cycle().intervalH()));
    v.put("way", way.procedure().name());
    v.put("mass", words.number(held));
    v.put("away", words.number(away));
    v.put("released", words.number(into));
    v.put("ratio", words.number(way.ratio()));
    String title = words.text(right ? "circuit.right" : "circuit.wrong");
    String caption = words.text("circuit.caption", v);
    return slide(
        "circuit-" + housing.word() + (right ? "-right" : "-wrong"),
        title,
        caption + ". " + words.text("into", v),
        (b, y, g2) -> {
          b.text(caption, MARGIN, y - 6, WIDTH - 2 * MARGIN, 14, false, Brush.QUIET);
          machine(b, g2);
          double most = Math.max(held, lesson.wrong().cycle().releasedG());
          b.arrow(wide(away, most), Brush.DIRT, 690, 290, 800, 290, 800, 205);
          b.frame(1.2, 715, 150, 205, 52);
          b.text(words.text("bench"), 725, 171, 190, 14, true, Brush.INK);
          b.text(words.text("away", v), 725, 191, 190, 14, false, Brush.DIRT);
          b.text(words.text("filter"), 720, 325, 200, 14, true, Brush.INK);
          b.text(words.text("caught", v), 720, 344, 200, 14, false, Brush.INK);
          if (right) {
            b.fill(Brush.INK, 612, 374, 76, 9);
            b.text(words.text("sealed." + housing.word()), 720, 378, 200, 14, true, Brush.INK);
          } else {
            b.text(words.text("unsealed"), 720, 378, 200, 14, true, Brush.DIRT);
          }
          double width = wide(into, most);
          if (right) {
            b.arrow(width, Brush.DIRT, 650, 384, 650, 425);
          } else {
            b.line(width, Brush.DIRT, 650, 350, 650, 440, 240, 440);
            b.line(width * 0.8, Brush.DIRT, 200, 400, 200, 300);
            b.line(width * 0.8, Brush.DIRT, 200, 240, 200, 205);
            b.arrow(width * 0.7, Brush.DIRT, 280, 170, 650, 170, 650, 234);
            b.text(
                words.text(lesson.machine().pressureFilter().isPresent() ? "pathPressure" : "path"),
                300,
                200,
                310,
                14,
                true,
                Brush.DIRT);
          }
          b.text(words.text("into", v), 345, 418, 290, 15, true, Brush.DIRT);
          b.text(
              words.text("works", v),
              MARGIN,
              518,
              WIDTH - 2 * MARGIN,
              22,
              true,
              right ? Brush.CLEAN : Brush.DIRT);
        });
  }

  private static double wide(double grams, double most) {
    return THINNEST + (THICKEST - THINNEST) * Math.sqrt(grams / most);
  }

  /** Tank, pump, valves, cylinders and the filter over the tank. */
  private void machine(Brush b, Graphics2D g2) {
    b.fill(Brush.OIL, 330, 398, 380, 82);
    b.line(2, Brush.INK, 330, 375, 330, 480, 710, 480, 710, 375);
    b.text(words.text("tank"), 345, 468, 350, 14, true, Brush.INK);
    b.line(2, Brush.INK, 330, 440, 236, 440);
    g2.setPaint(Color.WHITE);
    g2.fill(new Ellipse2D.Double(164, 404, 72, 72));
    g2.setPaint(Brush.INK);
    g2.draw(new Ellipse2D.Double(164, 404, 72, 72));
    b.triangle(Brush.INK, 200, 404, 24);
    b.text(words.text("pump"), 60, 445, 100, 14, true, Brush.INK);
    b.line(2, Brush.INK, 200, 404, 200, 300);
    b.frame(2, 140, 240, 120, 60);
    b.text(words.text("valves"), 150, 275, 105, 14, true, Brush.INK);
    b.line(2, Brush.INK, 200, 240, 200, 205);
    b.frame(2, 120, 145, 160, 60);
    b.text(words.text("cylinder"), 132, 180, 140, 14, true, Brush.INK);
    b.line(2, Brush.INK, 280, 170, 650, 170, 650, 235);
    b.frame(2, 605, 235, 90, 143);
    b.fill(Color.WHITE, 622, 376, 56, 4);
    b.frame(1.2, 622, 252, 56, 100);
    for (int i = 1; i < 6; i++) {
      b.line(0.8, Brush.QUIET, 622 + 56 * i / 6.0, 252, 622 + 56 * i / 6.0, 352);
    }
  }

  private List<Lesson> shown() {
    return pack.lessons().size() <= MOST_MACHINES
        ? pack.lessons()
        : pack.lessons().stream()
            .sorted(Comparator.comparingDouble(Lesson::perYearMoney).reversed())
            .limit(MOST_MACHINES)
            .toList();
  }

  /**
   * Bars of two values a machine, or of the second alone where the first is no number, from an
   * origin on.
   */
  private Drawing bars(
      String name,
      String title,
      String axis,
      double origin,
      ToDoubleFunction<Lesson> right,
      ToDoubleFunction<Lesson> wrong) {
    List<Lesson> shown = shown();
    boolean both = Double.isFinite(right.applyAsDouble(shown.get(0)));
    double most = origin;
    double least = origin;
    for (Lesson l : shown) {
      for (double value : new double[] {right.applyAsDouble(l), wrong.applyAsDouble(l)}) {
        most = Double.isFinite(value) ? Math.max(most, value) : most;
        least = Double.isFinite(value) ? Math.min(least, value) : least;
      }
    }
    double from = least;
    double perUnit = 600 / Math.max(most - least, 1e-9);
    return slide(
        name,
        title,
        axis,
        (b, y, g2) -> {
          double top = b.text(axis, MARGIN, y - 6, 560, 14, false, Brush.QUIET) + 8;
          if (both) {
            b.fill(Brush.CLEAN, 640, y - 18, 14, 14);
            b.text(words.text("right"), 660, y - 6, 100, 14, false, Brush.INK);
            b.fill(Brush.DIRT, 780, y - 18, 14, 14);
            b.text(words.text("wrong"), 800, y - 6, 100, 14, false, Brush.INK);
          }
          double row = Math.min(40, (HEIGHT - 40 - top) / shown.size());
          double zero = 180 + (origin - from) * perUnit;
          for (int i = 0; i < shown.size(); i++) {
            Lesson l = shown.get(i);
            double at = top + i * row;
            double size = Math.min(14, row * 0.5);
            b.right(l.machine().id(), 170, at + row * 0.55, Math.min(14, row * 0.6), Brush.INK);
            if (both) {
              bar(
                  b,
                  zero,
                  origin,
                  at,
                  row * 0.36,
                  right.applyAsDouble(l),
                  perUnit,
                  size,
                  Brush.CLEAN);
              bar(
                  b,
                  zero,
                  origin,
                  at + row * 0.4,
                  row * 0.36,
                  wrong.applyAsDouble(l),
                  perUnit,
                  size,
                  Brush.DIRT);
            } else {
              double value = wrong.applyAsDouble(l);
              bar(
                  b,
                  zero,
                  origin,
                  at + row * 0.12,
                  row * 0.6,
                  value,
                  perUnit,
                  size,
                  value < 0 ? Brush.CLEAN : Brush.DIRT);
            }
          }
          b.line(1.2, Brush.INK, zero, top - 4, zero, top + row * shown.size());
          if (shown.size() < pack.lessons().size()) {
            Map<String, String> v =
                Map.of(
                    "shown",
                    Integer.toString(shown.size()),
                    "all",
                    Integer.toString(pack.lessons().size()));
            b.text(words.text("most", v), MARGIN, HEIGHT - 14, 880, 13, false, Brush.QUIET);
          }
        });
  }

  private void bar(
      Brush b,
      double zero,
      double origin,
      double y,
      double height,
      double value,
      double perUnit,
      double size,
      Color color) {
    double length = (value - origin) * perUnit;
    b.fill(color, Math.min(zero, zero + length), y, Math.abs(length), height);
    b.text(
        words.number(value),
        Math.max(zero, zero + length) + 6,
        y + height / 2 + size * 0.36,
        160,
        size,
        false,
        Brush.INK);
  }

  private Drawing question(Quiz.Question q, int number) {
    return slide(
        "quiz-" + number + "-question",
        words.text("question") + " " + number,
        q.text(),
        (b, y, g2) -> b.text(q.text(), MARGIN, y + 20, WIDTH - 2 * MARGIN, 24, false, Brush.INK));
  }

  private Drawing answer(Quiz.Question q, int number) {
    return slide(
        "quiz-" + number + "-answer",
        words.text("answer") + " " + number,
        q.answer(),
        (b, y, g2) -> {
          double at = y + 16;
          for (String line : q.working()) {
            at = b.text(line, MARGIN, at, WIDTH - 2 * MARGIN, 21, false, Brush.INK) + 10;
          }
          b.text(q.answer(), MARGIN, at + 24, WIDTH - 2 * MARGIN, 28, true, Brush.CLEAN);
        });
  }
}
