package siltwright.life;

import siltwright.model.CleanlinessCode;

/**
 * Life of a rolling bearing by ISO 281:2007, the standard beside the data.
 *
 * <pre>
 *   L_nm = a_1 a_ISO L_10        L_10 = (C/P)^p, million revolutions; p = 3 balls, 10/3 rollers
 *   kappa = nu/nu_1              a_ISO from kappa and e_C C_u/P, at most 50
 * </pre>
 *
 * <p>Coefficients of the radial types: ISO 281:2007 equations 31 to 36 as printed in an IBC
 * catalogue (TI-I-5050.0/E, 2010, equations 5.37 to 5.39, balls) and in public codes (rollers).
 * Those of the thrust types are from memory. Contamination: SKF "Rolling Bearings" catalogue, p. 77
 * table 7, which cites the standard's annex A.
 */
public final class RollingBearing {
  /** Largest life modification factor of the standard. */
  public static final double HIGHEST_FACTOR = 50;

  /** Viscosity ratios above this count as this. */
  public static final double HIGHEST_KAPPA = 4;

  /** Below this viscosity ratio the standard has no factor. */
  public static final double LOWEST_KAPPA = 0.1;

  private static final double[] RELIABILITY = {0.90, 0.95, 0.96, 0.97, 0.98, 0.99};

  /** ISO 281:2007, as NKE's catalogue prints it (table 6.8). */
  private static final double[] A1 = {1, 0.64, 0.55, 0.47, 0.37, 0.25};

  /**
   * -/6 um/14 um numbers, then c1 and c2 in line, c1 and c2 off line; none in line for the last.
   */
  private static final double[][] CONTAMINATION = {
    {13, 10, 0.0864, 0.5663, 0.0864, 0.5796},
    {15, 12, 0.0432, 0.9987, 0.0288, 1.141},
    {17, 14, 0.0288, 1.6329, 0.0133, 1.67},
    {19, 16, 0.0216, 2.3362, 0.00864, 2.5164},
    {21, 18, Double.NaN, Double.NaN, 0.00411, 3.8974}
  };

  private RollingBearing() {}

  /** The types that the standard tells apart. */
  public enum Type {
    /** Radial ball bearing. */
    RADIAL_BALL(true, 1),
    /** Radial roller bearing. */
    RADIAL_ROLLER(false, 1),
    /** Thrust ball bearing; its coefficients are from memory. */
    THRUST_BALL(true, 3),
    /** Thrust roller bearing; its coefficients are from memory. */
    THRUST_ROLLER(false, 2.5);

    private final boolean ball;
    private final double divisor;

    Type(boolean ball, double divisor) {
      this.ball = ball;
      this.divisor = divisor;
    }

    /** Returns whether the formula was seen in print or code, not recalled. */
    public boolean formulaSeen() {
      return divisor == 1;
    }
  }

  /** Where the oil is filtered. */
  public enum Filtration {
    /** All of the circulating oil passes a filter before the bearing. */
    IN_LINE,
    /** A bath, or a filter beside the circuit. */
    OFF_LINE
  }

  /**
   * Returns the life modification factor a_ISO.
   *
   * <pre>
   *   balls    0.1 (1 - (2.5671 - c/kappa^q)^0.83 (e_C C_u/P)^(1/3))^-9.3
   *   rollers  0.1 (1 - (1.5859 - c/kappa^q) (e_C C_u/P)^0.4)^-9.185
   * </pre>
   *
   * <p>A thrust bearing's ratio is divided by 3 (balls) or 2.5 (rollers), from memory.
   *
   * @param kappa viscosity ratio, 1; above 4 taken as 4
   * @param loadRatio e_C C_u/P, 1, at least 0
   * @return at most 50
   * @throws IllegalArgumentException if kappa is below 0.1, where the standard has no factor, or
   *     the ratio is negative
   */
  public static double lifeFactor(Type type, double kappa, double loadRatio) {
    if (!(kappa >= LOWEST_KAPPA)) {
      throw new IllegalArgumentException(
          "kappa is " + kappa + ", expected at least 0.1: the standard has no factor below");
    }
    if (!(loadRatio >= 0)) {
      throw new IllegalArgumentException("e_C C_u/P is " + loadRatio + ", expected at least 0");
    }
    double k = Math.min(kappa, HIGHEST_KAPPA);
    double q = k < 0.4 ? 0.054381 : k < 1 ? 0.19087 : 0.071739;
    double ratio = loadRatio / type.divisor;
    double bracket;
    double power;
    if (type.ball) {
      double c = k < 0.4 ? 2.2649 : 1.9987;
      bracket = 1 - Math.pow(2.5671 - c / Math.pow(k, q), 0.83) * Math.cbrt(ratio);
      power = -9.3;
    } else {
      double c = k < 0.4 ? 1.3993 : 1.2348;
      bracket = 1 - (1.5859 - c / Math.pow(k, q)) * Math.pow(ratio, 0.4);
      power = -9.185;
    }
    return bracket <= 0 ? HIGHEST_FACTOR : Math.min(HIGHEST_FACTOR, 0.1 * Math.pow(bracket, power));
  }

  /**
   * Returns a_ISO with a proven extreme-pressure additive: where kappa is below 1 and e_C at least
   * 0.2, kappa may count as 1, but then a_ISO is at most 3 and never below that of the plain oil.
   *
   * <p>Source: SKF General Catalogue p. 61.
   *
   * @param contamination e_C, from 0 to 1
   * @param fatigueLoadRatio C_u/P
   */
  public static double lifeFactorWithAdditive(
      Type type, double kappa, double contamination, double fatigueLoadRatio) {
    double loadRatio = contamination * fatigueLoadRatio;
    double plain = lifeFactor(type, kappa, loadRatio);
    return kappa >= 1 || contamination < 0.2
        ? plain
        : Math.max(plain, Math.min(3, lifeFactor(type, 1, loadRatio)));
  }

  /**
   * Returns the reference viscosity nu_1.
   *
   * <pre>  45000 n^-0.83 Dpw^-0.5 below 1000 r/min,  4500 n^-0.5 Dpw^-0.5 from there  </pre>
   *
   * <p>Catalogue diagrams read up to a fifth lower.
   *
   * @param speedRPerMin above 0
   * @param pitchDiameterMm above 0; (bore + outside diameter)/2 may stand for it
   * @return mm²/s
   */
  public static double referenceViscosityMm2PerS(double speedRPerMin, double pitchDiameterMm) {
    above(speedRPerMin, "speed", "r/min");
    above(pitchDiameterMm, "pitch diameter", "mm");
    double speed =
        speedRPerMin < 1000
            ? 45000 * Math.pow(speedRPerMin, -0.83)
            : 4500 / Math.sqrt(speedRPerMin);
    return speed / Math.sqrt(pitchDiameterMm);
  }

  /**
   * Returns the contamination factor e_C of oil of a cleanliness code.
   *
   * <pre>  min(c_1 kappa^0.68 Dpw^0.55, 1) (1 - c_2/Dpw^(1/3)), at least 0  </pre>
   *
   * <p>The constants are those of the cleanest class of the standard that is at least as dirty as
   * the code, at 6 and at 14 µm(c): -/13/10, -/15/12, -/17/14, -/19/16 and, off line, -/21/18.
   * Dirtier oil has e_C 0 (very severe contamination, SKF General Catalogue table 4). In line, the
   * classes presume filters of beta_6(c) = 200, beta_12(c) = 200, beta_25(c) = 75 and beta_40(c) =
   * 75.
   *
   * @param kappa viscosity ratio, above 0; above 4 taken as 4
   * @param pitchDiameterMm above 0
   */
  public static double contaminationFactor(
      CleanlinessCode code, Filtration filtration, double kappa, double pitchDiameterMm) {
    above(kappa, "kappa", "");
    above(pitchDiameterMm, "pitch diameter", "mm");
    int at = filtration == Filtration.IN_LINE ? 2 : 4;
    for (double[] row : CONTAMINATION) {
      if (code.at6() <= row[0] && code.at14() <= row[1] && !Double.isNaN(row[at])) {
        double film =
            row[at]
                * Math.pow(Math.min(kappa, HIGHEST_KAPPA), 0.68)
                * Math.pow(pitchDiameterMm, 0.55);
        return Math.max(0, Math.min(film, 1) * (1 - row[at + 1] / Math.cbrt(pitchDiameterMm)));
      }
    }
    return 0;
  }

  /**
   * Returns the reliability factor a_1 of ISO 281:2007, linear between the table's points.
   *
   * @param reliability from 0.90 to 0.99
   */
  public static double reliabilityFactor(double reliability) {
    int last = RELIABILITY.length - 1;
    if (!(reliability >= RELIABILITY[0] && reliability <= RELIABILITY[last])) {
      throw new IllegalArgumentException(
          "reliability is " + reliability + ", expected from 0.90 to 0.99");
    }
    int i = 1;
    while (RELIABILITY[i] < reliability) {
      i++;
    }
    double share = (reliability - RELIABILITY[i - 1]) / (RELIABILITY[i] - RELIABILITY[i - 1]);
    return A1[i - 1] + share * (A1[i] - A1[i - 1]);
  }

  /**
   * Returns the fatigue load limit C_u by the simplified method: C_0/22 for balls, C_0/8.2 for
   * rollers, less above 100 mm. Source: a public code that cites ISO 281 equations B.18 to B.20.
   *
   * @param staticRatingKN C_0, kN
   * @return kN
   */
  public static double fatigueLoadLimitKN(
      Type type, double staticRatingKN, double pitchDiameterMm) {
    above(staticRatingKN, "static rating", "kN");
    above(pitchDiameterMm, "pitch diameter", "mm");
    double large = Math.min(1, 100 / pitchDiameterMm);
    return type.ball
        ? staticRatingKN / 22 * Math.sqrt(large)
        : staticRatingKN / 8.2 * Math.pow(large, 0.3);
  }

  /**
   * Returns the basic rating life L_10, million revolutions.
   *
   * @param dynamicRatingKN C, kN
   * @param loadKN equivalent load P, kN
   */
  public static double basicLifeMrev(Type type, double dynamicRatingKN, double loadKN) {
    above(dynamicRatingKN, "dynamic rating", "kN");
    above(loadKN, "load", "kN");
    return Math.pow(dynamicRatingKN / loadKN, type.ball ? 3 : 10.0 / 3);
  }

  /** Returns million revolutions as hours at a speed, r/min. */
  public static double hoursH(double lifeMrev, double speedRPerMin) {
    above(speedRPerMin, "speed", "r/min");
    return lifeMrev * 1e6 / (60 * speedRPerMin);
  }

  /**
   * Returns the life over duty states from the life in each.
   *
   * <pre>  1 / sum(U_i/L_i)  </pre>
   *
   * @param shares share of hours of each state, adding to 1; not modified
   * @param livesH life in each, h, same length; not modified
   */
  public static double combinedLifeH(double[] shares, double[] livesH) {
    double total = 0;
    double damage = 0;
    for (int i = 0; i < shares.length; i++) {
      above(livesH[i], "life of state " + i, "h");
      total += shares[i];
      damage += shares[i] / livesH[i];
    }
    if (Math.abs(total - 1) > 1e-9) {
      throw new IllegalArgumentException("shares add to " + total + ", expected 1");
    }
    return 1 / damage;
  }

  private static void above(double value, String name, String unit) {
    if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          name + " is " + value + " " + unit + ", expected above 0, finite");
    }
  }
}
