package siltwright.model;

/**
 * One way in for dirt.
 *
 * @param source what lets it in; {@code breather} is the one that another breather changes
 * @param rateMgPerH mass per operating hour, mg/h, 4–100 µm(c) only
 * @param distribution size distribution of that mass
 */
public record IngressSource(String source, double rateMgPerH, SizeDistribution distribution) {
  /** Name of the source that a change of breather scales. */
  public static final String BREATHER = "breather";
}
