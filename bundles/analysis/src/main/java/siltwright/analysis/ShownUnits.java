package siltwright.analysis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import siltwright.model.Units;

/** Results in the units that a user wants to see. Names, which programs read, stay. */
public final class ShownUnits {
  private ShownUnits() {}

  /** Returns a figure in units. */
  public static Figure of(Units units, Figure f) {
    if (units == Units.SI) {
      return f;
    }
    List<Panel> panels = new ArrayList<>();
    for (Panel p : f.panels()) {
      UnaryOperator<double[]> x = numbers(units, f.x().unit());
      UnaryOperator<double[]> y = numbers(units, p.y().unit());
      List<Layer> layers = p.layers().stream().map(l -> layer(l, x, y)).toList();
      panels.add(new Panel(axis(units, p.y()), layers));
    }
    return new Figure(f.name(), f.title(), f.caption(), axis(units, f.x()), panels);
  }

  private static Axis axis(Units units, Axis a) {
    return new Axis(a.label(), units.unit(a.unit()), a.scale());
  }

  private static UnaryOperator<double[]> numbers(Units units, String unit) {
    return units.unit(unit).equals(unit)
        ? UnaryOperator.identity()
        : values -> Arrays.stream(values).map(v -> units.shown(v, unit)).toArray();
  }

  private static Layer layer(Layer layer, UnaryOperator<double[]> x, UnaryOperator<double[]> y) {
    if (layer instanceof Layer.Line l) {
      return new Layer.Line(l.label(), x.apply(l.xs()), y.apply(l.ys()), l.style());
    }
    if (layer instanceof Layer.Steps l) {
      return new Layer.Steps(l.label(), x.apply(l.xs()), y.apply(l.ys()), l.style());
    }
    if (layer instanceof Layer.Band l) {
      return new Layer.Band(l.label(), x.apply(l.xs()), y.apply(l.lows()), y.apply(l.highs()));
    }
    if (layer instanceof Layer.Stack l) {
      List<Layer.Part> parts =
          l.parts().stream().map(p -> new Layer.Part(p.label(), y.apply(p.ys()))).toList();
      return new Layer.Stack(l.label(), x.apply(l.xs()), parts);
    }
    if (layer instanceof Layer.Points l) {
      return new Layer.Points(l.label(), x.apply(l.xs()), y.apply(l.ys()), l.mark());
    }
    if (layer instanceof Layer.At l) {
      return new Layer.At(l.label(), one(x, l.x()), l.style());
    }
    if (layer instanceof Layer.Level l) {
      return new Layer.Level(l.label(), one(y, l.y()));
    }
    Layer.Span l = (Layer.Span) layer;
    return new Layer.Span(l.label(), one(x, l.low()), one(x, l.high()));
  }

  private static double one(UnaryOperator<double[]> conversion, double value) {
    return conversion.apply(new double[] {value})[0];
  }

  /** Returns a value, group or table in units. */
  public static Entry of(Units units, Entry entry) {
    if (units == Units.SI) {
      return entry;
    }
    if (entry instanceof Entry.Value v) {
      return value(units, v);
    }
    if (entry instanceof Entry.Group g) {
      List<Entry.Value> values = g.values().stream().map(v -> value(units, v)).toList();
      return new Entry.Group(g.name(), g.label(), values);
    }
    Entry.Table t = (Entry.Table) entry;
    List<Entry.Column> columns = new ArrayList<>();
    for (Entry.Column c : t.columns()) {
      columns.add(new Entry.Column(c.name(), c.label(), units.unit(c.unit()), c.use()));
    }
    List<List<Cell>> rows = new ArrayList<>();
    for (List<Cell> row : t.rows()) {
      List<Cell> shown = new ArrayList<>();
      for (int i = 0; i < row.size(); i++) {
        shown.add(cell(units, row.get(i), t.columns().get(i).unit()));
      }
      rows.add(shown);
    }
    return new Entry.Table(t.name(), t.label(), t.use(), columns, rows);
  }

  private static Entry.Value value(Units units, Entry.Value v) {
    return new Entry.Value(
        v.name(), v.label(), units.unit(v.unit()), cell(units, v.cell(), v.unit()));
  }

  private static Cell cell(Units units, Cell cell, String unit) {
    if (units.unit(unit).equals(unit)) {
      return cell;
    }
    if (cell instanceof Cell.Num n) {
      return new Cell.Num(units.shown(n.value(), unit));
    }
    if (cell instanceof Cell.Range r) {
      return new Cell.Range(units.shown(r.low(), unit), units.shown(r.high(), unit));
    }
    if (cell instanceof Cell.Numbers n) {
      return new Cell.Numbers(numbers(units, unit).apply(n.values()));
    }
    if (cell instanceof Cell.Named n) {
      Map<String, Double> shown = new LinkedHashMap<>();
      n.values().forEach((name, v) -> shown.put(name, units.shown(v, unit)));
      return new Cell.Named(shown);
    }
    if (cell instanceof Cell.Parts p) {
      Map<String, Cell> shown = new LinkedHashMap<>();
      p.cells().forEach((name, c) -> shown.put(name, cell(units, c, unit)));
      return new Cell.Parts(shown);
    }
    return cell;
  }
}
