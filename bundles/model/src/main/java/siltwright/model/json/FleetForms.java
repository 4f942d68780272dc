package siltwright.model.json;

import static siltwright.model.json.Shape.Key.optional;
import static siltwright.model.json.Shape.Key.standard;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import siltwright.model.Housing;
import siltwright.model.MachineParameter;
import siltwright.model.SizeBands;
import siltwright.model.json.Shape.Apart;
import siltwright.model.json.Shape.Catalogue;
import siltwright.model.json.Shape.Choice;
import siltwright.model.json.Shape.Flag;
import siltwright.model.json.Shape.Form;
import siltwright.model.json.Shape.Key;
import siltwright.model.json.Shape.ListOf;
import siltwright.model.json.Shape.Num;
import siltwright.model.json.Shape.Text;
import siltwright.model.json.Shape.Word;

/**
 * The keys of a fleet file with their types, units and ranges.
 *
 * <p>The ranges hold what a hydraulic machine can plausibly be, with room; they are the project's
 * own choice and keep every later sum and quotient finite. What must be above 0 has a least value
 * above 0. {@code docs/schema/fleet-1.schema.json} and {@code docs/file-format.md} say the same and
 * are compared with this class by tests.
 */
final class FleetForms {
  /** Name of the only version of the format there is. */
  static final String SCHEMA = "siltwright-fleet/1";

  private static final int MANY = 10_000;

  static final Text ID =
      new Text(
          Pattern.compile("^[\\p{L}\\p{N}][\\p{L}\\p{N}._-]*$"),
          60,
          "an id of letters, digits, '.', '_' and '-' that begins with a letter or digit, at most 60"
              + " characters");
  private static final Text NAME =
      new Text(
          Pattern.compile("^[^\\x00-\\x20\\x7f][^\\x00-\\x1f\\x7f]*$"),
          200,
          "a text on one line, not empty, at most 200 characters");
  private static final Text NOTE =
      new Text(
          Pattern.compile("^[^\\x00-\\x1f\\x7f]*$"),
          2000,
          "a text on one line, at most 2000 characters");
  static final Text CURRENCY =
      new Text(Pattern.compile("^[A-Z]{3}$"), 3, "a currency code of ISO 4217, such as EUR");
  private static final Text CODE =
      new Text(
          Pattern.compile("^[0-9]{1,2}/[0-9]{1,2}/[0-9]{1,2}$"),
          8,
          "a cleanliness code of ISO 4406, such as 18/16/13");
  private static final Text PATH =
      new Text(
          Pattern.compile("^[^\\x00-\\x20\\x7f]+$"),
          200,
          "the path of a number, such as components/ID/life/scale_h");
  private static final Flag FLAG = new Flag();

  private static final Num SHARE = new Num(0, 1, "");
  private static final Num PART = new Num(1e-6, 1, "");
  private static final Num FLOW = new Num(0.01, 100_000, "L/min");
  private static final Num TEMPERATURE = new Num(-50, 200, "°C");
  private static final Num VISCOSITY = new Num(1, 1_000_000, "mm²/s");
  private static final Num SIZE = new Num(1, 200, "µm(c)");
  private static final Num PRESSURE = new Num(0.01, 100_000, "kPa");
  private static final Num INTERVAL = new Num(1, 1_000_000, "h");
  private static final Num MONEY = new Num(0, 1e9, "money");
  private static final Num MONEY_PER_H = new Num(0, 1e6, "money/h");
  private static final Num HOURS = new Num(0, 1000, "h");
  private static final Num RATE = new Num(0, 1e6, "mg/h");
  private static final Num RELATIVE_COUNT = new Num(0, 1e12, "");
  private static final Num COUNT = new Num(0, 1e9, "per mL");
  private static final Num UNCERTAIN = new Num(0, 1e9, "");

  /** Least weight that makes a component sensitive to a band. */
  static final double LEAST_SENSITIVITY = 1e-6;

  static final Form SITE = Form.of("site", key("id", ID), key("name", NAME));

  static final Form CUMULATIVE_COUNTS = counts("relative cumulative counts", RELATIVE_COUNT, 6);
  static final Form START_AT = counts("cumulative counts", COUNT, 1);

  static final Form DISTRIBUTION =
      Form.of(
          "size distribution",
          optional("massShare", six(SHARE)),
          optional("cumulativeCounts", CUMULATIVE_COUNTS));

  static final Form VISCOSITY_POINT =
      Form.of(
          "point of the viscosity line",
          key("oil_degC", TEMPERATURE),
          key("viscosity_mm2_per_s", VISCOSITY));

  static final Form FLUID =
      Form.of(
          "fluid",
          key("grade", NAME),
          key("viscosity", new ListOf(VISCOSITY_POINT, 2, 2)),
          key("density_kg_per_m3", new Num(500, 2000, "kg/m³")));

  static final Form BETA_POINT =
      Form.of(
          "point of the filtration ratio curve",
          key("size_um_c", SIZE),
          key("beta", new Num(1, 1e6, "")));
  private static final ListOf BETA = new ListOf(BETA_POINT, 1, 50);

  static final Form LOADING_POINT =
      Form.of(
          "point of the loading curve",
          key("massShare", new Num(0, 10, "")),
          key("dropRatio", new Num(1, 10_000, "")));

  static final Form NAMED_NUMBER =
      Form.of("number of a law or term", key("name", ID), key("value", new Num(-1e9, 1e9, "")));

  static final Form LOADING_LAW =
      Form.of("loading law", key("law", ID), optional("numbers", new ListOf(NAMED_NUMBER, 1, 20)));

  static final Form ELEMENT =
      Form.of(
          "element",
          key("name", NAME),
          key("beta", BETA),
          key("cleanDrop_kPa", PRESSURE),
          key("terminalDrop_kPa", PRESSURE),
          key("capacity_g", new Num(0.01, 100_000, "g")),
          key("ratedFlow_L_per_min", FLOW),
          key("ratedViscosity_mm2_per_s", VISCOSITY),
          standard("blockingExponent", new Num(0, 5, ""), 1),
          optional("loadingCurve", new ListOf(LOADING_POINT, 2, 200)),
          optional("loadingLaw", LOADING_LAW),
          standard("finesShare", new Num(0, 0.95, ""), 0),
          key("price_money", MONEY));

  private static final Word HOUSING =
      new Word(Arrays.stream(Housing.values()).map(Housing::word).toList());

  static final Form PROCEDURE =
      Form.of(
          "change procedure",
          key("id", ID),
          key("name", NAME),
          key("backFlushShare", new Num(0, MachineParameter.HIGHEST_BACK_FLUSH, "")),
          key("handlingDirt_mg", new Num(0, 1e6, "mg")),
          key("handlingDirt", ID),
          key("labour_h", HOURS),
          key("downtime_h", HOURS),
          key("oilLost_L", new Num(0, 100_000, "L")),
          key("seals_money", MONEY),
          key("housings", new ListOf(HOUSING, 1, Housing.values().length)));

  static final Form RESERVOIR =
      Form.of("reservoir", key("volume_L", new Num(0.01, 1e6, "L")), key("pressurised", FLAG));

  static final Form DUTY_STATE =
      Form.of(
          "duty state",
          key("id", ID),
          key("share", PART),
          key("flow_L_per_min", FLOW),
          key("oil_degC", TEMPERATURE));

  static final Form BYPASS =
      Form.of("bypass valve", key("cracking_kPa", PRESSURE), key("fullFlow_kPa", PRESSURE));

  static final Form INDICATOR =
      Form.of("indicator", key("trips_kPa", PRESSURE), optional("readIn", ID));

  static final Form RETURN_FILTER =
      Form.of(
          "return filter",
          key("housing", HOUSING),
          key("element", ID),
          key("bypass", BYPASS),
          optional("indicator", INDICATOR),
          key("housingDrop_kPa", new Num(0, 100_000, "kPa")),
          key("fieldEfficiency", PART));

  static final Form PRESSURE_FILTER =
      Form.of("pressure filter", key("beta", BETA), key("fieldEfficiency", PART));

  static final Form OFFLINE_FILTER =
      Form.of(
          "offline filter",
          key("id", ID),
          key("name", NAME),
          key("flow_L_per_min", FLOW),
          key("beta", BETA),
          key("fieldEfficiency", PART),
          key("cost_money_per_h", MONEY_PER_H));

  static final Form INGRESS_SOURCE =
      Form.of(
          "source of dirt",
          key("source", NAME),
          key("rate_mg_per_h", RATE),
          key("distribution", ID));

  static final Form INGRESS =
      Form.of(
          "ingress",
          key("reservoir", new ListOf(INGRESS_SOURCE, 0, 100)),
          key("returnLine", new ListOf(INGRESS_SOURCE, 0, 100)));

  static final Form OIL_CHANGE =
      Form.of(
          "oil change",
          key("interval_h", INTERVAL),
          key("replacedShare", PART),
          key("newOilCode", CODE));

  static final Form LIFE =
      Form.of("life", key("shape", new Num(0.1, 50, "")), key("scale_h", new Num(1, 1e7, "h")));

  static final Form LIFE_LAW =
      Form.of("life law", key("law", ID), optional("numbers", new ListOf(NAMED_NUMBER, 1, 20)));

  static final Form ACUTE =
      Form.of(
          "acute failure",
          key("size_um_c", new Num(SizeBands.edgeUmC(0), SizeBands.edgeUmC(5), "µm(c)")),
          key("hazardPerParticle", SHARE));

  static final String AT_FAILURE = "at-failure";
  static final String BY_AGE = "by-age";
  static final Choice REPLACEMENT =
      new Choice(
          "policy",
          Map.of(
              AT_FAILURE,
              Form.of("replacement at failure", key("policy", new Word(List.of(AT_FAILURE)))),
              BY_AGE,
              Form.of(
                  "replacement by age",
                  key("policy", new Word(List.of(BY_AGE))),
                  optional("age_h", new Num(1, 1e7, "h")),
                  key("planned_money", MONEY))));

  static final String BEHIND_PUMP = "behind-pump";
  static final String BEHIND_PRESSURE_FILTER = "behind-pressure-filter";

  static final Form COMPONENT =
      Form.of(
          "component",
          key("id", ID),
          key("kind", NAME),
          key("position", new Word(List.of(BEHIND_PUMP, BEHIND_PRESSURE_FILTER))),
          standard("flowShare", PART, 1),
          key("sensitivity", six(new Num(0, 1e6, ""))),
          key("exponent", new Num(0, 10, "")),
          key("referenceCode", CODE),
          standard("minimumRelativeWear", SHARE, 0),
          key("life", LIFE),
          optional("lifeLaw", LIFE_LAW),
          optional("acute", ACUTE),
          optional("replacement", REPLACEMENT),
          key("renewal_money", MONEY),
          key("consequence_money", MONEY));

  static final Form COST_TERM =
      Form.of(
          "term of the cost",
          key("term", ID),
          optional("numbers", new ListOf(NAMED_NUMBER, 1, 20)));

  static final Form COSTS =
      Form.of(
          "cost rates",
          key("labour_money_per_h", MONEY_PER_H),
          key("downtime_money_per_h", MONEY_PER_H),
          key("oil_money_per_L", new Num(0, 1e6, "money/L")),
          optional("terms", new ListOf(COST_TERM, 1, 20)));

  static final Form LIMITS =
      Form.of("limits", optional("makerMaximum_h", INTERVAL), optional("targetCode", CODE));

  static final Form TODAY =
      Form.of("change of today", key("interval_h", INTERVAL), key("procedure", ID));

  static final Form SAMPLING =
      Form.of(
          "oil samples",
          key("interval_h", INTERVAL),
          key("limitCode", CODE),
          key("cost_money", MONEY));

  static final Form BREATHER =
      Form.of(
          "breather",
          key("id", ID),
          key("name", NAME),
          key("ingressFactor", new Num(0, 100, "")),
          key("cost_money_per_h", new Num(-1e6, 1e6, "money/h")));

  static final Form ALTERNATIVES =
      Form.of(
          "alternatives",
          optional("elements", new ListOf(ID, 0, 50)),
          optional("breathers", new ListOf(BREATHER, 0, 50)),
          optional("offlineFilters", new ListOf(OFFLINE_FILTER, 0, 50)));

  static final String LOGNORMAL = "lognormal";
  static final String TRIANGULAR = "triangular";
  static final String UNIFORM = "uniform";
  static final String JOINT_LOGNORMAL = "joint-lognormal";
  private static final int MOST_JOINT = 20;
  static final Choice UNCERTAINTY =
      new Choice(
          "distribution",
          Map.of(
              LOGNORMAL,
              Form.of(
                  "lognormal uncertainty",
                  key("parameter", PATH),
                  key("distribution", new Word(List.of(LOGNORMAL))),
                  key("factor95", new Num(1.0001, 1000, ""))),
              TRIANGULAR,
              between(TRIANGULAR),
              UNIFORM,
              between(UNIFORM),
              JOINT_LOGNORMAL,
              Form.of(
                  "joint lognormal uncertainty",
                  key("parameters", new ListOf(PATH, 2, MOST_JOINT)),
                  key("distribution", new Word(List.of(JOINT_LOGNORMAL))),
                  key(
                      "logCovariance",
                      new ListOf(
                          new ListOf(new Num(-100, 100, ""), 2, MOST_JOINT), 2, MOST_JOINT)))));

  static final Form MACHINE =
      Form.of(
          "machine",
          key("id", ID),
          key("name", NAME),
          key("class", NAME),
          key("site", ID),
          key("reservoir", RESERVOIR),
          key("fluid", ID),
          key("duty", new ListOf(DUTY_STATE, 1, 100)),
          key("filteredShare", PART),
          key("returnFilter", RETURN_FILTER),
          optional("pressureFilter", PRESSURE_FILTER),
          optional("offlineFilter", OFFLINE_FILTER),
          key("ingress", INGRESS),
          optional("settling_per_h", six(new Num(0, 100, "per h"))),
          optional("oilChange", OIL_CHANGE),
          key("components", new ListOf(COMPONENT, 0, 100)),
          key("costs", COSTS),
          key("limits", LIMITS),
          key("today", TODAY),
          optional("sampling", SAMPLING),
          optional("alternatives", ALTERNATIVES),
          optional("startAt_per_mL", START_AT),
          optional("uncertainty", new ListOf(UNCERTAINTY, 0, 200)));

  static final Form FLEET =
      Form.of(
          "fleet",
          key("schema", new Word(List.of(SCHEMA))),
          key("name", NAME),
          key("note", NOTE),
          key("currency", CURRENCY),
          key("sites", new ListOf(SITE, 1, MANY)),
          key("distributions", new Catalogue(ID, DISTRIBUTION)),
          key("fluids", new Catalogue(ID, FLUID)),
          key("elements", new Catalogue(ID, ELEMENT)),
          key("procedures", new ListOf(PROCEDURE, 1, 100)),
          key("machines", new ListOf(new Apart(MACHINE), 1, MANY)));

  private FleetForms() {}

  private static Key key(String name, Shape shape) {
    return Key.of(name, shape);
  }

  private static ListOf six(Num number) {
    return new ListOf(number, SizeBands.COUNT, SizeBands.COUNT);
  }

  /** Returns a form with a key for each edge of the size bands, the first ones required. */
  private static Form counts(String title, Num count, int required) {
    return new Form(
        title,
        IntStream.range(0, SizeBands.COUNT)
            .mapToObj(i -> new Key("" + SizeBands.edgeUmC(i), count, i < required, null))
            .toList());
  }

  private static Form between(String distribution) {
    return Form.of(
        distribution + " uncertainty",
        key("parameter", PATH),
        key("distribution", new Word(List.of(distribution))),
        key("low", UNCERTAIN),
        key("high", UNCERTAIN));
  }

  /** Returns the range of a number that can be uncertain. */
  static Num range(MachineParameter parameter) {
    Shape shape =
        switch (parameter.group()) {
          case INGRESS -> RATE;
          case RETURN_FILTER -> RETURN_FILTER;
          case ELEMENT -> ELEMENT;
          case COMPONENT -> COMPONENT;
          case PROCEDURE -> PROCEDURE;
          case COSTS -> COSTS;
        };
    for (String key : parameter.number().split("/")) {
      shape = shape instanceof Form form ? form.key(key).shape() : shape;
    }
    return (Num) shape;
  }
}
