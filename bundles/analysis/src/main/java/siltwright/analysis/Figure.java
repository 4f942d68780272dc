package siltwright.analysis;

import java.util.List;

/**
 * A picture as data: panels one above the other on one x axis.
 *
 * @param name name, its key in JSON and its file name
 * @param title what it shows
 * @param caption one sentence on how to read it
 * @param x the x axis
 * @param panels the panels from the top down
 */
public record Figure(String name, String title, String caption, Axis x, List<Panel> panels) {
  public Figure {
    panels = List.copyOf(panels);
  }
}
