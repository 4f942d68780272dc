package siltwright.plan;

/** Who goes where on which day, and what the next change there costs more. Whole minutes. */
final class Board {
  private final Network network;
  private final int[][] siteWork;
  private final int[][] areaLoad;
  private final int[][] areaStays;
  private final int[] dayLoad;

  Board(Network network, int days) {
    this.network = network;
    siteWork = new int[network.sites().size()][days];
    areaLoad = new int[network.areas().size()][days];
    areaStays = new int[network.areas().size()][days];
    dayLoad = new int[days];
  }

  int siteWork(int site, int day) {
    return siteWork[site][day];
  }

  int dayLoad(int day) {
    return dayLoad[day];
  }

  void add(Task task, int day) {
    change(task.site(), task.workMin(), day);
  }

  void remove(Task task, int day) {
    change(task.site(), -task.workMin(), day);
  }

  private void change(int site, int work, int day) {
    Network.Site s = network.sites().get(site);
    int area = s.area();
    int shared = network.areas().get(area).sharedMin();
    int before = siteWork[site][day];
    int after = before + work;
    int driven = s.ownMin() * (network.trips(site, after) - network.trips(site, before));
    int tripsBefore = areaTrips(area, day);
    siteWork[site][day] = after;
    areaLoad[area][day] += work + driven;
    areaStays[area][day] += network.longStays(site, after) - network.longStays(site, before);
    dayLoad[day] += work + driven + shared * (areaTrips(area, day) - tripsBefore);
  }

  private int areaTrips(int area, int day) {
    return network.areaTrips(area, areaLoad[area][day], areaStays[area][day]);
  }

  /**
   * Tells what a change costs more on each day.
   *
   * @param opening share of the price of a trip that is reckoned where nobody goes yet
   * @param price gets the prices
   */
  void prices(Task task, double opening, double[] price) {
    int site = task.site();
    int work = task.workMin();
    Network.Site s = network.sites().get(site);
    int area = s.area();
    int shared = network.areas().get(area).sharedMin();
    int own = s.ownMin();
    int siteDay = network.workMin(site);
    int areaDay = network.areaMin(area);
    int full = network.technicians() * network.dayMin();
    double siteMoney = network.siteMoney(site);
    double areaMoney = network.areaMoney(area);
    int[] atSite = siteWork[site];
    int[] inArea = areaLoad[area];
    int[] stays = areaStays[area];
    for (int d = 0; d < price.length; d++) {
      int before = atSite[d];
      int tripsBefore = Network.ceil(before, siteDay);
      int tripsAfter = Network.ceil(before + work, siteDay);
      int trips = tripsAfter - tripsBefore;
      // As Network.longStays tells, without asking it twice a day.
      int longBefore = tripsBefore != 1 || 2 * (before + own) > areaDay ? tripsBefore : 0;
      int longAfter = tripsAfter != 1 || 2 * (before + work + own) > areaDay ? tripsAfter : 0;
      int areaBefore = inArea[d];
      int more = work + own * trips;
      int areaTrips = Network.ceil(areaBefore + more, areaDay) - Network.ceil(areaBefore, areaDay);
      double p =
          (before == 0 ? opening : 1) * trips * siteMoney
              + (areaBefore == 0 ? opening : 1) * areaTrips * areaMoney;
      int load = dayLoad[d] + more + shared * areaTrips;
      if (load > full) {
        p += network.overtime(load) - network.overtime(dayLoad[d]);
      }
      price[d] = p;
    }
  }

  /** What a change on a day costs more. */
  double price(Task task, int day) {
    double before = money(task, day);
    add(task, day);
    double after = money(task, day);
    remove(task, day);
    return after - before;
  }

  /** Cost on a day of what a task's site takes part in. */
  private double money(Task task, int day) {
    int site = task.site();
    int area = network.sites().get(site).area();
    return network.trips(site, siteWork[site][day]) * network.siteMoney(site)
        + areaTrips(area, day) * network.areaMoney(area)
        + network.overtime(dayLoad[day]);
  }

  /** Trips, driving and overtime of all days. */
  Travel travel() {
    double money = 0;
    double overtime = 0;
    long driven = 0;
    int visits = 0;
    for (int d = 0; d < dayLoad.length; d++) {
      for (int s = 0; s < siteWork.length; s++) {
        int trips = network.trips(s, siteWork[s][d]);
        money += trips * network.siteMoney(s);
        driven += (long) trips * network.sites().get(s).ownMin();
        visits += trips > 0 ? 1 : 0;
      }
      for (int a = 0; a < areaLoad.length; a++) {
        int trips = areaTrips(a, d);
        money += trips * network.areaMoney(a);
        driven += (long) trips * network.areas().get(a).sharedMin();
      }
      overtime += network.overtime(dayLoad[d]);
    }
    return new Travel(visits, driven / 60.0, money, overtime);
  }

  /**
   * What the driving comes to.
   *
   * @param visits visits: a site on a day
   * @param drivenH hours of driving
   * @param money what the driving costs
   * @param overtimeMoney what overtime costs
   */
  record Travel(int visits, double drivenH, double money, double overtimeMoney) {}
}
