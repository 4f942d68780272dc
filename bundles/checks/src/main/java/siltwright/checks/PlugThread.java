package siltwright.checks;

/**
 * A metric thread of which few turns are engaged: a steel plug in an aluminium housing.
 *
 * <pre>
 *   external threads  A_s = π n L K [1/(2n) + 0.57735 (E_s - K)]     K largest minor diameter of the bore
 *   internal threads  A_n = π n L D [1/(2n) + 0.57735 (D - E_n)]     D smallest major diameter of the plug
 *   strips at         F = min(A_s 0.6 R_ext, A_n 0.6 R_int)          torque = K_f d F
 * </pre>
 *
 * <p>n turns per mm, L engaged length, E_s smallest pitch diameter of the plug, E_n largest of the
 * bore; tolerance 6g on the plug, 6H in the bore. Every engaged turn counts as bearing its share,
 * which holds for ductile metals about to strip, not for fatigue.
 *
 * <p>Source: FED-STD-H28/2B and Machinery's Handbook (shear areas); ISO 965-1, formulas of the
 * deviations and tolerances, from memory (unrounded: a table may differ by some µm); shear strength
 * 0.6 of tensile strength, common practice.
 *
 * @param diameterMm nominal diameter d, mm
 * @param pitchMm pitch, mm
 * @param turns engaged full turns
 */
public record PlugThread(double diameterMm, double pitchMm, double turns) {
  /** Shear strength over tensile strength. */
  public static final double SHEAR_SHARE = 0.6;

  private static final double HALF_FLANK = 0.57735; // tan 30°
  private static final double PITCH_HEIGHT = 0.649519; // 3√3/8
  private static final double MINOR_HEIGHT = 1.082532; // 5√3/8

  /**
   * Checks that it is a thread.
   *
   * @throws IllegalArgumentException if the pitch is more than a quarter of the diameter
   */
  public PlugThread {
    if (!(pitchMm <= diameterMm / 4)) {
      throw new IllegalArgumentException("a pitch of at most a quarter of the diameter");
    }
  }

  /** Returns the engaged length, mm. */
  public double lengthMm() {
    return turns * pitchMm;
  }

  /** Fundamental deviation g of the plug, mm. */
  private double allowanceMm() {
    return (15 + 11 * pitchMm) / 1000;
  }

  /** Tolerance of the plug's major diameter, grade 6, mm. */
  private double majorToleranceMm() {
    return (180 * Math.cbrt(pitchMm * pitchMm) - 3.15 / Math.sqrt(pitchMm)) / 1000;
  }

  /** Tolerance of the plug's pitch diameter, grade 6, mm. */
  private double pitchToleranceMm() {
    return 90 * Math.pow(pitchMm, 0.4) * Math.pow(diameterMm, 0.1) / 1000;
  }

  /** Tolerance of the bore's minor diameter, grade 6, mm. */
  private double minorToleranceMm() {
    return (pitchMm < 1
            ? 433 * pitchMm - 190 * Math.pow(pitchMm, 1.22)
            : 230 * Math.pow(pitchMm, 0.7))
        / 1000;
  }

  /** Returns the smallest major diameter of the plug, D, mm. */
  public double smallestMajorMm() {
    return diameterMm - allowanceMm() - majorToleranceMm();
  }

  /** Returns the smallest pitch diameter of the plug, E_s, mm. */
  public double smallestPitchMm() {
    return diameterMm - PITCH_HEIGHT * pitchMm - allowanceMm() - pitchToleranceMm();
  }

  /** Returns the largest pitch diameter of the bore, E_n, mm. */
  public double largestPitchMm() {
    return diameterMm - PITCH_HEIGHT * pitchMm + 1.32 * pitchToleranceMm();
  }

  /** Returns the largest minor diameter of the bore, K, mm. */
  public double largestMinorMm() {
    return diameterMm - MINOR_HEIGHT * pitchMm + minorToleranceMm();
  }

  /** Returns the shear area of the plug's threads, A_s, mm². */
  public double externalAreaMm2() {
    return area(largestMinorMm(), smallestPitchMm() - largestMinorMm());
  }

  /** Returns the shear area of the bore's threads, A_n, mm². */
  public double internalAreaMm2() {
    return internalAreaMm2(smallestMajorMm(), largestPitchMm());
  }

  /**
   * Returns the shear area of the bore's threads for measured diameters, mm².
   *
   * @param majorMm smallest major diameter of the plug, mm
   * @param pitchDiameterMm largest pitch diameter of the bore, mm
   */
  double internalAreaMm2(double majorMm, double pitchDiameterMm) {
    return area(majorMm, majorMm - pitchDiameterMm);
  }

  private double area(double atMm, double overlapMm) {
    return Math.PI / pitchMm * lengthMm() * atMm * (pitchMm / 2 + HALF_FLANK * overlapMm);
  }

  /**
   * Returns the axial load at which the threads strip, N.
   *
   * @param plugMPa tensile strength of the plug, MPa
   * @param boreMPa tensile strength of the bore's metal, MPa
   */
  public double strippingN(double plugMPa, double boreMPa) {
    return SHEAR_SHARE * Math.min(externalAreaMm2() * plugMPa, internalAreaMm2() * boreMPa);
  }

  /**
   * Returns the axial load that a torque makes, N: T/(K d).
   *
   * @param torqueNm torque, N m
   * @param nutFactor K, 1
   */
  public double preloadN(double torqueNm, double nutFactor) {
    return torqueNm / (nutFactor * diameterMm / 1000);
  }
}
