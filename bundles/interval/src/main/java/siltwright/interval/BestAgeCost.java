package siltwright.interval;

import java.util.HashMap;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * What a part costs an hour that is replaced at the age that costs least.
 *
 * <p>Over the scale of its life it depends on one number alone, the constant hazard in scales: C η
 * = F(α η). F is computed where it is asked for first, at places evenly spread over ln(α η), and
 * told between them by the cubic through four: right to 1e-6.
 *
 * <p>Not for use by several threads.
 */
final class BestAgeCost {
  private static final double STEP = 0.05;

  /** Hazards in scales between which F is told by the cubic. */
  private static final double LEAST = 1e-6;

  private static final double MOST = 1e3;

  private final double shape;
  private final double plannedMoney;
  private final double failureMoney;
  private final Map<Integer, Double> known = new HashMap<>();

  BestAgeCost(double shape, double plannedMoney, double failureMoney) {
    this.shape = shape;
    this.plannedMoney = plannedMoney;
    this.failureMoney = failureMoney;
  }

  boolean isOf(double otherShape, double otherPlannedMoney, double otherFailureMoney) {
    return shape == otherShape
        && plannedMoney == otherPlannedMoney
        && failureMoney == otherFailureMoney;
  }

  /**
   * Returns the cost.
   *
   * @param scaleH η, h, above 0
   * @param acutePerH α, 1/h, at least 0
   * @return money per hour
   */
  double perH(double scaleH, double acutePerH) {
    double hazard = acutePerH * scaleH;
    if (!(hazard > LEAST && hazard < MOST)) {
      return computed(hazard) / scaleH;
    }
    double place = Math.log(hazard) / STEP;
    int low = (int) Math.floor(place);
    double s = place - low;
    double r = 1 - s;
    double told =
        (known(low) * (1 + s) * r * (2 - s) + known(low + 1) * s * (1 + s) * (2 - s)) / 2
            - (known(low - 1) * r * (2 - s) * s + known(low + 2) * s * (1 + s) * r) / 6;
    return told / scaleH;
  }

  private double known(int place) {
    return known.computeIfAbsent(place, i -> computed(Math.exp(i * STEP)));
  }

  private double computed(double hazard) {
    AgeReplacement part = new AgeReplacement(shape, 1, hazard, plannedMoney, failureMoney);
    OptionalDouble age = part.bestAgeH();
    return age.isPresent() ? part.costPerH(age.getAsDouble()) : part.costAtFailurePerH();
  }
}
