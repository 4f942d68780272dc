package siltwright.model.json;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import siltwright.model.Bands;
import siltwright.model.BetaPoint;
import siltwright.model.ChangeProcedure;
import siltwright.model.Element;
import siltwright.model.Fluid;
import siltwright.model.Housing;
import siltwright.model.LoadingPoint;
import siltwright.model.Site;
import siltwright.model.SizeBands;
import siltwright.model.SizeDistribution;

/**
 * What the machines of a file share.
 *
 * @param sites sites
 * @param distributions size distributions by id
 * @param fluids fluids by id
 * @param elements elements by id
 * @param lawFaults what is wrong with the loading law of an element, by the element's id
 * @param procedures change procedures
 * @param extensions what machines may name besides
 */
record Shared(
    List<Site> sites,
    Map<String, SizeDistribution> distributions,
    Map<String, Fluid> fluids,
    Map<String, Element> elements,
    Map<String, Extensions.Fault> lawFaults,
    List<ChangeProcedure> procedures,
    Extensions extensions) {
  private static final double SUM_TOLERANCE = 1e-6;
  private static final double LEAST_TEMPERATURE_STEP = 5;

  /** Reads it from a fleet, whose shape is right; complains of what else is wrong. */
  static Shared read(Item fleet, Extensions extensions, Complaints complaints) {
    List<Site> sites =
        fleet.items("sites").stream().map(s -> new Site(s.text("id"), s.text("name"))).toList();
    uniqueIds(fleet.items("sites"), complaints);
    Map<String, SizeDistribution> distributions =
        entries(fleet, "distributions", (id, item) -> distribution(id, item, complaints));
    Map<String, Fluid> fluids = entries(fleet, "fluids", (id, item) -> fluid(id, item, complaints));
    Map<String, Extensions.Fault> lawFaults = new HashMap<>();
    Map<String, Element> elements =
        entries(
            fleet,
            "elements",
            (id, item) -> {
              int before = complaints.problems().size();
              Element element = element(id, item, complaints);
              return item.has("loadingLaw") && complaints.problems().size() == before
                  ? extensions.applied(element, item.item("loadingLaw"), lawFaults)
                  : element;
            });
    List<ChangeProcedure> procedures = new ArrayList<>();
    for (Item item : fleet.items("procedures")) {
      if (known(item, "handlingDirt", distributions.keySet(), complaints)) {
        procedures.add(procedure(item, distributions, complaints));
      }
    }
    uniqueIds(fleet.items("procedures"), complaints);
    return new Shared(sites, distributions, fluids, elements, lawFaults, procedures, extensions);
  }

  private static <T> Map<String, T> entries(
      Item fleet, String key, BiFunction<String, Item, T> reading) {
    Map<String, T> entries = new LinkedHashMap<>();
    fleet.entries(key).forEach((id, item) -> entries.put(id, reading.apply(id, item)));
    return entries;
  }

  private static SizeDistribution distribution(String id, Item item, Complaints complaints) {
    if (item.has("massShare") == item.has("cumulativeCounts")) {
      complaints.add(
          item.pointer(),
          item.has("massShare") ? "both" : "neither",
          "either massShare or cumulativeCounts");
      return new SizeDistribution(id, Bands.ZERO);
    }
    if (item.has("massShare")) {
      double[] share = item.numbers("massShare");
      addsToOne(share, item.at("massShare"), complaints);
      return new SizeDistribution(id, Bands.of(share));
    }
    Item counts = item.item("cumulativeCounts");
    double[] bands = bandCounts(counts, complaints);
    double mass = SizeBands.massG(bands);
    if (!(mass > 0)) {
      complaints.add(counts.pointer(), "no particles", "a count above 0 at 4 µm(c)");
    }
    double[] share =
        IntStream.range(0, bands.length)
            .mapToDouble(j -> bands[j] * SizeBands.particleG(j) / mass)
            .toArray();
    return new SizeDistribution(id, Bands.of(share));
  }

  /** Returns band counts from cumulative ones; edges left out at the upper end count 0. */
  static double[] bandCounts(Item counts, Complaints complaints) {
    double[] cumulative = new double[SizeBands.COUNT];
    for (int j = 0; j < cumulative.length; j++) {
      String key = "" + SizeBands.edgeUmC(j);
      if (!counts.has(key)) {
        continue;
      }
      cumulative[j] = counts.number(key);
      String below = j == 0 ? key : "" + SizeBands.edgeUmC(j - 1);
      if (!counts.has(below)) {
        complaints.add(counts.at(below), "nothing", "a count, since a larger size has one");
      } else if (j > 0 && cumulative[j] > cumulative[j - 1]) {
        complaints.add(
            counts.at(key),
            counts.found(key),
            "at most the count of the next smaller size, " + counts.found(below));
      }
    }
    return SizeBands.toBands(cumulative);
  }

  private static Fluid fluid(String id, Item item, Complaints complaints) {
    List<Item> points = item.items("viscosity");
    boolean rising = points.get(0).number("oil_degC") <= points.get(1).number("oil_degC");
    Item cold = points.get(rising ? 0 : 1);
    Item warm = points.get(rising ? 1 : 0);
    Fluid fluid =
        new Fluid(
            id,
            item.text("grade"),
            cold.number("oil_degC"),
            cold.number("viscosity_mm2_per_s"),
            warm.number("oil_degC"),
            warm.number("viscosity_mm2_per_s"),
            item.number("density_kg_per_m3"));
    if (fluid.highDegC() - fluid.lowDegC() < LEAST_TEMPERATURE_STEP) {
      complaints.add(
          item.at("viscosity"),
          cold.found("oil_degC") + " and " + warm.found("oil_degC"),
          "two temperatures at least " + Words.number(LEAST_TEMPERATURE_STEP) + " °C apart");
    } else if (fluid.viscosityAtHighMm2PerS() >= fluid.viscosityAtLowMm2PerS()) {
      complaints.add(
          warm.at("viscosity_mm2_per_s"),
          warm.found("viscosity_mm2_per_s"),
          "less than at the lower temperature, " + cold.found("viscosity_mm2_per_s") + " mm²/s");
    }
    return fluid;
  }

  private static Element element(String id, Item item, Complaints complaints) {
    if (item.number("terminalDrop_kPa") <= item.number("cleanDrop_kPa")) {
      complaints.add(
          item.at("terminalDrop_kPa"),
          item.found("terminalDrop_kPa"),
          "more than cleanDrop_kPa, " + item.found("cleanDrop_kPa") + " kPa");
    }
    return new Element(
        id,
        item.text("name"),
        beta(item, complaints),
        item.number("cleanDrop_kPa"),
        item.number("terminalDrop_kPa"),
        item.number("capacity_g"),
        item.number("ratedFlow_L_per_min"),
        item.number("ratedViscosity_mm2_per_s"),
        item.number("blockingExponent"),
        loadingCurve(item.items("loadingCurve"), complaints),
        item.number("finesShare"),
        item.number("price_money"));
  }

  /** Returns the filtration ratio curve of an element or filter. */
  static List<BetaPoint> beta(Item filter, Complaints complaints) {
    List<Item> points = filter.items("beta");
    rises(points, "size_um_c", complaints);
    return points.stream()
        .map(p -> new BetaPoint(p.number("size_um_c"), p.number("beta")))
        .toList();
  }

  private static List<LoadingPoint> loadingCurve(List<Item> points, Complaints complaints) {
    rises(points, "massShare", complaints);
    rises(points, "dropRatio", complaints);
    List<LoadingPoint> curve =
        points.stream()
            .map(p -> new LoadingPoint(p.number("massShare"), p.number("dropRatio")))
            .toList();
    if (!curve.isEmpty() && !curve.get(0).equals(new LoadingPoint(0, 1))) {
      Item first = points.get(0);
      complaints.add(
          first.pointer(),
          first.found("massShare") + ", " + first.found("dropRatio"),
          "the curve to begin at massShare 0, dropRatio 1");
    }
    return curve;
  }

  private static ChangeProcedure procedure(
      Item item, Map<String, SizeDistribution> distributions, Complaints complaints) {
    List<String> words = item.texts("housings");
    unique(words, item.at("housings"), complaints);
    Set<Housing> housings = words.stream().map(Shared::housing).collect(Collectors.toSet());
    return new ChangeProcedure(
        item.text("id"),
        item.text("name"),
        item.number("backFlushShare"),
        item.number("handlingDirt_mg"),
        distributions.get(item.text("handlingDirt")),
        item.number("labour_h"),
        item.number("downtime_h"),
        item.number("oilLost_L"),
        item.number("seals_money"),
        housings);
  }

  /** Returns the housing that a word of the format names. */
  static Housing housing(String word) {
    return Arrays.stream(Housing.values())
        .filter(h -> h.word().equals(word))
        .findFirst()
        .orElseThrow();
  }

  /** Complains if some shares do not add to 1. */
  static void addsToOne(double[] shares, String pointer, Complaints complaints) {
    double sum = Arrays.stream(shares).sum();
    if (Math.abs(sum - 1) > SUM_TOLERANCE) {
      complaints.add(
          pointer,
          "a sum of " + Words.number(Math.round(sum * 1e9) / 1e9),
          "shares that add to 1 within 0.000001");
    }
  }

  private static void rises(List<Item> points, String key, Complaints complaints) {
    for (int i = 1; i < points.size(); i++) {
      if (points.get(i).number(key) <= points.get(i - 1).number(key)) {
        complaints.add(
            points.get(i).at(key),
            points.get(i).found(key),
            "more than at the point before, " + points.get(i - 1).found(key));
      }
    }
  }

  /** Complains of ids that an object before has. */
  static void uniqueIds(List<Item> items, Complaints complaints) {
    Set<String> ids = new HashSet<>();
    for (Item item : items) {
      if (!ids.add(item.text("id"))) {
        complaints.add(item.at("id"), item.found("id"), "an id that none before it has");
      }
    }
  }

  /** Complains of words that stand twice in a list. */
  static void unique(List<String> words, String pointer, Complaints complaints) {
    Set<String> before = new HashSet<>();
    for (int i = 0; i < words.size(); i++) {
      if (!before.add(words.get(i))) {
        complaints.add(pointer + "/" + i, Words.quoted(words.get(i)), "each one once");
      }
    }
  }

  /** Returns whether an id is one of some; complains if not. */
  static boolean known(Item item, String key, Set<String> ids, Complaints complaints) {
    return known(item.text(key), item.at(key), ids, complaints);
  }

  /** Returns whether an id is one of some; complains if not. */
  static boolean known(String id, String pointer, Set<String> ids, Complaints complaints) {
    if (ids.contains(id)) {
      return true;
    }
    complaints.add(pointer, Words.quoted(id), Words.choice(id, ids));
    return false;
  }
}
