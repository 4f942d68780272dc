package siltwright.charts;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.math3.special.Erf;
import org.jfree.chart.axis.AxisState;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTick;
import org.jfree.chart.axis.TickType;
import org.jfree.chart.axis.ValueTick;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.Range;
import siltwright.analysis.Axis;
import siltwright.analysis.Numbers;

/**
 * An axis of any {@link Axis.Scale}: values are laid out evenly after a transform.
 *
 * <pre>
 *  LINEAR   v
 *  LOG      log10 v
 *  WEIBULL  ln(-ln(1 - p)): a Weibull distribution is straight against ln t
 *  NORMAL   the standard normal quantile of p
 * </pre>
 *
 * <p>Probabilities run from 0 to 1, or from 0 to 100 if the axis' unit is %.
 */
final class ScaleAxis extends NumberAxis {
  private static final long serialVersionUID = 1;
  private static final double[] MAIN_SHARES = {0.001, 0.01, 0.1, 0.5, 0.9, 0.99, 0.999};
  private static final double[] OTHER_SHARES = {
    0.0001, 0.002, 0.005, 0.02, 0.05, 0.2, 0.3, 0.4, 0.6, 0.7, 0.8, 0.95, 0.98, 0.995, 0.9999
  };
  private static final double NEAREST_SHARE = 1e-6;
  // Least distance of tick labels in pixels, along and across the axis.
  private static final double WIDE = 84;
  private static final double NARROW = 62;
  private static final double HIGH = 44;
  private static final double LOW = 19;

  /** A name of more characters is cut. */
  private static final int LONGEST_NAME = 28;

  private final Axis.Scale scale;
  private final List<String> names;
  private final double whole;
  private final Range home;

  ScaleAxis(Axis axis, Range home) {
    super(null);
    this.scale = axis.scale();
    this.names = axis.names();
    this.whole = axis.unit().equals("%") ? 100 : 1;
    this.home = home;
    setRange(home);
    setAutoRange(true);
  }

  /** Returns the place of a value on the scale; not a number if it has none. */
  static double forward(Axis.Scale scale, double whole, double v) {
    double p = v / whole;
    return switch (scale) {
      case LINEAR -> v;
      case LOG -> v > 0 ? Math.log10(v) : Double.NaN;
      case WEIBULL -> p > 0 && p < 1 ? Math.log(-Math.log1p(-p)) : Double.NaN;
      case NORMAL -> p > 0 && p < 1 ? Math.sqrt(2) * Erf.erfInv(2 * p - 1) : Double.NaN;
    };
  }

  private double forward(double v) {
    return forward(scale, whole, v);
  }

  private double backward(double place) {
    return switch (scale) {
      case LINEAR -> place;
      case LOG -> Math.pow(10, place);
      case WEIBULL -> whole * -Math.expm1(-Math.exp(place));
      case NORMAL -> whole * 0.5 * Erf.erfc(-place / Math.sqrt(2));
    };
  }

  @Override
  public double valueToJava2D(double value, Rectangle2D area, RectangleEdge edge) {
    double low = forward(getLowerBound());
    double share = (forward(value) - low) / (forward(getUpperBound()) - low);
    if (!names.isEmpty() && !RectangleEdge.isTopOrBottom(edge)) {
      share = 1 - share; // the first name on top
    }
    return RectangleEdge.isTopOrBottom(edge)
        ? area.getX() + share * area.getWidth()
        : area.getMaxY() - share * area.getHeight();
  }

  @Override
  public double java2DToValue(double pixel, Rectangle2D area, RectangleEdge edge) {
    double low = forward(getLowerBound());
    double share =
        RectangleEdge.isTopOrBottom(edge)
            ? (pixel - area.getX()) / area.getWidth()
            : (area.getMaxY() - pixel) / area.getHeight();
    if (!names.isEmpty() && !RectangleEdge.isTopOrBottom(edge)) {
      share = 1 - share;
    }
    return backward(low + share * (forward(getUpperBound()) - low));
  }

  @Override
  protected void autoAdjustRange() {
    // Called by the base class' constructor too, before there is a range.
    if (home != null) {
      setRange(home, false, false);
    }
  }

  /** Keeps the range where the scale has values, whoever zooms. */
  @Override
  public void setRange(Range range, boolean turnOffAutoRange, boolean notify) {
    Range kept = range;
    if (home != null && scale != Axis.Scale.LINEAR) {
      double least = scale == Axis.Scale.LOG ? home.getLowerBound() * 1e-3 : NEAREST_SHARE * whole;
      double most = scale == Axis.Scale.LOG ? range.getUpperBound() : whole - NEAREST_SHARE * whole;
      double low = Math.min(Math.max(range.getLowerBound(), least), most / 2);
      kept = new Range(low, Math.max(low * 1.0001, Math.min(range.getUpperBound(), most)));
    }
    super.setRange(kept, turnOffAutoRange, notify);
  }

  @Override
  public void zoomRange(double lowerPercent, double upperPercent) {
    double low = forward(getLowerBound());
    double length = forward(getUpperBound()) - low;
    setRange(
        new Range(backward(low + lowerPercent * length), backward(low + upperPercent * length)));
  }

  @Override
  public List<ValueTick> refreshTicks(
      Graphics2D g2, AxisState state, Rectangle2D area, RectangleEdge edge) {
    boolean level = RectangleEdge.isTopOrBottom(edge);
    double length = level ? area.getWidth() : area.getHeight();
    List<ValueTick> ticks = new ArrayList<>();
    if (!names.isEmpty()) {
      names(ticks, length / (level ? WIDE : LOW * 0.8), edge);
      return ticks;
    }
    switch (scale) {
      case LINEAR -> linear(ticks, Math.max(2, length / (level ? WIDE : HIGH)), edge);
      case LOG -> log(ticks, length / (level ? NARROW : LOW * 1.4), edge);
      case WEIBULL, NORMAL -> shares(ticks, area, level ? NARROW : LOW, edge);
    }
    return ticks;
  }

  /** Adds the names in sight, or as many of them as there is room for. */
  private void names(List<ValueTick> ticks, double most, RectangleEdge edge) {
    int every = (int) Math.max(1, Math.ceil((getUpperBound() - getLowerBound()) / most));
    for (int i = 0; i < names.size(); i++) {
      if (i + 1 >= getLowerBound() && i + 1 <= getUpperBound()) {
        String name = names.get(i);
        String shown =
            name.length() > LONGEST_NAME ? name.substring(0, LONGEST_NAME - 1) + "…" : name;
        add(ticks, i + 1, i % every == 0 ? shown : "", edge);
      }
    }
  }

  /** Returns the step of 1, 2 or 5 times a power of ten that gives at most so many ticks. */
  static double step(double length, double most) {
    double raw = length / most;
    double ten = Math.pow(10, Math.floor(Math.log10(raw)));
    for (double factor : new double[] {1, 2, 5}) {
      if (factor * ten >= raw * (1 - 1e-9)) {
        return factor * ten;
      }
    }
    return 10 * ten;
  }

  private void linear(List<ValueTick> ticks, double most, RectangleEdge edge) {
    double low = getLowerBound();
    double high = getUpperBound();
    double step = step(high - low, most);
    int decimals = Math.max(0, (int) -Math.floor(Math.log10(step) + 1e-9));
    double slack = 1e-9 * step;
    for (double k = Math.ceil((low - slack) / step); k * step <= high + slack; k++) {
      double v = k * step;
      add(ticks, v, Numbers.grouped(Numbers.fixed(v, decimals)), edge);
    }
  }

  private void log(List<ValueTick> ticks, double most, RectangleEdge edge) {
    double low = Math.log10(getLowerBound()) - 1e-9;
    double high = Math.log10(getUpperBound()) + 1e-9;
    double decades = high - low;
    if (decades < 0.7) {
      linear(ticks, Math.min(most, 6), edge);
      return;
    }
    int every = (int) Math.max(1, Math.ceil(decades / most));
    boolean between = decades * 3 <= Math.min(most, 8);
    for (int e = (int) Math.floor(low); e <= high; e++) {
      for (int m = 1; m <= 9; m++) {
        double place = e + Math.log10(m);
        if (place >= low && place <= high) {
          boolean named = m == 1 ? Math.floorMod(e, every) == 0 : between && (m == 2 || m == 5);
          add(ticks, m * Math.pow(10, e), named ? power(m, e) : "", edge);
        }
      }
    }
  }

  /** Returns m times ten to the e: plain where that is short. */
  private static String power(int m, int e) {
    if (e >= -3 && e <= 5) {
      return Numbers.grouped(Numbers.fixed(m * Math.pow(10, e), Math.max(0, -e)));
    }
    StringBuilder text = new StringBuilder(m == 1 ? "10" : m + "·10");
    for (char c : Integer.toString(e).toCharArray()) {
      text.append(c == '-' ? '⁻' : "⁰¹²³⁴⁵⁶⁷⁸⁹".charAt(c - '0'));
    }
    return text.toString();
  }

  private void shares(List<ValueTick> ticks, Rectangle2D area, double apart, RectangleEdge edge) {
    List<Double> taken = new ArrayList<>();
    for (double[] shares : new double[][] {MAIN_SHARES, OTHER_SHARES}) {
      for (double p : shares) {
        double v = p * whole;
        if (v >= getLowerBound() && v <= getUpperBound()) {
          double pixel = valueToJava2D(v, area, edge);
          boolean free = taken.stream().allMatch(t -> Math.abs(t - pixel) >= apart);
          if (free) {
            taken.add(pixel);
          }
          add(ticks, v, free ? Numbers.text(v) : "", edge);
        }
      }
    }
  }

  private static void add(List<ValueTick> ticks, double v, String label, RectangleEdge edge) {
    TextAnchor anchor =
        RectangleEdge.isTopOrBottom(edge) ? TextAnchor.TOP_CENTER : TextAnchor.CENTER_RIGHT;
    TickType type = label.isEmpty() ? TickType.MINOR : TickType.MAJOR;
    ticks.add(new NumberTick(type, v, label, anchor, TextAnchor.CENTER, 0));
  }

  @Override
  public String toString() {
    return String.format(Locale.ROOT, "%s %s", scale, getRange());
  }
}
