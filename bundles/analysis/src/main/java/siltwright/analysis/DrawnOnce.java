package siltwright.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;

/** Figures of several drawings, drawn when they are first asked for and kept. */
final class DrawnOnce implements Supplier<List<Figure>> {
  private List<Supplier<List<Figure>>> drawings;
  private List<Figure> figures;

  DrawnOnce(List<Supplier<List<Figure>>> drawings) {
    this.drawings = List.copyOf(drawings);
  }

  @Override
  public synchronized List<Figure> get() {
    if (figures == null) {
      List<Figure> drawn = new ArrayList<>();
      drawings.forEach(d -> drawn.addAll(d.get()));
      figures = List.copyOf(drawn);
      drawings = null; // and with it what they were drawn from
    }
    return figures;
  }
}
