package siltwright.circuit.view;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.geom.RoundRectangle2D;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.ResourceBundle;
import siltwright.charts.ChartTheme;
import siltwright.circuit.view.Plan.Carried;
import siltwright.circuit.view.Plan.Line;
import siltwright.circuit.view.Plan.Place;
import siltwright.circuit.view.Plan.Symbol;
import siltwright.circuit.view.Plan.Tag;
import siltwright.circuit.view.Readings.Card;
import siltwright.contamination.DirtFlow.Stream;
import siltwright.model.Bands;

/**
 * A circuit at a moment, drawn on any canvas: screen, PNG or SVG. Immutable, so that it may be
 * drawn on any thread.
 *
 * @param plan what stands where
 * @param readings the numbers
 * @param title first line over the picture
 * @param caption second line
 * @param dark whether on a dark ground
 * @param texts words
 */
record Picture(
    Plan plan,
    Readings readings,
    String title,
    String caption,
    boolean dark,
    ResourceBundle texts) {
  /** Size of the numbers at natural size. */
  static final double TEXT = 12.5;

  /** The largest they are written where the picture is small. */
  static final double LARGEST_TEXT = 25;

  private static final double MARGIN = 20;
  private static final double HEAD_TEXT = 20;
  private static final double KEY_STEP = 54;
  private static final double KEY_TEXT = 23;
  private static final double KEY_BAR = 8;
  private static final double LINE_HEIGHT = 1.26;
  private static final double PAD = 5;
  private static final double OIL_WIDTH = 9;
  private static final int OIL_ALPHA = 78;
  private static final double PACE = 70;
  private static final double SLOWEST = 0.25;
  private static final double SPARE_WIDTH = 1.03;
  private static final double LEVEL = 26;
  private static final double TANK_DOTS = 0.55;

  /** Returns the colours. */
  ChartTheme theme() {
    return dark ? ChartTheme.DARK : ChartTheme.LIGHT;
  }

  /** Returns the same picture on light paper. */
  Picture onPaper() {
    return new Picture(plan, readings, title, caption, false, texts);
  }

  /**
   * Draws the picture.
   *
   * @param g canvas, with the plan's origin at its own
   * @param textSize size of the numbers, {@link #TEXT} to {@link #LARGEST_TEXT}; fewer of them fit
   *     where they are large
   * @param motionS seconds that the dirt has been moving
   */
  void paint(Graphics2D g, double textSize, double motionS) {
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    g.setRenderingHint(
        RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    g.setPaint(theme().paper());
    g.fill(new Rectangle2D.Double(0, 0, plan.width(), plan.height()));
    head(g, textSize);
    key(g, textSize);
    tankOil(g);
    for (Line line : plan.lines()) {
      oil(g, line);
    }
    for (Line line : plan.lines()) {
      ink(g, line);
    }
    joints(g);
    tankDots(g, motionS);
    for (int i = 0; i < plan.lines().size(); i++) {
      dots(g, plan.lines().get(i), i, motionS);
    }
    housing(g);
    SymbolPainter symbols = new SymbolPainter(g, theme(), readings);
    for (Place place : plan.places()) {
      symbols.paint(place);
    }
    for (Tag tag : plan.tags()) {
      tag(g, tag, textSize);
    }
  }

  private void head(Graphics2D g, double textSize) {
    double width = plan.width() - 2 * MARGIN;
    double size = Math.min(textSize, HEAD_TEXT);
    g.setPaint(theme().ink());
    fitted(g, title, MARGIN, 22, width, size + 1.5, Font.BOLD);
    g.setPaint(theme().quiet());
    fitted(g, caption, MARGIN, 27 + 1.28 * size, width, size, Font.PLAIN);
  }

  /** The key to colours and dots, in two lines under the tank. */
  private void key(Graphics2D g, double textSize) {
    double size = Math.min(textSize, KEY_TEXT);
    double y = plan.height() - 42;
    double x = MARGIN;
    for (int i = 0; i < Shades.STEPS.length; i++) {
      g.setPaint(Shades.at(i, dark));
      g.fill(new Rectangle2D.Double(x, y - size - KEY_BAR, KEY_STEP - 2, KEY_BAR));
      g.setPaint(theme().quiet());
      String most = i + 1 == Shades.STEPS.length ? "+" : "";
      String number = (i == 0 ? "≤ " : "") + Shades.STEPS[i] + most;
      fitted(g, number, x, y, KEY_STEP - 3, size, Font.PLAIN);
      x += KEY_STEP;
    }
    x += 6;
    fitted(g, texts.getString("legend.code"), x, y, plan.width() - MARGIN - x, size, Font.PLAIN);
    y = plan.height() - 12;
    x = MARGIN + Dots.RADIUS[Dots.SIZES - 1];
    g.setPaint(theme().ink());
    for (int i = 0; i < Dots.SIZES; i++) {
      g.fill(circle(x, y - size / 3, Dots.RADIUS[i]));
      x += 10;
    }
    g.setPaint(theme().quiet());
    fitted(g, texts.getString("legend.dots"), x, y, plan.width() - MARGIN - x, size, Font.PLAIN);
  }

  private Color shade(Bands perMl) {
    return Shades.of(perMl, dark);
  }

  private void tankOil(Graphics2D g) {
    Place tank = plan.place("tank").orElseThrow();
    Box b = tank.box();
    double level = b.y() + LEVEL;
    g.setPaint(SymbolPainter.faded(shade(readings.perMl(Carried.TANK_OIL)), OIL_ALPHA));
    double round = tank.symbol() == Symbol.PRESSURISED_TANK ? 56 : 0;
    Area oil = new Area(new RoundRectangle2D.Double(b.x(), b.y(), b.w(), b.h(), round, round));
    oil.intersect(new Area(new Rectangle2D.Double(b.x(), level, b.w(), b.bottom() - level)));
    g.fill(oil);
  }

  private static boolean isDirt(Line line) {
    return line.carried() == Carried.RESERVOIR_DIRT || line.carried() == Carried.RETURN_DIRT;
  }

  private static Path2D path(Line line) {
    Path2D p = new Path2D.Double();
    List<Spot> spots = line.path();
    p.moveTo(spots.get(0).x(), spots.get(0).y());
    for (Spot s : spots.subList(1, spots.size())) {
      p.lineTo(s.x(), s.y());
    }
    return p;
  }

  private void oil(Graphics2D g, Line line) {
    if (isDirt(line) || readings.stream(line.carried()).flowLPerMin() <= 0) {
      return;
    }
    g.setStroke(new BasicStroke((float) OIL_WIDTH, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND));
    g.setPaint(SymbolPainter.faded(shade(readings.perMl(line.carried())), OIL_ALPHA));
    g.draw(path(line));
  }

  private void ink(Graphics2D g, Line line) {
    g.setStroke(SymbolPainter.THIN);
    g.setPaint(theme().ink());
    g.draw(path(line));
  }

  /** Dots where more than two lines meet. */
  private void joints(Graphics2D g) {
    Map<String, Integer> meeting = new HashMap<>();
    for (Line line : plan.lines()) {
      meeting.merge(line.from(), 1, Integer::sum);
      meeting.merge(line.to(), 1, Integer::sum);
    }
    g.setPaint(theme().ink());
    meeting.forEach(
        (port, lines) -> {
          if (lines > 2) {
            g.fill(SymbolPainter.joint(plan.ports().get(port)));
          }
        });
  }

  private void dots(Graphics2D g, Line line, int number, double motionS) {
    double length = line.length();
    Stream stream = readings.stream(line.carried());
    if (isDirt(line)) {
      double per100 = Dots.per100OfDirt(stream.mgPerH());
      g.setPaint(theme().ink());
      row(g, line, number, 1, per100, length, motionS * PACE * SLOWEST);
      return;
    }
    if (stream.flowLPerMin() <= 0) {
      return;
    }
    double flow = line.share() * stream.flowLPerMin();
    double most = readings.stream(Carried.TANK_OIL).flowLPerMin();
    double pace = PACE * Math.max(SLOWEST, Math.min(1, flow / most));
    Bands perMl = stream.perMl();
    g.setPaint(shade(perMl));
    for (int size = 0; size < Dots.SIZES; size++) {
      row(g, line, number, size, Dots.per100(perMl, size), length, motionS * pace);
    }
  }

  private static void row(
      Graphics2D g, Line line, int number, int size, double per100, double length, double moved) {
    if (per100 < 0.05) {
      return;
    }
    double spacing = 100 / per100;
    double start = moved + spacing * Dots.scatter(number, size);
    long first = (long) Math.ceil(-start / spacing);
    for (long i = first; start + i * spacing < length; i++) {
      double wander = spacing * 0.35 * (Dots.scatter(i, number) - 0.5);
      double along = Math.max(0, Math.min(length, start + i * spacing + wander));
      double aside = (Dots.scatter(i, 31L * number + size) - 0.5) * (OIL_WIDTH - 2);
      Spot at = line.at(along, aside);
      g.fill(circle(at.x(), at.y(), Dots.RADIUS[size]));
    }
  }

  private static Ellipse2D circle(double x, double y, double r) {
    return new Ellipse2D.Double(x - r, y - r, 2 * r, 2 * r);
  }

  private void tankDots(Graphics2D g, double motionS) {
    Box b = plan.place("tank").orElseThrow().box();
    double left = b.x() + 12;
    double width = b.w() - 24;
    double top = b.y() + LEVEL + 6;
    double height = b.bottom() - 10 - top;
    Box label =
        plan.tags().stream().filter(t -> t.place().equals("tank")).findFirst().orElseThrow().box();
    Bands perMl = readings.perMl(Carried.TANK_OIL);
    g.setPaint(theme().quiet());
    g.setStroke(SymbolPainter.THIN);
    g.draw(new Line2D.Double(b.x() + 1, b.y() + LEVEL, b.right() - 1, b.y() + LEVEL));
    g.setPaint(shade(perMl));
    for (int size = 0; size < Dots.SIZES; size++) {
      long dots = Math.round(TANK_DOTS * Dots.per100(perMl, size) * width * height / 10_000 * 8);
      for (long i = 0; i < dots; i++) {
        double drift = motionS * 4 * (Dots.scatter(i, 7 + size) - 0.5);
        double x = left + wrapped(Dots.scatter(i, 1 + size) * width + drift, width);
        double y = top + wrapped(Dots.scatter(i, 4 + size) * height + drift / 3, height);
        if (!label.contains(x, y)) {
          g.fill(circle(x, y, Dots.RADIUS[size]));
        }
      }
    }
  }

  private static double wrapped(double value, double length) {
    double rest = value % length;
    return rest < 0 ? rest + length : rest;
  }

  /** The dash-and-dot frame: element, bypass and indicator are one filter. */
  private void housing(Graphics2D g) {
    Box element = plan.place("returnFilter").orElseThrow().box();
    g.setPaint(theme().ink());
    g.setStroke(SymbolPainter.CHAIN);
    double left = element.centreX() - 62;
    g.draw(new Rectangle2D.Double(left, element.y() - 28, 146, element.h() + 56));
    if (plan.place("indicator").isPresent()) {
      // sensed before and behind the element
      g.setStroke(
          new BasicStroke(
              1, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, new float[] {3, 3}, 0));
      Box i = plan.place("indicator").orElseThrow().box();
      Path2D sense = new Path2D.Double();
      sense.moveTo(element.centreX(), element.y() - 10);
      sense.lineTo(i.centreX(), element.y() - 10);
      sense.lineTo(i.centreX(), i.y());
      sense.moveTo(i.centreX(), i.bottom());
      sense.lineTo(i.centreX(), element.bottom() + 10);
      sense.lineTo(element.centreX(), element.bottom() + 10);
      g.draw(sense);
    }
  }

  private void tag(Graphics2D g, Tag tag, double textSize) {
    Box b = tag.box();
    Card card = readings.card(tag.place());
    g.setPaint(SymbolPainter.faded(theme().paper(), 225));
    RoundRectangle2D frame = new RoundRectangle2D.Double(b.x(), b.y(), b.w(), b.h(), 8, 8);
    g.fill(frame);
    g.setStroke(new BasicStroke(1));
    g.setPaint(theme().grid());
    g.draw(frame);
    double step = LINE_HEIGHT * textSize;
    double y = b.y() + PAD + textSize * 0.9;
    g.setPaint(theme().ink());
    fitted(g, card.title(), b.x() + PAD + 1, y, b.w() - 2 * PAD, textSize, Font.BOLD);
    for (String text : card.lines()) {
      y += step;
      if (y + textSize * 0.25 > b.bottom()) {
        return;
      }
      g.setPaint(card.alarms().contains(text) ? theme().limit() : theme().ink());
      fitted(g, text, b.x() + PAD + 1, y, b.w() - 2 * PAD, textSize, Font.PLAIN);
    }
  }

  /** Writes a text, smaller where it would not fit: nothing is cut. */
  private static void fitted(
      Graphics2D g, String text, double x, double y, double width, double size, int style) {
    Font font = new Font(Font.SANS_SERIF, style, 1).deriveFont((float) size);
    double needs = SPARE_WIDTH * font.getStringBounds(text, g.getFontRenderContext()).getWidth();
    g.setFont(needs > width ? font.deriveFont((float) (size * width / needs)) : font);
    g.drawString(text, (float) x, (float) y);
  }
}
