package siltwright.circuit.view;

/**
 * A rectangle of the plan.
 *
 * @param x left
 * @param y top
 * @param w width
 * @param h height
 */
record Box(double x, double y, double w, double h) {
  static Box round(double centreX, double centreY, double w, double h) {
    return new Box(centreX - w / 2, centreY - h / 2, w, h);
  }

  double right() {
    return x + w;
  }

  double bottom() {
    return y + h;
  }

  double centreX() {
    return x + w / 2;
  }

  double centreY() {
    return y + h / 2;
  }

  boolean contains(double px, double py) {
    return px >= x && px <= right() && py >= y && py <= bottom();
  }

  /** Whether the two share more than an edge. */
  boolean overlaps(Box other) {
    return x < other.right() && other.x < right() && y < other.bottom() && other.y < bottom();
  }

  /** Whether an upright or level stretch of line goes through the inside. */
  boolean crossedBy(Spot a, Spot b) {
    return Math.min(a.x(), b.x()) < right()
        && Math.max(a.x(), b.x()) > x
        && Math.min(a.y(), b.y()) < bottom()
        && Math.max(a.y(), b.y()) > y;
  }
}
