package siltwright.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;

/** How far the sites are, out of a table. */
record SiteTable(Map<String, Road> roads) {
  private static final String SITE = "site";
  private static final String TRAVEL = "travel_h";
  private static final String AREA = "area";
  private static final String SHARED = "shared_h";
  private static final String TRIP = "trip_money";

  static final List<RecordColumn> COLUMNS =
      List.of(
          RecordColumn.word(SITE, true, "site of the fleet file"),
          RecordColumn.number(TRAVEL, 0, 20, true, "driving there and back, h"),
          RecordColumn.word(AREA, false, "area whose sites share a road"),
          RecordColumn.number(SHARED, 0, 20, false, "driving on the shared road of it, h"),
          RecordColumn.number(TRIP, 0, 1e9, false, "what a trip costs besides"));

  private record Road(double travelH, String area, double sharedH, double tripMoney) {}

  static SiteTable of(Optional<Records> table, double dayH) {
    Map<String, Road> roads = new LinkedHashMap<>();
    Map<String, Double> shared = new LinkedHashMap<>();
    double longest = dayH - Network.LEAST_WORK_MIN / 60.0;
    table.ifPresent(
        t ->
            TableRow.all(
                t,
                row -> {
                  double travel = row.number(TRAVEL);
                  if (travel > longest) {
                    throw row.fault(
                        TRAVEL, "at most " + longest + ", so that an hour of the day is left");
                  }
                  String area = row.optionalText(AREA);
                  double with = row.optional(SHARED).orElse(0);
                  if (with > travel || with > 0 && area.isEmpty()) {
                    throw row.fault(SHARED, "a part of travel_h, with an area");
                  }
                  double other = shared.computeIfAbsent(area, a -> with);
                  if (!area.isEmpty() && other != with) {
                    throw row.fault(SHARED, other + ", as for the other sites of " + area);
                  }
                  Road road = new Road(travel, area, with, row.optional(TRIP).orElse(0));
                  if (roads.putIfAbsent(row.text(SITE), road) != null) {
                    throw row.fault(SITE, "each site once");
                  }
                }));
    return new SiteTable(roads);
  }

  /**
   * Returns the network of some sites.
   *
   * @param sites their ids
   * @param standardH driving there and back where the table does not say
   */
  Network network(
      List<String> sites,
      double standardH,
      int technicians,
      double dayH,
      double wage,
      double more) {
    List<Network.Area> areas = new ArrayList<>();
    List<Network.Site> places = new ArrayList<>();
    Map<String, Integer> byName = new LinkedHashMap<>();
    for (String id : sites) {
      Road road = roads.getOrDefault(id, new Road(standardH, "", 0, 0));
      int shared = minutes(road.sharedH());
      int area;
      if (road.area().isEmpty()) {
        area = areas.size();
        areas.add(new Network.Area(id, 0));
      } else {
        area = byName.computeIfAbsent(road.area(), a -> areas.size());
        if (area == areas.size()) {
          areas.add(new Network.Area(road.area(), shared));
        }
      }
      places.add(new Network.Site(id, area, minutes(road.travelH()) - shared, road.tripMoney()));
    }
    return new Network(places, areas, technicians, minutes(dayH), wage, more);
  }

  static int minutes(double h) {
    return (int) Math.round(60 * h);
  }
}
