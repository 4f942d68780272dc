package siltwright.circuit.view;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Where the parts of a machine's circuit stand, how lines join them, and where the numbers hang.
 * Knows nothing of how it is drawn. Lengths in the plan's own unit, a pixel at natural size.
 *
 * @param width width of the whole
 * @param height height of the whole
 * @param places parts
 * @param ports where lines may end: the parts' ports by {@code part.port}, and joints
 * @param lines lines
 * @param tags boxes for numbers
 */
record Plan(
    double width,
    double height,
    List<Place> places,
    Map<String, Spot> ports,
    List<Line> lines,
    List<Tag> tags) {
  Plan {
    places = List.copyOf(places);
    ports = Map.copyOf(ports);
    lines = List.copyOf(lines);
    tags = List.copyOf(tags);
  }

  /** What a part is drawn as. */
  enum Symbol {
    TANK,
    PRESSURISED_TANK,
    BREATHER,
    DRIVE,
    PUMP,
    PRESSURE_FILTER,
    VALVE,
    /** A valve whose consumer the file does not name. */
    LONE_VALVE,
    CYLINDER,
    MOTOR,
    CONSUMER,
    RETURN_FILTER,
    BYPASS,
    INDICATOR,
    OFFLINE_PUMP,
    OFFLINE_FILTER,
    /** Where dirt comes in. */
    INGRESS
  }

  /** Whose oil a line carries. */
  enum Carried {
    TANK_OIL,
    BEHIND_PRESSURE_FILTER,
    RETURN,
    PAST_FILTER,
    TO_FILTER,
    BYPASS,
    ELEMENT,
    BEHIND_ELEMENT,
    BEHIND_FILTER,
    OFFLINE,
    BEHIND_OFFLINE,
    RESERVOIR_DIRT,
    RETURN_DIRT
  }

  /**
   * A part.
   *
   * @param id its name in the plan
   * @param symbol what it is drawn as
   * @param box room that the symbol takes
   * @param component its place among the machine's components, if it is one
   * @param path where it stands in the machine's file
   */
  record Place(String id, Symbol symbol, Box box, OptionalInt component, String path) {}

  /**
   * A line, in the direction of the flow.
   *
   * @param carried whose oil
   * @param from port at which it begins
   * @param to port at which it ends
   * @param path corners, both ends included
   * @param share share of the flow that the part it serves takes
   */
  record Line(Carried carried, String from, String to, List<Spot> path, double share) {
    Line {
      path = List.copyOf(path);
    }

    double length() {
      double sum = 0;
      for (int i = 1; i < path.size(); i++) {
        sum += distance(i);
      }
      return sum;
    }

    private double distance(int i) {
      Spot a = path.get(i - 1);
      Spot b = path.get(i);
      return Math.hypot(b.x() - a.x(), b.y() - a.y());
    }

    /** Returns the point at a length from the beginning, moved aside to the right of the flow. */
    Spot at(double along, double aside) {
      double left = along;
      int i = 1;
      while (i < path.size() - 1 && left > distance(i)) {
        left -= distance(i);
        i++;
      }
      Spot a = path.get(i - 1);
      Spot b = path.get(i);
      double d = Math.max(1e-9, distance(i));
      double ux = (b.x() - a.x()) / d;
      double uy = (b.y() - a.y()) / d;
      return new Spot(a.x() + ux * left - uy * aside, a.y() + uy * left + ux * aside);
    }
  }

  /**
   * A box for the numbers of a part.
   *
   * @param place the part's id
   * @param box room for them
   */
  record Tag(String place, Box box) {}

  /** Returns the part with an id. */
  Optional<Place> place(String id) {
    return places.stream().filter(p -> p.id().equals(id)).findFirst();
  }

  /** Returns the smallest part or the tag's part at a point. */
  Optional<Place> placeAt(double x, double y) {
    Optional<Place> tagged =
        tags.stream()
            .filter(t -> t.box().contains(x, y))
            .findFirst()
            .flatMap(t -> place(t.place()));
    return tagged.isPresent()
        ? tagged
        : places.stream()
            .filter(p -> p.box().contains(x, y))
            .min((a, b) -> Double.compare(a.box().w() * a.box().h(), b.box().w() * b.box().h()));
  }
}
