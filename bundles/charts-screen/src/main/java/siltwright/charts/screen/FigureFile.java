package siltwright.charts.screen;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.awt.geom.Rectangle2D;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import siltwright.analysis.Axis;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.charts.ChartTheme;
import siltwright.charts.Charts;

/** A figure as a file, on light paper whatever the screen looks like. */
public enum FigureFile {
  /** Pixels, two for each of the layout. */
  PNG("png"),
  /** Vectors for web pages; texts stay texts. */
  SVG("svg"),
  /** Vectors for paper. */
  PDF("pdf"),
  /** The numbers, with all their digits. */
  CSV("csv");

  private final String ending;

  FigureFile(String ending) {
    this.ending = ending;
  }

  /** Returns how the file's name ends, without the dot. */
  public String ending() {
    return ending;
  }

  /**
   * Returns the bytes of the file.
   *
   * @param figure the figure
   * @param widthPx width of the layout, px
   * @param heightPx height of the layout, px
   */
  public byte[] bytes(Figure figure, int widthPx, int heightPx) {
    return switch (this) {
      case PNG -> Charts.png(figure, ChartTheme.LIGHT, widthPx, heightPx, 2);
      case SVG ->
          Charts.svg(figure, ChartTheme.LIGHT, widthPx, heightPx).getBytes(StandardCharsets.UTF_8);
      case PDF -> pdf(figure, widthPx, heightPx);
      case CSV -> csv(figure).getBytes(StandardCharsets.UTF_8);
    };
  }

  private static byte[] pdf(Figure figure, int widthPx, int heightPx) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      PdfPicture.write(
          figure.title(),
          figure.caption(),
          widthPx,
          heightPx,
          g2 ->
              Charts.chart(figure, ChartTheme.LIGHT)
                  .draw(g2, new Rectangle2D.Double(0, 0, widthPx, heightPx)),
          bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  /** Columns of one figure: points of a layer in a row, its x once where layers share it. */
  private record Columns(List<String> heads, List<double[]> numbers) {}

  /** Returns the numbers of a figure as comma-separated values, a column a curve. */
  public static String csv(Figure figure) {
    return table(figure, ',');
  }

  /** Returns the numbers of a figure as a spreadsheet takes them from the clipboard. */
  public static String tabbed(Figure figure) {
    return table(figure, '\t');
  }

  private static String table(Figure figure, char separator) {
    Columns columns = columns(figure);
    StringWriter out = new StringWriter();
    try (CsvWriter csv = CsvWriter.builder().fieldSeparator(separator).build(out)) {
      csv.writeRecord(columns.heads());
      int rows = columns.numbers().stream().mapToInt(n -> n.length).max().orElse(0);
      for (int i = 0; i < rows; i++) {
        List<String> row = new ArrayList<>();
        for (double[] n : columns.numbers()) {
          row.add(i < n.length && Double.isFinite(n[i]) ? ExactNumber.text(n[i]) : "");
        }
        csv.writeRecord(row);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString();
  }

  private static Columns columns(Figure figure) {
    Columns columns = new Columns(new ArrayList<>(), new ArrayList<>());
    double[] before = null;
    for (Panel panel : figure.panels()) {
      for (Layer layer : panel.layers()) {
        before = add(columns, figure.x(), panel.y(), layer, before);
      }
    }
    return columns;
  }

  private static double[] add(Columns to, Axis x, Axis y, Layer layer, double[] before) {
    if (layer instanceof Layer.Line l) {
      return add(to, x, before, l.xs(), List.of(head(l.label(), y)), List.of(l.ys()));
    }
    if (layer instanceof Layer.Steps l) {
      return add(to, x, before, l.xs(), List.of(head(l.label(), y)), List.of(l.ys()));
    }
    if (layer instanceof Layer.Points l) {
      return add(to, x, before, l.xs(), List.of(head(l.label(), y)), List.of(l.ys()));
    }
    if (layer instanceof Layer.Band l) {
      List<String> heads = List.of(head(l.label() + ", low", y), head(l.label() + ", high", y));
      return add(to, x, before, l.xs(), heads, List.of(l.lows(), l.highs()));
    }
    if (layer instanceof Layer.Stack l) {
      List<String> heads = l.parts().stream().map(p -> head(p.label(), y)).toList();
      List<double[]> numbers = l.parts().stream().map(Layer.Part::ys).toList();
      return add(to, x, before, l.xs(), heads, numbers);
    }
    if (layer instanceof Layer.At l) {
      return mark(to, before, head(l.label(), x), l.x());
    }
    if (layer instanceof Layer.Level l) {
      return mark(to, before, head(l.label(), y), l.y());
    }
    Layer.Span l = (Layer.Span) layer;
    return mark(to, before, head(l.label(), x), l.low(), l.high());
  }

  private static double[] mark(Columns to, double[] before, String head, double... values) {
    to.heads().add(head);
    to.numbers().add(values);
    return before;
  }

  private static double[] add(
      Columns to, Axis x, double[] before, double[] xs, List<String> heads, List<double[]> ys) {
    if (!Arrays.equals(before, xs)) {
      to.heads().add(head("", x));
      to.numbers().add(xs);
    }
    to.heads().addAll(heads);
    to.numbers().addAll(ys);
    return xs;
  }

  private static String head(String label, Axis axis) {
    String name = label.isEmpty() ? axis.label() : label;
    String unit = Numbers.shown(axis.unit());
    return unit.isEmpty() ? name : name + " [" + unit + "]";
  }
}
