package siltwright.life.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import siltwright.life.LifeFamily;
import siltwright.life.Quantity;

/** Names of laws and of their parameters. */
final class Laws {
  /** Confidence of every two-sided interval. */
  static final double CONFIDENCE = 0.95;

  /** Share that a B10 life leaves behind. */
  static final Quantity B10 = new Quantity.BLife(0.1);

  /** Median life. */
  static final Quantity MEDIAN = new Quantity.BLife(0.5);

  private Laws() {}

  /**
   * A quantity with its name in JSON and for people.
   *
   * @param name name in JSON
   * @param label label
   * @param unit unit, empty for none
   * @param quantity the quantity
   */
  record Named(String name, String label, String unit, Quantity quantity) {}

  static String word(LifeFamily family) {
    return family.name().toLowerCase(Locale.ROOT);
  }

  /** Returns the parameters of a law, those estimated first. */
  static List<Named> parameters(LifeFamily family) {
    return switch (family) {
      case WEIBULL ->
          List.of(
              new Named("shape", "Shape", "1", Quantity.SHAPE),
              new Named("scale", "Scale", "h", Quantity.SCALE));
      case LOGNORMAL ->
          List.of(
              new Named("mu", "Mean of ln life", "ln h", Quantity.MU),
              new Named("sigma", "Standard deviation of ln life", "1", Quantity.SIGMA));
      case EXPONENTIAL -> List.of(new Named("mean", "Mean life", "h", Quantity.SCALE));
    };
  }

  /** Returns what is told of a law: its parameters, B10 life and mean life. */
  static List<Named> quantities(LifeFamily family) {
    List<Named> all = new ArrayList<>(parameters(family));
    all.add(new Named("b10_h", "B10 life", "h", B10));
    if (family != LifeFamily.EXPONENTIAL) {
      all.add(new Named("meanLife_h", "Mean life", "h", Quantity.MEAN_LIFE));
    }
    return all;
  }
}
