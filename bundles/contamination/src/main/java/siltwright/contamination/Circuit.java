package siltwright.contamination;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import siltwright.cleanliness.FiltrationRatio;
import siltwright.cleanliness.Iso4406;
import siltwright.cleanliness.ViscosityLine;
import siltwright.model.Bands;
import siltwright.model.BetaPoint;
import siltwright.model.ChangeProcedure;
import siltwright.model.DutyState;
import siltwright.model.Element;
import siltwright.model.Fluid;
import siltwright.model.Ingress;
import siltwright.model.InputException;
import siltwright.model.Loading;
import siltwright.model.Machine;
import siltwright.model.OfflineFilter;
import siltwright.model.Problem;
import siltwright.model.ReturnFilter;
import siltwright.model.SizeBands;

/**
 * A machine's circuit as the coefficients of its contamination balance.
 *
 * <pre>
 *   dn_j/dt = g_j - a_j n_j
 *   g_j = [R_T,j + R_R,j (1 - eps_j B0)] / V
 *   a_j = [sink_j + (1 - ep_j) eps_j B1] / V
 *   eps_j = s f e_j,   B0 = sum w_k (1 - b_k),   B1 = sum w_k Q_k (1 - b_k)
 *   sink_j = &lt;Q&gt; ep_j + Q_off e_off,j + lambda_j V
 * </pre>
 *
 * <p>So the element's load acts through two numbers alone: B0, the share of the hours, and B1, the
 * flow, that still meet the element. e is the capture efficiency of the return element at a band's
 * mean size, ep that of a pressure filter, which takes its share before the oil comes back.
 *
 * <p>Units: volumes mL, flows mL/h, counts 1/mL, ingress particles/h, pressure kPa, mass g, time h.
 *
 * <p>Source: design brief, contamination balance; the pressure filter's share is our own derivation
 * (docs/decisions).
 */
public final class Circuit {
  private static final double ML_PER_L = 1000;
  private static final double MIN_PER_H = 60;
  private static final int J = SizeBands.COUNT;
  private static final double BLOCKED = 1e-8;

  final double volumeMl;
  final double[] share;
  final double[] flowMlPerH;
  final double[] cleanElementKPa;
  final double[] housingKPa;
  final double meanFlowMlPerH;
  final double[] capture;
  final double[] pressureCapture;
  final double[] offlineMlPerH;
  final double[] settlingPerH;
  final double[] oilChangeMlPerH;
  final double[] sinkMlPerH;
  final double[] reservoirPerH;
  final double[] returnPerH;
  final Loading loading;
  final double capacityG;
  final double finesShare;

  /** Retained mass at which the element is blocked: a hair before its wall, g. */
  final double blockedG;

  final double crackingKPa;
  final double bypassMlPerHPerKPa;
  final boolean bypassOpens;

  /** Retained mass at which the bypass of a state begins to open, rising, g. */
  final double[] openingG;

  // Loading mass of a particle, and the coefficients of a and g above, each over the volume
  private final double[] loadingG = new double[J];
  private final double[] sinkPerH = new double[J];
  private final double[] capturePerMl = new double[J];
  private final double[] ingressPerMlH = new double[J];
  private final double[] caughtPerMlH = new double[J];

  private final Builder data;

  private Circuit(Builder b, boolean bypassOpens) {
    data = b;
    this.bypassOpens = bypassOpens;
    volumeMl = b.volumeL * ML_PER_L;
    share = b.share;
    int states = share.length;
    flowMlPerH = new double[states];
    cleanElementKPa = new double[states];
    housingKPa = b.housingKPa;
    double flow = 0;
    for (int k = 0; k < states; k++) {
      flowMlPerH[k] = b.flowLPerMin[k] * ML_PER_L * MIN_PER_H;
      cleanElementKPa[k] =
          b.cleanDropKPa
              * (b.flowLPerMin[k] / b.ratedFlowLPerMin)
              * (b.viscosityMm2PerS[k] / b.ratedViscosityMm2PerS);
      flow += share[k] * flowMlPerH[k];
    }
    meanFlowMlPerH = flow;
    capture = new double[J];
    pressureCapture = b.pressureCapture;
    offlineMlPerH = new double[J];
    settlingPerH = b.settlingPerH;
    oilChangeMlPerH = new double[J];
    Arrays.fill(oilChangeMlPerH, b.oilChangeMlPerH);
    sinkMlPerH = new double[J];
    for (int j = 0; j < J; j++) {
      capture[j] = b.filteredShare * b.fieldEfficiency * b.elementEfficiency[j];
      offlineMlPerH[j] = b.offlineLPerMin * ML_PER_L * MIN_PER_H * b.offlineEfficiency[j];
      sinkMlPerH[j] =
          meanFlowMlPerH * pressureCapture[j]
              + offlineMlPerH[j]
              + settlingPerH[j] * volumeMl
              + oilChangeMlPerH[j];
    }
    reservoirPerH = b.reservoirPerH;
    returnPerH = b.returnPerH;
    for (int j = 0; j < J; j++) {
      loadingG[j] = SizeBands.particleG(j) / (1 - b.finesShare);
      sinkPerH[j] = sinkMlPerH[j] / volumeMl;
      capturePerMl[j] = (1 - pressureCapture[j]) * capture[j] / volumeMl;
      ingressPerMlH[j] = (reservoirPerH[j] + returnPerH[j]) / volumeMl;
      caughtPerMlH[j] = returnPerH[j] * capture[j] / volumeMl;
    }
    loading = b.loading;
    capacityG = b.capacityG;
    blockedG = loading.wall() * capacityG * (1 - BLOCKED);
    finesShare = b.finesShare;
    crackingKPa = b.crackingKPa;
    bypassMlPerHPerKPa =
        b.ratedFlowLPerMin * ML_PER_L * MIN_PER_H / (b.fullFlowKPa - b.crackingKPa);
    openingG = new double[states];
    for (int k = 0; k < states; k++) {
      openingG[k] = bypassOpensAtG(k);
    }
    Arrays.sort(openingG);
  }

  /**
   * Returns the retained mass at which the bypass begins to open in a state.
   *
   * @param k state
   * @return mass, g; 0 if it is open with a clean element; infinite if it never opens
   */
  public double bypassOpensAtG(int k) {
    if (!bypassOpens || flowMlPerH[k] == 0) {
      return Double.POSITIVE_INFINITY;
    }
    return cleanElementKPa[k] >= crackingKPa
        ? 0
        : loading.massShareAt(crackingKPa / cleanElementKPa[k]) * capacityG;
  }

  /**
   * Returns the circuit of a machine as it runs between oil changes.
   *
   * @param machine the machine
   */
  public static Circuit of(Machine machine) {
    return builder(machine, null).build();
  }

  /**
   * Returns the circuit of a machine with the exchange of its oil spread evenly over the hours, as
   * the long run sees it: a share of the oil leaves with its dirt and new oil brings its own.
   *
   * @param machine the machine
   */
  public static Circuit inTheLongRun(Machine machine) {
    return inTheLongRun(machine, null);
  }

  /**
   * Returns the same of a machine like another: what only depends on things that are the very same
   * is taken from the other's circuit.
   *
   * @param machine the machine
   * @param like circuit of the other; null for none
   */
  public static Circuit inTheLongRun(Machine machine, Circuit like) {
    Builder b = builder(machine, like == null ? null : like.data);
    machine
        .oilChange()
        .ifPresent(
            change -> {
              double mlPerH =
                  change.replacedShare()
                      * machine.reservoir().volumeL()
                      * ML_PER_L
                      / change.intervalH();
              double[] newOil = SizeBands.toBands(Iso4406.cumulativePerMl(change.newOil()));
              b.oilChangeMlPerH = mlPerH;
              for (int j = 0; j < J; j++) {
                b.reservoirPerH[j] += mlPerH * newOil[j];
              }
            });
    return b.build();
  }

  private static Builder builder(Machine m, Builder like) {
    ReturnFilter filter = m.returnFilter();
    Element e = filter.element();
    Fluid f = m.fluid();
    List<DutyState> duty = m.duty();
    int states = duty.size();
    Builder b = new Builder();
    b.volumeL = m.reservoir().volumeL();
    b.share = new double[states];
    b.flowLPerMin = new double[states];
    b.housingKPa = new double[states];
    b.duty = duty;
    b.fluid = f;
    b.viscosityMm2PerS =
        like != null && like.duty == duty && like.fluid == f
            ? like.viscosityMm2PerS
            : viscositiesMm2PerS(f, duty);
    for (int k = 0; k < states; k++) {
      DutyState d = duty.get(k);
      b.share[k] = d.share();
      b.flowLPerMin[k] = d.flowLPerMin();
      double flowRatio = d.flowLPerMin() / e.ratedFlowLPerMin();
      b.housingKPa[k] =
          filter.housingDropKPa()
              * (f.densityKgPerM3() / ReturnFilter.HOUSING_DENSITY_KG_PER_M3)
              * flowRatio
              * flowRatio;
    }
    b.filteredShare = m.filteredShare();
    b.fieldEfficiency = filter.fieldEfficiency();
    b.elementBeta = e.beta();
    b.elementEfficiency =
        like != null && like.elementBeta == e.beta()
            ? like.elementEfficiency
            : efficiency(e.beta(), 1);
    b.finesShare = e.finesShare();
    b.cleanDropKPa = e.cleanDropKPa();
    b.capacityG = e.capacityG();
    b.ratedFlowLPerMin = e.ratedFlowLPerMin();
    b.ratedViscosityMm2PerS = e.ratedViscosityMm2PerS();
    b.loading = e.loading();
    b.crackingKPa = filter.bypassCrackingKPa();
    b.fullFlowKPa = filter.bypassFullFlowKPa();
    m.pressureFilter()
        .ifPresent(p -> b.pressureCapture = efficiency(p.beta(), p.fieldEfficiency()));
    Optional<OfflineFilter> offline = m.offlineFilter();
    if (offline.isPresent()) {
      b.offlineLPerMin = offline.get().flowLPerMin();
      b.offlineEfficiency = efficiency(offline.get().beta(), offline.get().fieldEfficiency());
    }
    b.settlingPerH = m.settlingPerH().toArray();
    b.reservoirPerH = Ingress.particlesPerH(m.ingress().reservoir()).toArray();
    b.returnPerH = Ingress.particlesPerH(m.ingress().returnLine()).toArray();
    return b;
  }

  private static double[] viscositiesMm2PerS(Fluid fluid, List<DutyState> duty) {
    double[] viscosities = new double[duty.size()];
    int k = 0;
    try {
      ViscosityLine line = ViscosityLine.of(fluid);
      for (; k < viscosities.length; k++) {
        viscosities[k] = line.mm2PerS(duty.get(k).oilDegC());
      }
    } catch (IllegalArgumentException e) {
      DutyState state = duty.get(k);
      throw new InputException(
          new Problem(
              "duty state " + state.id(),
              "oil_degC",
              state.oilDegC() + " with the viscosities of " + fluid.id(),
              "a temperature at which the oil has 0.21 to 2e7 mm²/s by ASTM D341"));
    }
    return viscosities;
  }

  /** Capture efficiency of each band that a filter has in the field. */
  static double[] efficiency(List<BetaPoint> points, double factor) {
    return FiltrationRatio.of(points).bandEfficiencies().times(factor).toArray();
  }

  /** Returns the number of duty states. */
  public int states() {
    return share.length;
  }

  /** Returns the mean flow through the pump, L/min. */
  public double meanFlowLPerMin() {
    return meanFlowMlPerH / ML_PER_L / MIN_PER_H;
  }

  /** Returns the share of the return flow that passes the return filter, 0 to 1. */
  public double filteredShare() {
    return data.filteredShare;
  }

  /** Returns the flow through the offline filter, L/min; 0 without one. */
  public double offlineLPerMin() {
    return data.offlineLPerMin;
  }

  /**
   * Returns the share of the particles of a band that the return filter takes per pass with a given
   * mass in the element, weighted by flow: ⟨Q E⟩/⟨Q⟩.
   *
   * @param j band, 0 to 5
   * @param massG retained mass, g
   */
  public double captureShare(int j, double massG) {
    double[] b = new double[2];
    met(massG, b);
    return capture[j] * b[1] / meanFlowMlPerH;
  }

  /**
   * Returns the share of the flow of a state that goes through the bypass.
   *
   * @param k state
   * @param massG retained mass, g
   * @return b, 0 to 1
   */
  public double bypassShare(int k, double massG) {
    return bypassShareAt(k, loading.dropRatio(massG / capacityG));
  }

  private double bypassShareAt(int k, double dropRatio) {
    double element = cleanElementKPa[k] * dropRatio;
    if (!bypassOpens || element <= crackingKPa) {
      return 0;
    }
    // G (p - p_crack)/Q with p put in
    double g = bypassMlPerHPerKPa;
    return Double.isInfinite(element)
        ? 1
        : g * (element - crackingKPa) / (flowMlPerH[k] + g * element);
  }

  /**
   * Returns the pressure drop over element and bypass in a state, without the housing's own.
   *
   * @param k state
   * @param massG retained mass, g
   * @return pressure drop, kPa
   */
  public double dropKPa(int k, double massG) {
    double element = cleanElementKPa[k] * loading.dropRatio(massG / capacityG);
    return bypassOpens && element > crackingKPa ? relieved(flowMlPerH[k], element) : element;
  }

  /** Returns what an indicator over the whole filter reads in a state: element and housing, kPa. */
  public double readingKPa(int k, double massG) {
    return dropKPa(k, massG) + housingKPa[k];
  }

  /**
   * Returns the retained mass at which the indicator reading of a state reaches a setting.
   *
   * @param k state
   * @param settingKPa setting, kPa
   * @return mass, g; 0 if a clean element reads as much; infinite if the bypass keeps it from
   *     getting there
   */
  public double massAtReadingG(int k, double settingKPa) {
    double wanted = settingKPa - housingKPa[k];
    if (wanted <= dropKPa(k, 0)) {
      return 0;
    }
    double elementKPa = wanted;
    if (bypassOpens && wanted > crackingKPa) {
      double through = flowMlPerH[k] - bypassMlPerHPerKPa * (wanted - crackingKPa);
      if (through <= 0) {
        return Double.POSITIVE_INFINITY;
      }
      elementKPa = wanted * flowMlPerH[k] / through;
    }
    return loading.massShareAt(elementKPa / cleanElementKPa[k]) * capacityG;
  }

  /** Pressure drop where element and open bypass share a flow. */
  private double relieved(double flow, double elementKPa) {
    double g = bypassMlPerHPerKPa;
    return (flow + g * crackingKPa) / (flow / elementKPa + g);
  }

  /** Whether the bypass is shut in every state with a mass in the element. */
  boolean shut(double massG) {
    return massG <= openingG[0] && openingG[0] > 0;
  }

  /**
   * B0 and B1: the share of the hours (in [0]) and the mean flow, mL/h (in [1]), that meet the
   * element.
   */
  void met(double massG, double[] b) {
    if (shut(massG)) {
      b[0] = 1;
      b[1] = meanFlowMlPerH;
      return;
    }
    if (massG >= blockedG && bypassOpens) {
      b[0] = 0;
      b[1] = 0;
      return;
    }
    double ratio = loading.dropRatio(massG / capacityG);
    double hours = 0;
    double flow = 0;
    for (int k = 0; k < share.length; k++) {
      double past = bypassShareAt(k, ratio);
      hours += share[k] * (1 - past);
      flow += share[k] * flowMlPerH[k] * (1 - past);
    }
    b[0] = hours;
    b[1] = flow;
  }

  /**
   * B0 and B1 as {@link #met} tells them, and their slopes.
   *
   * @param dropRatio h
   * @param between h of a place on the same side of every opening: which states have the bypass
   *     open
   * @param b hours in [0], flow in [1], then dB0/d ln h and dB1/d ln h
   */
  void metAndSlopes(double dropRatio, double between, double[] b) {
    Arrays.fill(b, 0);
    double g = bypassMlPerHPerKPa;
    for (int k = 0; k < share.length; k++) {
      double past = 0;
      if (bypassOpens && cleanElementKPa[k] * between > crackingKPa) {
        double element = cleanElementKPa[k] * dropRatio;
        double whole = flowMlPerH[k] + g * element;
        past = bypassShareAt(k, dropRatio);
        double slope = share[k] * g * element * (flowMlPerH[k] + g * crackingKPa) / (whole * whole);
        b[2] -= slope;
        b[3] -= slope * flowMlPerH[k];
      }
      b[0] += share[k] * (1 - past);
      b[1] += share[k] * flowMlPerH[k] * (1 - past);
    }
  }

  /** ln h at which the bypass begins to open in each state, rising; 0 where it is open at once. */
  double[] opensAtLogDrop() {
    double[] s = new double[share.length];
    int n = 0;
    for (int k = 0; k < s.length; k++) {
      if (bypassOpens && flowMlPerH[k] > 0) {
        s[n++] = Math.max(0, Math.log(crackingKPa / cleanElementKPa[k]));
      }
    }
    double[] opens = Arrays.copyOf(s, n);
    Arrays.sort(opens);
    return opens;
  }

  /** Rate at which a band's count relaxes, a, 1/h. */
  double relaxationPerH(int j, double flowMet) {
    return sinkPerH[j] + capturePerMl[j] * flowMet;
  }

  /** Share of a band's count that the element takes per hour for each mL/h that meets it, 1/mL. */
  double capturePerMl(int j) {
    return capturePerMl[j];
  }

  /** Part of a band's supply that the element keeps off when all meets it, 1/mL/h. */
  double caughtPerMlH(int j) {
    return caughtPerMlH[j];
  }

  /** Supply of a band's count, g, 1/mL/h. */
  double supplyPerMlH(int j, double hoursMet) {
    return ingressPerMlH[j] - caughtPerMlH[j] * hoursMet;
  }

  /**
   * Returns the counts at which supply and removal balance with a given mass in the element.
   *
   * @param massG retained mass, g
   * @return band counts, 1/mL; infinite where dirt comes in and nothing takes it out
   */
  public Bands steadyPerMl(double massG) {
    double[] b = new double[2];
    met(massG, b);
    double[] n = new double[J];
    for (int j = 0; j < J; j++) {
      double supply = supplyPerMlH(j, b[0]);
      n[j] = supply == 0 ? 0 : supply / relaxationPerH(j, b[1]);
    }
    return Bands.of(n);
  }

  /**
   * Returns the time in which a release washes out to 1/e with a clean element.
   *
   * @param j band
   * @return τ, h; infinite if nothing takes the band out
   */
  public double washOutH(int j) {
    double[] b = new double[2];
    met(0, b);
    return 1 / relaxationPerH(j, b[1]);
  }

  /**
   * Returns the mass in the element before a change where nothing but the return filter takes dirt
   * out: then all that comes in ends in it, (R T + H) / (1 - φ).
   *
   * @param intervalH hours from change to change, h
   * @param procedure the procedure of every change
   * @return mass, fines with it, g; not a number where something else takes dirt out too
   */
  public double retainedOfAllG(double intervalH, ChangeProcedure procedure) {
    return retainedOfAllG(
        intervalH, procedure.backFlushShare(), procedure.handlingParticles().toArray());
  }

  double retainedOfAllG(double intervalH, double backFlush, double[] handling) {
    double mass = 0;
    for (int j = 0; j < J; j++) {
      if (sinkMlPerH[j] > 0) {
        return Double.NaN;
      }
      mass += loadingG(j) * ((reservoirPerH[j] + returnPerH[j]) * intervalH + handling[j]);
    }
    return mass / (1 - backFlush);
  }

  /** Returns the same circuit with a bypass that never opens. */
  public Circuit withoutBypass() {
    return new Circuit(data, false);
  }

  /** Loading mass of a band's retained particles, g a particle. */
  double loadingG(int j) {
    return loadingG[j];
  }

  /** The numbers of a circuit while it is put together. Arrays belong to the builder. */
  static final class Builder {
    List<DutyState> duty;
    Fluid fluid;
    List<BetaPoint> elementBeta;
    double volumeL;
    double[] share;
    double[] flowLPerMin;
    double[] viscosityMm2PerS;
    double[] housingKPa;
    double filteredShare = 1;
    double fieldEfficiency = 1;
    double[] elementEfficiency;
    double[] pressureCapture = new double[J];
    double offlineLPerMin;
    double[] offlineEfficiency = new double[J];
    double[] settlingPerH = new double[J];
    double oilChangeMlPerH;
    double[] reservoirPerH = new double[J];
    double[] returnPerH = new double[J];
    double finesShare;
    double cleanDropKPa;
    double capacityG;
    double ratedFlowLPerMin;
    double ratedViscosityMm2PerS;
    Loading loading;
    double crackingKPa;
    double fullFlowKPa;

    Circuit build() {
      return new Circuit(this, true);
    }
  }
}
