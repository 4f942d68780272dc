package siltwright.workbench.internal;

import io.github.andrewauclair.moderndocking.DockingRegion;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import siltwright.workbench.View;

/**
 * Which views stand where. The places that a view may lack are passed over, so that an arrangement
 * holds for any product.
 *
 * @param id id of the arrangement
 * @param places the places in the order in which they are filled
 * @param front views that are to be in front of their tabs
 */
record Arrangement(String id, List<Place> places, List<String> front) {
  static final String RELIABILITY = "reliability";
  static final String ANALYST = "analyst";
  static final String CONSULTANT = "consultant";

  /** The arrangements that come with the window. */
  static final List<String> IDS = List.of(RELIABILITY, ANALYST, CONSULTANT);

  /**
   * What each of them works with. A tab for every analysis there is would hide these, and each
   * would compute at every change; the others are a menu away.
   */
  private static final Map<String, List<String>> WORK =
      Map.of(
          RELIABILITY,
          List.of("circuit", "interval", "analysis-tune", "analysis-simulate"),
          ANALYST,
          List.of(
              "analysis-compare",
              "analysis-tune",
              "cleanliness",
              "component-life",
              "analysis-restart"),
          CONSULTANT,
          List.of("analysis-tune", "analysis-fit", "interval", "circuit", "analysis-plan"));

  /**
   * A place.
   *
   * @param view id of the view
   * @param beside id of the view beside which it stands; empty for the window
   * @param region on which side of that, the centre for a tab in front of it
   * @param share its share of the room
   */
  record Place(String view, String beside, DockingRegion region, double share) {}

  /**
   * Returns an arrangement for the views of the product.
   *
   * @param id one of {@link #IDS}
   * @param views the views
   */
  static Arrangement of(String id, List<View> views) {
    List<String> there = views.stream().map(View::id).toList();
    List<String> work = WORK.get(id).stream().filter(there::contains).toList();
    List<Place> places = new ArrayList<>();
    String first = "";
    for (String view : work) {
      places.add(new Place(view, first, DockingRegion.CENTER, 1));
      first = first.isEmpty() ? view : first;
    }
    places.add(new Place(BuiltIn.FINDINGS, "", DockingRegion.SOUTH, 0.28));
    places.add(new Place(BuiltIn.RUNS, BuiltIn.FINDINGS, DockingRegion.CENTER, 1));
    boolean inspector = !id.equals(ANALYST);
    places.add(new Place(BuiltIn.FLEET, "", DockingRegion.WEST, inspector ? 0.32 : 0.26));
    if (inspector) {
      places.add(new Place(BuiltIn.INSPECTOR, "", DockingRegion.EAST, 0.26));
    }
    return new Arrangement(id, places, List.of(first, BuiltIn.FINDINGS));
  }
}
