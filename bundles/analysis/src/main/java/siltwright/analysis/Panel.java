package siltwright.analysis;

import java.util.List;

/**
 * A part of a figure with a y axis of its own.
 *
 * @param y its axis
 * @param layers what is drawn in it, from the back to the front
 */
public record Panel(Axis y, List<Layer> layers) {
  public Panel {
    layers = List.copyOf(layers);
  }
}
