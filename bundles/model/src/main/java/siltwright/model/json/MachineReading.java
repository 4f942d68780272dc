package siltwright.model.json;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collector;
import java.util.stream.Collectors;
import siltwright.model.Acute;
import siltwright.model.AddedCost;
import siltwright.model.Alternatives;
import siltwright.model.Bands;
import siltwright.model.Breather;
import siltwright.model.ChangeProcedure;
import siltwright.model.CleanlinessCode;
import siltwright.model.Component;
import siltwright.model.ComponentLife;
import siltwright.model.Costs;
import siltwright.model.DutyState;
import siltwright.model.Element;
import siltwright.model.Fluid;
import siltwright.model.Housing;
import siltwright.model.Ingress;
import siltwright.model.IngressSource;
import siltwright.model.Limits;
import siltwright.model.Machine;
import siltwright.model.OfflineFilter;
import siltwright.model.OilChange;
import siltwright.model.PressureFilter;
import siltwright.model.Replacement;
import siltwright.model.Reservoir;
import siltwright.model.ReturnFilter;
import siltwright.model.Sampling;
import siltwright.model.Site;
import siltwright.model.SizeBands;
import siltwright.model.Today;
import siltwright.model.Uncertainty;

/** Builds one machine from its object, whose shape is right. */
final class MachineReading {
  private final Item machine;
  private final Shared shared;
  private final Complaints complaints;
  private List<AddedCost> added = List.of();

  /** Lives by a law that is named, by component: the machine is built twice, a law asked once. */
  private final Map<String, ComponentLife> lives = new HashMap<>();

  MachineReading(Item machine, Shared shared, Complaints complaints) {
    this.machine = machine;
    this.shared = shared;
    this.complaints = complaints;
  }

  /** Returns the machine, or nothing if there is something to complain of. */
  Optional<Machine> read() {
    checkReferences();
    checkDuty();
    checkReturnFilter();
    checkProcedures();
    checkComponents();
    if (!complaints.isEmpty()) {
      return Optional.empty();
    }
    Machine certain = build(List.of());
    if (!complaints.isEmpty()) {
      return Optional.empty();
    }
    added = shared.extensions().added(certain, machine.item("costs").items("terms"), complaints);
    List<Uncertainty> uncertainty =
        new UncertaintyReading(certain, complaints).read(machine.items("uncertainty"));
    return complaints.isEmpty() ? Optional.of(build(uncertainty)) : Optional.empty();
  }

  private void checkReferences() {
    Set<String> sites = shared.sites().stream().map(Site::id).collect(ids());
    Shared.known(machine, "site", sites, complaints);
    Shared.known(machine, "fluid", shared.fluids().keySet(), complaints);
    Set<String> elements = shared.elements().keySet();
    Item filter = machine.item("returnFilter");
    Shared.known(filter, "element", elements, complaints);
    checkLaw(filter.text("element"));
    for (String place : List.of("reservoir", "returnLine")) {
      for (Item source : machine.item("ingress").items(place)) {
        Shared.known(source, "distribution", shared.distributions().keySet(), complaints);
      }
    }
    machine.optionalItem("alternatives").ifPresent(a -> checkAlternatives(a, filter, elements));
  }

  private void checkLaw(String element) {
    Extensions.Fault fault = shared.lawFaults().get(element);
    if (fault != null) {
      complaints.add(fault.pointer(), fault.found(), fault.expected());
    }
  }

  private void checkAlternatives(Item alternatives, Item filter, Set<String> elements) {
    List<String> others = alternatives.texts("elements");
    String pointer = alternatives.at("elements");
    Shared.unique(others, pointer, complaints);
    for (int i = 0; i < others.size(); i++) {
      String id = others.get(i);
      Shared.known(id, pointer + "/" + i, elements, complaints);
      checkLaw(id);
      if (id.equals(filter.text("element"))) {
        complaints.add(pointer + "/" + i, Words.quoted(id), "an element other than the one fitted");
      }
    }
    Shared.uniqueIds(alternatives.items("breathers"), complaints);
    Shared.uniqueIds(alternatives.items("offlineFilters"), complaints);
  }

  private void checkDuty() {
    List<Item> states = machine.items("duty");
    Shared.uniqueIds(states, complaints);
    double[] shares = states.stream().mapToDouble(s -> s.number("share")).toArray();
    Shared.addsToOne(shares, machine.at("duty"), complaints);
  }

  private void checkReturnFilter() {
    Item filter = machine.item("returnFilter");
    Item bypass = filter.item("bypass");
    if (bypass.number("fullFlow_kPa") <= bypass.number("cracking_kPa")) {
      complaints.add(
          bypass.at("fullFlow_kPa"),
          bypass.found("fullFlow_kPa"),
          "more than cracking_kPa, " + bypass.found("cracking_kPa") + " kPa");
    }
    Set<String> states = machine.items("duty").stream().map(s -> s.text("id")).collect(ids());
    filter
        .optionalItem("indicator")
        .filter(indicator -> indicator.has("readIn"))
        .ifPresent(indicator -> Shared.known(indicator, "readIn", states, complaints));
  }

  private void checkProcedures() {
    String housing = machine.item("returnFilter").text("housing");
    Set<String> fitting = procedures().stream().map(ChangeProcedure::id).collect(ids());
    if (fitting.isEmpty()) {
      complaints.add(
          Words.pointer(machine.at("returnFilter"), "housing"),
          Words.quoted(housing),
          "a housing for which the file has a change procedure");
    } else {
      Shared.known(machine.item("today"), "procedure", fitting, complaints);
    }
  }

  private void checkComponents() {
    List<Item> components = machine.items("components");
    Shared.uniqueIds(components, complaints);
    for (Item c : components) {
      if (c.text("position").equals(FleetForms.BEHIND_PRESSURE_FILTER)
          && !machine.has("pressureFilter")) {
        complaints.add(
            c.at("position"),
            c.found("position"),
            FleetForms.BEHIND_PUMP + ", since the machine has no pressureFilter");
      }
      double heaviest = Arrays.stream(c.numbers("sensitivity")).max().orElse(0);
      if (heaviest < FleetForms.LEAST_SENSITIVITY) {
        complaints.add(
            c.at("sensitivity"),
            "no weight of " + Words.number(FleetForms.LEAST_SENSITIVITY) + " or more",
            "six weights that are not all 0");
      }
      c.optionalItem("acute").ifPresent(this::checkAcute);
    }
  }

  private void checkAcute(Item acute) {
    if (SizeBands.bandFrom(acute.number("size_um_c")) < 0) {
      complaints.add(
          acute.at("size_um_c"),
          acute.found("size_um_c"),
          "an edge of the size bands: 4, 6, 14, 21, 38 or 70 µm(c)");
    }
  }

  private Machine build(List<Uncertainty> uncertainty) {
    Item reservoir = machine.item("reservoir");
    Fluid fluid = shared.fluids().get(machine.text("fluid"));
    List<DutyState> duty = machine.items("duty").stream().map(MachineReading::dutyState).toList();
    Item costs = machine.item("costs");
    Item limits = machine.item("limits");
    Item today = machine.item("today");
    return new Machine(
        machine.text("id"),
        machine.text("name"),
        machine.text("class"),
        machine.text("site"),
        new Reservoir(reservoir.number("volume_L"), reservoir.flag("pressurised")),
        fluid,
        duty,
        machine.number("filteredShare"),
        returnFilter(duty),
        machine
            .optionalItem("pressureFilter")
            .map(p -> new PressureFilter(Shared.beta(p, complaints), p.number("fieldEfficiency"))),
        machine.optionalItem("offlineFilter").map(this::offlineFilter),
        new Ingress(ingress("reservoir"), ingress("returnLine")),
        machine.has("settling_per_h") ? Bands.of(machine.numbers("settling_per_h")) : Bands.ZERO,
        machine
            .optionalItem("oilChange")
            .map(
                o ->
                    new OilChange(
                        o.number("interval_h"), o.number("replacedShare"), code(o, "newOilCode"))),
        machine.items("components").stream().map(this::component).toList(),
        procedures(),
        new Costs(
            costs.number("labour_money_per_h"),
            costs.number("downtime_money_per_h"),
            costs.number("oil_money_per_L"),
            added),
        new Limits(
            limits.optionalNumber("makerMaximum_h"),
            limits.has("targetCode") ? Optional.of(code(limits, "targetCode")) : Optional.empty()),
        new Today(today.number("interval_h"), today.text("procedure")),
        machine
            .optionalItem("sampling")
            .map(
                s ->
                    new Sampling(
                        s.number("interval_h"), code(s, "limitCode"), s.number("cost_money"))),
        machine.optionalItem("alternatives").map(this::alternatives).orElse(Alternatives.NONE),
        machine
            .optionalItem("startAt_per_mL")
            .map(counts -> Bands.of(Shared.bandCounts(counts, complaints)))
            .orElse(Bands.ZERO),
        uncertainty);
  }

  private static DutyState dutyState(Item state) {
    return new DutyState(
        state.text("id"),
        state.number("share"),
        state.number("flow_L_per_min"),
        state.number("oil_degC"));
  }

  private ReturnFilter returnFilter(List<DutyState> duty) {
    Item filter = machine.item("returnFilter");
    Item bypass = filter.item("bypass");
    Optional<Item> indicator = filter.optionalItem("indicator");
    String readIn =
        indicator
            .filter(i -> i.has("readIn"))
            .map(i -> i.text("readIn"))
            .orElseGet(() -> warmest(duty));
    return new ReturnFilter(
        housing(),
        shared.elements().get(filter.text("element")),
        bypass.number("cracking_kPa"),
        bypass.number("fullFlow_kPa"),
        indicator.map(i -> OptionalDouble.of(i.number("trips_kPa"))).orElse(OptionalDouble.empty()),
        readIn,
        filter.number("housingDrop_kPa"),
        filter.number("fieldEfficiency"));
  }

  /** Returns the warmest duty state, of several the one with most flow, then the first. */
  private static String warmest(List<DutyState> duty) {
    return duty.stream()
        .sorted(
            Comparator.comparingDouble(DutyState::oilDegC)
                .thenComparingDouble(DutyState::flowLPerMin)
                .reversed())
        .findFirst()
        .orElseThrow()
        .id();
  }

  private Housing housing() {
    return Shared.housing(machine.item("returnFilter").text("housing"));
  }

  /** Returns the procedures that the housing allows. */
  private List<ChangeProcedure> procedures() {
    return shared.procedures().stream().filter(p -> p.housings().contains(housing())).toList();
  }

  private OfflineFilter offlineFilter(Item filter) {
    return new OfflineFilter(
        filter.text("id"),
        filter.text("name"),
        filter.number("flow_L_per_min"),
        Shared.beta(filter, complaints),
        filter.number("fieldEfficiency"),
        filter.number("cost_money_per_h"));
  }

  private List<IngressSource> ingress(String place) {
    return machine.item("ingress").items(place).stream()
        .map(
            s ->
                new IngressSource(
                    s.text("source"),
                    s.number("rate_mg_per_h"),
                    shared.distributions().get(s.text("distribution"))))
        .toList();
  }

  private Component component(Item c) {
    Item life = c.item("life");
    Component plain =
        new Component(
            c.text("id"),
            c.text("kind"),
            c.text("position").equals(FleetForms.BEHIND_PRESSURE_FILTER),
            c.number("flowShare"),
            Bands.of(c.numbers("sensitivity")),
            c.number("exponent"),
            code(c, "referenceCode"),
            c.number("minimumRelativeWear"),
            new ComponentLife(life.number("shape"), life.number("scale_h")),
            c.optionalItem("acute")
                .map(a -> new Acute(a.number("size_um_c"), a.number("hazardPerParticle"))),
            c.optionalItem("replacement")
                .map(MachineReading::replacement)
                .orElse(Replacement.AT_FAILURE),
            c.number("renewal_money"),
            c.number("consequence_money"));
    return c.optionalItem("lifeLaw")
        .map(
            law ->
                plain.withLife(
                    lives.computeIfAbsent(
                        plain.id(), id -> shared.extensions().lived(plain, law, complaints))))
        .orElse(plain);
  }

  private static Replacement replacement(Item r) {
    return r.text("policy").equals(FleetForms.AT_FAILURE)
        ? Replacement.AT_FAILURE
        : new Replacement(true, r.optionalNumber("age_h"), r.number("planned_money"));
  }

  private Alternatives alternatives(Item a) {
    List<Element> elements = new ArrayList<>();
    a.texts("elements").forEach(id -> elements.add(shared.elements().get(id)));
    return new Alternatives(
        elements,
        a.items("breathers").stream()
            .map(
                b ->
                    new Breather(
                        b.text("id"),
                        b.text("name"),
                        b.number("ingressFactor"),
                        b.number("cost_money_per_h")))
            .toList(),
        a.items("offlineFilters").stream().map(this::offlineFilter).toList());
  }

  /** Returns a cleanliness code; complains if its numbers are not on the scale. */
  private CleanlinessCode code(Item item, String key) {
    try {
      return CleanlinessCode.parse(item.text(key));
    } catch (IllegalArgumentException e) {
      complaints.add(
          item.at(key),
          item.found(key),
          "three scale numbers from 0 to "
              + CleanlinessCode.HIGHEST
              + " that do not rise, such as 18/16/13");
      return new CleanlinessCode(0, 0, 0);
    }
  }

  private static Collector<String, ?, Set<String>> ids() {
    return Collectors.toCollection(LinkedHashSet::new);
  }
}
