package siltwright.cleanliness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import siltwright.model.BetaPoint;
import siltwright.model.SizeBands;

class FiltrationRatioTest {
  private static final FiltrationRatio ELEMENT =
      FiltrationRatio.of(new double[] {5, 10, 20}, new double[] {2, 75, 1000});

  @DisplayName("ratio to efficiency: Parker p. 264, Schroeder p. 17, Womack 61, yamashin-filter")
  @ParameterizedTest(name = "beta {0}: {1} %")
  @CsvFileSource(resources = "reference/beta-efficiency.csv")
  void printedEfficiencies(double beta, double percent) {
    // one decimal, rounded or cut
    assertEquals(percent, 100 * FiltrationRatio.efficiencyOf(beta), 0.1);
    FiltrationRatio flat = FiltrationRatio.of(new double[] {10}, new double[] {beta});
    assertEquals(FiltrationRatio.efficiencyOf(beta), flat.efficiency(33), 1e-12);
  }

  @Test
  void pointsComeBackAndEndsAreHeld() {
    assertEquals(2, ELEMENT.beta(5), 1e-12);
    assertEquals(75, ELEMENT.beta(10), 1e-12);
    assertEquals(1000, ELEMENT.beta(20), 1e-9);
    assertEquals(2, ELEMENT.beta(1), 1e-12);
    assertEquals(1000, ELEMENT.beta(85), 1e-9);
  }

  @Test
  void logarithmIsLinearInSizeBetweenPoints() {
    // half way the ratio is the geometric mean
    assertEquals(Math.sqrt(2 * 75), ELEMENT.beta(7.5), 1e-12);
    assertEquals(Math.sqrt(75 * 1000.0), ELEMENT.beta(15), 1e-10);
  }

  @Test
  void bandsTakeTheirMeanSize() {
    double[] bands = ELEMENT.bandEfficiencies().toArray();
    assertEquals(SizeBands.COUNT, bands.length);
    assertEquals(0.5, bands[0], 1e-12);
    double beta = 2 * Math.pow(75 / 2.0, (Math.sqrt(84) - 5) / 5);
    assertEquals(1 - 1 / beta, bands[1], 1e-12);
    assertEquals(0.999, bands[5], 1e-12);
    for (int j = 1; j < bands.length; j++) {
      assertTrue(bands[j] >= bands[j - 1]);
    }
  }

  @Test
  void pointsOfAnElementMakeTheSameRatio() {
    List<BetaPoint> points =
        List.of(new BetaPoint(5, 2), new BetaPoint(10, 75), new BetaPoint(20, 1000));
    assertEquals(ELEMENT.bandEfficiencies(), FiltrationRatio.of(points).bandEfficiencies());
  }

  @Test
  void ratioOfOneKeepsNothing() {
    assertEquals(0, FiltrationRatio.of(new double[] {10}, new double[] {1}).efficiency(10));
  }

  @Test
  void impossibleRatiosAreRefused() {
    assertRefused(new double[] {5, 10}, new double[] {2});
    assertRefused(new double[] {}, new double[] {});
    assertRefused(new double[] {10, 5}, new double[] {2, 75});
    assertRefused(new double[] {5, 5}, new double[] {2, 75});
    assertRefused(new double[] {0}, new double[] {2});
    assertRefused(new double[] {5}, new double[] {0.9});
    assertRefused(new double[] {5}, new double[] {Double.POSITIVE_INFINITY});
    assertRefused(new double[] {Double.NaN}, new double[] {2});
  }

  private static void assertRefused(double[] sizes, double[] betas) {
    assertThrows(IllegalArgumentException.class, () -> FiltrationRatio.of(sizes, betas));
  }
}
