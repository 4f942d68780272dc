package siltwright.checks;

/**
 * A used O-ring before it goes back into its groove.
 *
 * <pre>
 *   set      CS = (h0 - h2)/(h0 - h1)
 *   squeeze  (h - gap)/h          h the section, gap the depth from groove bottom to counterface
 *   fill     (π/4) h²/(gap · width)
 *   stretch  groove diameter/inside diameter - 1
 * </pre>
 *
 * <p>h0 original section, h1 the compressed one (the groove's depth), h2 the section measured after
 * the ring has lain free for half an hour. A stretched ring thins: its section falls by the root of
 * the stretch, since its volume stays.
 *
 * <p>Source: compression set as in ASTM D395 method B and ISO 815; squeeze as in MIL-G-5514G 3.6.2;
 * section tolerances ISO 3601-1 class B.
 *
 * @param originalMm original section h0, mm
 * @param measuredMm section measured, h2, mm
 * @param depthMm depth of the groove to the counterface, h1, mm
 * @param widthMm width of the groove, mm
 * @param insideMm inside diameter of the new ring, mm
 * @param grooveMm diameter that the ring sits on, mm
 */
public record SealRing(
    double originalMm,
    double measuredMm,
    double depthMm,
    double widthMm,
    double insideMm,
    double grooveMm) {
  /** Largest section of the tolerance table, mm. */
  public static final double LARGEST_SECTION_MM = 8.4;

  private static final double[] SECTION_TO_MM = {2.25, 3.15, 4.50, 6.30, LARGEST_SECTION_MM};
  private static final double[] TOLERANCE_MM = {0.08, 0.09, 0.10, 0.13, 0.15};

  /**
   * Checks the sizes against each other.
   *
   * @throws IllegalArgumentException if the groove is no shallower than the section, or the section
   *     is outside the table
   */
  public SealRing {
    if (!(depthMm < originalMm)) {
      throw new IllegalArgumentException("a groove shallower than the section");
    }
    if (!(originalMm <= LARGEST_SECTION_MM)) {
      throw new IllegalArgumentException("a section up to " + LARGEST_SECTION_MM + " mm");
    }
  }

  /** Returns the tolerance of a new section, ± mm. Source: ISO 3601-1 class B. */
  public double toleranceMm() {
    int i = 0;
    while (originalMm > SECTION_TO_MM[i]) {
      i++;
    }
    return TOLERANCE_MM[i];
  }

  /** Returns the compression set, 1; below 0 where the ring swelled. */
  public double set() {
    return setOf(originalMm);
  }

  /** Returns the lowest and highest set that a new section within its tolerance leaves open, 1. */
  public double[] setRange() {
    return new double[] {setOf(originalMm - toleranceMm()), setOf(originalMm + toleranceMm())};
  }

  private double setOf(double newMm) {
    return newMm <= depthMm ? 0 : (newMm - measuredMm) / (newMm - depthMm);
  }

  /** Returns the stretch on the groove, 1. */
  public double stretch() {
    return grooveMm / insideMm - 1;
  }

  /** Returns a section as it is when stretched onto the groove, mm. */
  private double fittedMm(double sectionMm) {
    return sectionMm / Math.sqrt(Math.max(1, 1 + stretch()));
  }

  /** Returns the squeeze of a new ring, 1. */
  public double squeezeNew() {
    return 1 - depthMm / fittedMm(originalMm);
  }

  /** Returns the squeeze that is left, 1; below 0 where the ring no longer touches. */
  public double squeezeNow() {
    return 1 - depthMm / fittedMm(measuredMm);
  }

  /** Returns by how much the groove still presses the ring, mm. */
  public double squeezeNowMm() {
    return fittedMm(measuredMm) - depthMm;
  }

  /** Returns the share of the groove's section that a new ring fills, 1. */
  public double fill() {
    double section = fittedMm(originalMm);
    return Math.PI / 4 * section * section / (depthMm * widthMm);
  }
}
