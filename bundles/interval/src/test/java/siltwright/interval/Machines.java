package siltwright.interval;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;
import siltwright.model.Alternatives;
import siltwright.model.ChangeProcedure;
import siltwright.model.CleanlinessCode;
import siltwright.model.Component;
import siltwright.model.Costs;
import siltwright.model.Distribution;
import siltwright.model.DutyState;
import siltwright.model.Element;
import siltwright.model.Fleet;
import siltwright.model.Ingress;
import siltwright.model.Limits;
import siltwright.model.Machine;
import siltwright.model.MachineParameter;
import siltwright.model.PressureFilter;
import siltwright.model.Sampling;
import siltwright.model.Uncertainty;
import siltwright.model.json.FleetReader;

/** Machines for tests: the demo fleet, and a small one whose numbers are easy to follow. */
final class Machines {
  private static final String SMALL =
      """
      {"schema": "siltwright-fleet/1", "name": "small", "note": "invented", "currency": "EUR",
       "sites": [{"id": "s", "name": "S"}],
       "distributions": {"dust": {"massShare": [0.1, 0.3, 0.25, 0.2, 0.1, 0.05]}},
       "fluids": {"oil": {"grade": "VG 46", "density_kg_per_m3": 870, "viscosity": [
         {"oil_degC": 40, "viscosity_mm2_per_s": 46},
         {"oil_degC": 100, "viscosity_mm2_per_s": 6.8}]}},
       "elements": {"e": {"name": "E", "beta": [
           {"size_um_c": 4, "beta": 2}, {"size_um_c": 10, "beta": 20}, {"size_um_c": 20, "beta": 200}],
         "cleanDrop_kPa": 20, "terminalDrop_kPa": 200, "capacity_g": 40,
         "ratedFlow_L_per_min": 200, "ratedViscosity_mm2_per_s": 32, "price_money": 100}},
       "procedures": [
         {"id": "right", "name": "Right", "backFlushShare": 0, "handlingDirt_mg": 20,
          "handlingDirt": "dust", "labour_h": 1, "downtime_h": 1, "oilLost_L": 1,
          "seals_money": 10, "housings": ["open-bowl"]},
         {"id": "short", "name": "Short", "backFlushShare": 0.3, "handlingDirt_mg": 20,
          "handlingDirt": "dust", "labour_h": 0.5, "downtime_h": 0.5, "oilLost_L": 1,
          "seals_money": 10, "housings": ["open-bowl"]}],
       "machines": [{"id": "m", "name": "M", "class": "c", "site": "s",
         "reservoir": {"volume_L": 200, "pressurised": false}, "fluid": "oil",
         "duty": [{"id": "work", "share": 1, "flow_L_per_min": 200, "oil_degC": 50}],
         "filteredShare": 0.9,
         "returnFilter": {"housing": "open-bowl", "element": "e",
           "bypass": {"cracking_kPa": 150, "fullFlow_kPa": 250},
           "indicator": {"trips_kPa": 130}, "housingDrop_kPa": 10, "fieldEfficiency": 0.6},
         "ingress": {
           "reservoir": [{"source": "breather", "rate_mg_per_h": 10, "distribution": "dust"}],
           "returnLine": [{"source": "rods", "rate_mg_per_h": 30, "distribution": "dust"}]},
         "components": [{"id": "pump", "kind": "piston pump", "position": "behind-pump",
           "sensitivity": [1, 2, 4, 4, 4, 4], "exponent": 0.5, "referenceCode": "18/16/13",
           "life": {"shape": 1.8, "scale_h": 9000}, "renewal_money": 6000,
           "consequence_money": 6000}],
         "costs": {"labour_money_per_h": 70, "downtime_money_per_h": 150, "oil_money_per_L": 4},
         "limits": {}, "today": {"interval_h": 500, "procedure": "right"}}]}
      """;

  private Machines() {}

  /** One duty state, no uncertainty, no limits. */
  static Machine small() {
    return FleetReader.read(SMALL.getBytes(StandardCharsets.UTF_8), "small")
        .fleet()
        .machines()
        .get(0);
  }

  /** The demo fleet, invented. */
  static Fleet demo() {
    Path file = Path.of("..", "..", "demo-data", "three-pits.json");
    if (!Files.exists(file)) {
      throw new IllegalStateException("run from the bundle's folder: " + file.toAbsolutePath());
    }
    return FleetReader.read(file).fleet();
  }

  static Machine priced(Machine m, double elementMoney) {
    return element(
        m,
        e ->
            new Element(
                e.id(),
                e.name(),
                e.beta(),
                e.cleanDropKPa(),
                e.terminalDropKPa(),
                e.capacityG(),
                e.ratedFlowLPerMin(),
                e.ratedViscosityMm2PerS(),
                e.blockingExponent(),
                e.loadingCurve(),
                e.finesShare(),
                elementMoney));
  }

  static Machine holding(Machine m, double capacityG) {
    return element(
        m,
        e ->
            new Element(
                e.id(),
                e.name(),
                e.beta(),
                e.cleanDropKPa(),
                e.terminalDropKPa(),
                capacityG,
                e.ratedFlowLPerMin(),
                e.ratedViscosityMm2PerS(),
                e.blockingExponent(),
                e.loadingCurve(),
                e.finesShare(),
                e.priceMoney()));
  }

  private static Machine element(Machine m, UnaryOperator<Element> change) {
    return m.withElement(change.apply(m.returnFilter().element()));
  }

  static Machine dirtier(Machine m, double factor) {
    return m.withIngress(
        new Ingress(
            Ingress.scaled(m.ingress().reservoir(), factor),
            Ingress.scaled(m.ingress().returnLine(), factor)));
  }

  static Machine limited(Machine m, double makerH, String code) {
    return m.withLimits(
        new Limits(
            makerH > 0 ? OptionalDouble.of(makerH) : OptionalDouble.empty(),
            code.isEmpty() ? Optional.empty() : Optional.of(CleanlinessCode.parse(code))));
  }

  static Machine at(Machine m, double oilDegC) {
    return m.withDuty(
        m.duty().stream()
            .map(d -> new DutyState(d.id(), d.share(), d.flowLPerMin(), oilDegC))
            .toList());
  }

  static Machine standing(Machine m, double downtimeMoneyPerH) {
    return m.withCosts(
        new Costs(m.costs().labourMoneyPerH(), downtimeMoneyPerH, m.costs().oilMoneyPerL()));
  }

  static Machine shedding(Machine m, double share) {
    return m.withProcedures(
        m.procedures().stream().map(p -> p.withRelease(share, p.handlingDirtMg())).toList());
  }

  static Machine worthless(Machine m) {
    List<Component> free = m.components().stream().map(c -> c.withCosts(0, 0)).toList();
    return m.withComponents(free);
  }

  /** The machine with what its record has no way to change. */
  private static Machine with(
      Machine m,
      Optional<PressureFilter> pressureFilter,
      Optional<Sampling> sampling,
      Alternatives alternatives,
      List<Uncertainty> uncertainty) {
    return new Machine(
        m.id(),
        m.name(),
        m.machineClass(),
        m.site(),
        m.reservoir(),
        m.fluid(),
        m.duty(),
        m.filteredShare(),
        m.returnFilter(),
        pressureFilter,
        m.offlineFilter(),
        m.ingress(),
        m.settlingPerH(),
        m.oilChange(),
        m.components(),
        m.procedures(),
        m.costs(),
        m.limits(),
        m.today(),
        sampling,
        alternatives,
        m.startAtPerMl(),
        uncertainty);
  }

  static Machine sampled(Machine m, double everyH, String limit, double costMoney) {
    Sampling sampling = new Sampling(everyH, CleanlinessCode.parse(limit), costMoney);
    return with(m, m.pressureFilter(), Optional.of(sampling), m.alternatives(), m.uncertainty());
  }

  static Machine pressureFiltered(Machine m, PressureFilter filter) {
    return with(m, Optional.of(filter), m.sampling(), m.alternatives(), m.uncertainty());
  }

  static Machine choosing(Machine m, Alternatives alternatives) {
    return with(m, m.pressureFilter(), m.sampling(), alternatives, m.uncertainty());
  }

  /** The machine with numbers that are drawn. */
  static Machine uncertain(Machine m, Distribution d, String... paths) {
    List<MachineParameter> parameters =
        Arrays.stream(paths).map(p -> MachineParameter.parse(p).orElseThrow()).toList();
    List<Uncertainty> all = new ArrayList<>(m.uncertainty());
    all.add(new Uncertainty(parameters, d));
    return with(m, m.pressureFilter(), m.sampling(), m.alternatives(), all);
  }

  static ChangeProcedure first(Machine m) {
    return m.procedures().get(0);
  }
}
