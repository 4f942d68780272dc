package siltwright.model;

import java.util.ArrayList;
import java.util.List;

/**
 * All dirt that comes in.
 *
 * @param reservoir straight into the tank: breather, topping up
 * @param returnLine upstream of the return filter: rod seals, wear
 */
public record Ingress(List<IngressSource> reservoir, List<IngressSource> returnLine) {
  public Ingress {
    reservoir = List.copyOf(reservoir);
    returnLine = List.copyOf(returnLine);
  }

  /** Returns particles of each band per hour from some sources. */
  public static Bands particlesPerH(List<IngressSource> sources) {
    Bands sum = Bands.ZERO;
    for (IngressSource s : sources) {
      sum = sum.plus(s.distribution().particlesPerG().times(s.rateMgPerH() / 1000));
    }
    return sum;
  }

  /** Returns the mass that some sources let in, mg/h. */
  public static double rateMgPerH(List<IngressSource> sources) {
    double sum = 0;
    for (IngressSource s : sources) {
      sum += s.rateMgPerH();
    }
    return sum;
  }

  /** Returns the same sources with each rate times a factor. */
  public static List<IngressSource> scaled(List<IngressSource> sources, double factor) {
    List<IngressSource> scaled = new ArrayList<>(sources.size());
    for (IngressSource s : sources) {
      scaled.add(new IngressSource(s.source(), s.rateMgPerH() * factor, s.distribution()));
    }
    return List.copyOf(scaled);
  }
}
