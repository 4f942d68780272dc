package siltwright.plan;

import java.util.List;

/**
 * How far the sites are and what driving there costs. Roads are a tree: base, area, site. A
 * technician who goes to an area drives its shared stretch once a day and each site's own stretch
 * once a day.
 *
 * @param sites the sites
 * @param areas the areas
 * @param technicians technicians at the base
 * @param dayMin minutes a technician works a day, driving included
 * @param hourMoney what an hour of driving costs, wage and vehicle
 * @param overtimeMoney what an hour beyond the technicians' day costs more
 */
public record Network(
    List<Site> sites,
    List<Area> areas,
    int technicians,
    int dayMin,
    double hourMoney,
    double overtimeMoney) {
  /** Least time that must be left for work on a day of driving, min. */
  public static final int LEAST_WORK_MIN = 60;

  public Network {
    sites = List.copyOf(sites);
    areas = List.copyOf(areas);
    for (Site s : sites) {
      if (s.ownMin() + areas.get(s.area()).sharedMin() > dayMin - LEAST_WORK_MIN) {
        throw new IllegalArgumentException(
            s.id() + ": driving leaves less than " + LEAST_WORK_MIN + " min of a day for work");
      }
    }
  }

  /**
   * A site.
   *
   * @param id its id
   * @param area place of its area in {@link Network#areas()}
   * @param ownMin minutes there and back from where its road leaves the shared one
   * @param tripMoney what a visit costs besides
   */
  public record Site(String id, int area, int ownMin, double tripMoney) {}

  /**
   * An area.
   *
   * @param name its name
   * @param sharedMin minutes there and back on the stretch that its sites share
   */
  public record Area(String name, int sharedMin) {}

  /** Returns the minutes of work that one technician can do at a site in a day. */
  int workMin(int site) {
    Site s = sites.get(site);
    return dayMin - s.ownMin() - areas.get(s.area()).sharedMin();
  }

  /** Returns how many go to a site for so much work. */
  int trips(int site, int work) {
    return ceil(work, workMin(site));
  }

  /**
   * Returns how many of those who go to a site for so much work stay there for over half of what a
   * day in the area leaves them: no two of these can be one.
   */
  int longStays(int site, int work) {
    int trips = trips(site, work);
    return trips != 1 || 2 * (work + sites.get(site).ownMin()) > areaMin(sites.get(site).area())
        ? trips
        : 0;
  }

  /** Returns the minutes of a day that are left in an area. */
  int areaMin(int area) {
    return dayMin - areas.get(area).sharedMin();
  }

  /** Returns how many go to an area for so much work and driving within it, and long stays. */
  int areaTrips(int area, int load, int longStays) {
    return Math.max(longStays, ceil(load, areaMin(area)));
  }

  /** Returns what one trip on a site's own stretch costs. */
  double siteMoney(int site) {
    return sites.get(site).ownMin() / 60.0 * hourMoney + sites.get(site).tripMoney();
  }

  /** Returns what one trip on an area's shared stretch costs. */
  double areaMoney(int area) {
    return areas.get(area).sharedMin() / 60.0 * hourMoney;
  }

  /** Returns what so much work and driving on a day costs beyond the technicians' hours. */
  double overtime(int load) {
    return Math.max(0, load - technicians * dayMin) / 60.0 * overtimeMoney;
  }

  static int ceil(int a, int b) {
    return (a + b - 1) / b;
  }
}
