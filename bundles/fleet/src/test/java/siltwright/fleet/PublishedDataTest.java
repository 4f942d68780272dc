package siltwright.fleet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** Published data of repairable equipment; what is published beside what we get. */
class PublishedDataTest {
  private final EventData loaders =
      ReferenceCases.events("lhd_hydraulics_1992.csv", r -> true, false);

  private EventData loader(String name) {
    return ReferenceCases.events(
        "lhd_hydraulics_1992.csv", r -> r.get("machine").equals(name), false);
  }

  /** Kvaløy and Lindqvist 2020, table 4: generalised Laplace, two-sided p 0.062. */
  @Test
  void generalisedLaplaceOfSixLoadersIsThePublishedOne() {
    assertEquals(0.062, TrendTests.generalisedLaplace(loaders).pValue(), 5e-4);
    // plain Laplace, which takes the clustered failures as chance: second computation, 0.0051
    assertEquals(0.0051, TrendTests.laplace(loaders).pValue(), 5e-5);
  }

  /**
   * Combined over the six loaders with renewal as the null, Kvaløy and Lindqvist 2020, table 4,
   * print 0.019 for a combination of Lewis' and Robinson's statistics; ours combines otherwise and
   * is held to a second computation: z 2.385, and 0.0163 of 20 000 orders of the gaps.
   */
  @Test
  void gapOrderOfSixLoadersIsNearThePublishedOne() {
    TrendTests.Laplace test = TrendTests.gapOrder(loaders, 1);
    assertEquals(2.385, test.z(), 5e-4);
    assertEquals(0.0163, test.pValue(), 0.008);
    assertEquals(146, test.events());
  }

  /** Kvaløy and Lindqvist 2020, table 1 and text: Laplace 0.605, Lewis-Robinson 0.681. */
  @Test
  void trendOfLoaderAOf1989IsThePublishedOne() {
    EventData a = ReferenceCases.events("lhd_machine_a_1989.csv", r -> true, false);
    assertEquals(36, a.events());
    assertEquals(0.605, TrendTests.laplace(a).z(), 5e-4);
    assertEquals(0.681, TrendTests.lewisRobinson(a).z(), 5e-4);
  }

  /** Second computation, by maximum likelihood in another language. */
  @Test
  void powerLawsOfTheLoadersAgreeWithASecondComputation() {
    String[] names = {"LHD1", "LHD3", "LHD9", "LHD11", "LHD17", "LHD20"};
    double[] shapes = {1.557, 1.433, 1.593, 1.269, 1.470, 1.167};
    assertArrayEquals(
        shapes,
        Arrays.stream(names).mapToDouble(n -> PowerLaw.fit(loader(n)).get().shape()).toArray(),
        5e-4);
    PowerLaw all = PowerLaw.fit(loaders).get();
    assertEquals(1.3123, all.shape(), 5e-5);
    assertEquals(5.666e-4, all.lambda(), 5e-8);
    assertEquals(10.48, all.againstConstant().chiSquare(), 5e-3);
    assertEquals(0.0012, all.againstConstant().pValue(), 5e-5);
    double[] at = {500, 1000, 1500, 2000, 2500, 3000, 3500, 4000, 4500};
    double[] means = {2.1667, 4.3333, 8.1667, 13.8333, 18.5, 21.5, 24.1667, 26.6667, 33.6667};
    MeanCumulative m = MeanCumulative.of(loaders);
    assertArrayEquals(means, Arrays.stream(at).map(m::meanAt).toArray(), 5e-5);
  }

  /**
   * Valve seats of 41 engines, W. Nelson, Technometrics 37 (1995): power law 1.3996 and 553.64 d as
   * commonly quoted (from memory), means by a second computation.
   */
  @Test
  void valveSeatsAreAsPublished() {
    EventData seats = ReferenceCases.events("valve_seat.csv", r -> true, false);
    PowerLaw law = PowerLaw.fit(seats).get();
    assertEquals(1.3996, law.shape(), 5e-5);
    assertEquals(553.64, law.scaleH(), 5e-3);
    MeanCumulative m = MeanCumulative.of(seats);
    double[] at = {100, 300, 500, 600, 650};
    assertArrayEquals(
        new double[] {0.1463, 0.4634, 0.8085, 1.0143, 1.3205},
        Arrays.stream(at).map(m::meanAt).toArray(),
        5e-5);
  }
}
