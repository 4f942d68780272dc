package siltwright.circuit.view;

import java.util.ArrayList;
import java.util.List;

/** Which part of a plan is seen, and how large: the same for all canvases that look through it. */
final class Lens {
  private static final double LARGEST = 8;

  private final List<Runnable> watchers = new ArrayList<>();
  private double zoom = 1;
  private double x = 0.5;
  private double y = 0.5;

  /** Calls back when it moved. */
  void watch(Runnable watcher) {
    watchers.add(watcher);
  }

  /** Returns how much larger than to fit; at least 1. */
  double zoom() {
    return zoom;
  }

  /** Returns the share of the width that is in the middle. */
  double x() {
    return x;
  }

  /** Returns the share of the height that is in the middle. */
  double y() {
    return y;
  }

  /** Shows everything. */
  void fit() {
    set(1, 0.5, 0.5);
  }

  /** Zooms about a point, by its shares of width and height, that stays where it is. */
  void zoom(double factor, double atX, double atY) {
    double to = Math.max(1, Math.min(LARGEST, zoom * factor));
    double kept = zoom / to;
    set(to, atX + (x - atX) * kept, atY + (y - atY) * kept);
  }

  /** Moves by shares of width and height. */
  void move(double byX, double byY) {
    set(zoom, x + byX, y + byY);
  }

  private void set(double toZoom, double toX, double toY) {
    zoom = toZoom;
    double half = 0.5 / zoom;
    x = Math.max(half, Math.min(1 - half, toX));
    y = Math.max(half, Math.min(1 - half, toY));
    watchers.forEach(Runnable::run);
  }
}
