package siltwright.contamination;

import siltwright.model.Bands;
import siltwright.model.SizeBands;

/**
 * How much oil and dirt go where in a circuit at a moment. Particles an hour of a band, n its count
 * in the tank:
 *
 * <pre>
 *   through the pump        Q n,          of which a pressure filter keeps  Q e_p n
 *   in the return line      X = (1 - e_p) Q n + R_R
 *   past the filter         (1 - s) X
 *   through the bypass      s b X
 *   to the element          s (1 - b) X,  of which it keeps  f e s (1 - b) X
 *   offline                 Q_off n,      of which the filter keeps  e_off Q_off n
 *   settling                lambda V n
 * </pre>
 *
 * <p>They add up to the balance that {@link Circuit} states: V dn/dt is what comes into the tank
 * less what leaves it.
 *
 * <p>Source: the terms of the contamination balance, docs/theory.md, one by one.
 *
 * @param pump from the tank through the pump
 * @param behindPressureFilter what goes on to the components behind the pressure filter; as {@code
 *     pump} where there is none
 * @param returnLine before the return filter, with the dirt that comes in on the way
 * @param pastFilter the share of the return flow that comes back to the tank unfiltered
 * @param bypass through the return filter's bypass valve
 * @param element to the return element
 * @param behindElement out of it
 * @param offline to the offline filter
 * @param behindOffline out of it
 * @param reservoirPerH comes straight into the tank, particles/h
 * @param returnPerH comes into the return line, particles/h
 * @param settlingPerH settles, particles/h
 */
public record DirtFlow(
    Stream pump,
    Stream behindPressureFilter,
    Stream returnLine,
    Stream pastFilter,
    Stream bypass,
    Stream element,
    Stream behindElement,
    Stream offline,
    Stream behindOffline,
    Bands reservoirPerH,
    Bands returnPerH,
    Bands settlingPerH) {
  private static final int J = SizeBands.COUNT;
  private static final double MIN_PER_H = 60;
  private static final double ML_PER_L = 1000;
  private static final double MG_PER_G = 1000;

  /**
   * Oil with its dirt on the way.
   *
   * @param flowLPerMin flow, L/min
   * @param particlesPerH particles of each band, 1/h
   */
  public record Stream(double flowLPerMin, Bands particlesPerH) {
    /** Returns the band counts in it, 1/mL; 0 where nothing flows. */
    public Bands perMl() {
      return flowLPerMin > 0
          ? particlesPerH.times(1 / (flowLPerMin * ML_PER_L * MIN_PER_H))
          : Bands.ZERO;
    }

    /** Returns the mass of the dirt in it, within the bands, mg/h. */
    public double mgPerH() {
      return DirtFlow.mgPerH(particlesPerH);
    }

    private Stream plus(Stream other, double weight) {
      return new Stream(
          flowLPerMin + weight * other.flowLPerMin,
          particlesPerH.plus(other.particlesPerH.times(weight)));
    }
  }

  /** Returns the mass of particles an hour, mg/h. */
  public static double mgPerH(Bands particlesPerH) {
    return MG_PER_G * SizeBands.massG(particlesPerH.toArray());
  }

  /**
   * Returns the flows in a duty state.
   *
   * @param c the circuit
   * @param state its state, from 0
   * @param perMl band counts in the tank, 1/mL
   * @param massG mass in the element, g
   */
  public static DirtFlow of(Circuit c, int state, Bands perMl, double massG) {
    double flow = c.flowMlPerH[state];
    double bypassed = c.bypassShare(state, massG);
    double filtered = c.filteredShare();
    double[] pump = new double[J];
    double[] behind = new double[J];
    double[] back = new double[J];
    double[] out = new double[J];
    double[] offline = new double[J];
    double[] behindOffline = new double[J];
    double[] settling = new double[J];
    double offlineMlPerH = c.offlineLPerMin() * ML_PER_L * MIN_PER_H;
    for (int j = 0; j < J; j++) {
      double n = perMl.get(j);
      pump[j] = flow * n;
      behind[j] = (1 - c.pressureCapture[j]) * pump[j];
      back[j] = behind[j] + c.returnPerH[j];
      out[j] = back[j] * (1 - bypassed) * (filtered - c.capture[j]);
      offline[j] = offlineMlPerH * n;
      behindOffline[j] = offline[j] - c.offlineMlPerH[j] * n;
      settling[j] = c.settlingPerH[j] * c.volumeMl * n;
    }
    double flowLPerMin = flow / ML_PER_L / MIN_PER_H;
    Bands returned = Bands.of(back);
    return new DirtFlow(
        new Stream(flowLPerMin, Bands.of(pump)),
        new Stream(flowLPerMin, Bands.of(behind)),
        new Stream(flowLPerMin, returned),
        part(flowLPerMin, returned, 1 - filtered),
        part(flowLPerMin, returned, filtered * bypassed),
        part(flowLPerMin, returned, filtered * (1 - bypassed)),
        new Stream(flowLPerMin * filtered * (1 - bypassed), Bands.of(out)),
        new Stream(c.offlineLPerMin(), Bands.of(offline)),
        new Stream(c.offlineLPerMin(), Bands.of(behindOffline)),
        Bands.of(c.reservoirPerH),
        Bands.of(c.returnPerH),
        Bands.of(settling));
  }

  /**
   * Returns the flows in the mean over the duty states, weighted by their share of the hours.
   *
   * @param c the circuit
   * @param perMl band counts in the tank, 1/mL
   * @param massG mass in the element, g
   */
  public static DirtFlow mean(Circuit c, Bands perMl, double massG) {
    Stream none = new Stream(0, Bands.ZERO);
    Stream pump = none;
    Stream behind = none;
    Stream back = none;
    Stream past = none;
    Stream bypass = none;
    Stream element = none;
    Stream out = none;
    for (int k = 0; k < c.states(); k++) {
      DirtFlow flow = of(c, k, perMl, massG);
      double share = c.share[k];
      pump = pump.plus(flow.pump, share);
      behind = behind.plus(flow.behindPressureFilter, share);
      back = back.plus(flow.returnLine, share);
      past = past.plus(flow.pastFilter, share);
      bypass = bypass.plus(flow.bypass, share);
      element = element.plus(flow.element, share);
      out = out.plus(flow.behindElement, share);
    }
    // In the loop of its own, the tank and the ways in nothing depends on the state.
    DirtFlow any = of(c, 0, perMl, massG);
    return new DirtFlow(
        pump,
        behind,
        back,
        past,
        bypass,
        element,
        out,
        any.offline,
        any.behindOffline,
        any.reservoirPerH,
        any.returnPerH,
        any.settlingPerH);
  }

  private static Stream part(double flowLPerMin, Bands particlesPerH, double share) {
    return new Stream(flowLPerMin * share, particlesPerH.times(share));
  }

  /** Returns what the pressure filter keeps, particles/h. */
  public Bands keptByPressureFilterPerH() {
    return difference(pump, behindPressureFilter);
  }

  /** Returns what the return element keeps, particles/h. */
  public Bands keptByElementPerH() {
    return difference(element, behindElement);
  }

  /** Returns what the offline filter keeps, particles/h. */
  public Bands keptOfflinePerH() {
    return difference(offline, behindOffline);
  }

  /** Returns what comes out of the return filter, element and bypass together. */
  public Stream behindFilter() {
    return behindElement.plus(bypass, 1);
  }

  private static Bands difference(Stream in, Stream out) {
    return in.particlesPerH.plus(out.particlesPerH.times(-1));
  }
}
