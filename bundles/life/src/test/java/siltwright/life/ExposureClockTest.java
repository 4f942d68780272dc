package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Random;
import org.junit.jupiter.api.Test;

class ExposureClockTest {
  private static final ExposureClock CLOCK =
      ExposureClock.of(new double[] {500, 250, 1000}, new double[] {1, 3, 0.5});

  /** By hand: 500 at 1, then 100 of the 250 h at 3; then 750 h in all at 1250 exposure. */
  @Test
  void hoursCountTimesTheirWear() {
    assertEquals(0, CLOCK.exposureH(0));
    assertEquals(300, CLOCK.exposureH(300), 1e-12);
    assertEquals(800, CLOCK.exposureH(600), 1e-12);
    assertEquals(1250, CLOCK.exposureH(750), 1e-12);
    assertEquals(1750, CLOCK.exposureH(1750), 1e-12);
    assertEquals(Double.POSITIVE_INFINITY, CLOCK.exposureH(Double.POSITIVE_INFINITY));
    assertEquals(1750, CLOCK.coveredH());
  }

  @Test
  void ageIsTheInverse() {
    Random random = new Random(5);
    for (int i = 0; i < 100; i++) {
      double age = 1750 * random.nextDouble();
      assertEquals(age, CLOCK.ageH(CLOCK.exposureH(age)), 1e-9);
    }
  }

  @Test
  void whatTheHistoryDoesNotCoverIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> CLOCK.exposureH(1751));
    assertThrows(IllegalArgumentException.class, () -> CLOCK.exposureH(-1));
    assertThrows(
        IllegalArgumentException.class,
        () -> ExposureClock.of(new double[] {1, 0}, new double[] {1, 1}));
    assertThrows(
        IllegalArgumentException.class, () -> ExposureClock.of(new double[] {1}, new double[0]));
  }

  /** A fleet at one wear rate: the scale on the exposure clock is κ times that on hours. */
  @Test
  void constantWearScalesTheLife() {
    LifeData hours = ReferenceCases.Recipe.weibull(80, 12, 1.8, 4000, 1000, 6000);
    LifeData.Builder exposure = LifeData.builder();
    for (int i = 0; i < hours.rows(); i++) {
      ExposureClock clock = ExposureClock.of(new double[] {hours.lowerH(i)}, new double[] {2.5});
      double a = clock.exposureH(hours.lowerH(i));
      if (hours.failed(i)) {
        exposure.failedAt(a);
      } else {
        exposure.runningAt(a);
      }
    }
    LifeFit onHours = LifeFitting.fit(hours, LifeFamily.WEIBULL).get();
    LifeFit onExposure = LifeFitting.fit(exposure.build(), LifeFamily.WEIBULL).get();
    assertEquals(2.5 * onHours.scaleH(), onExposure.scaleH(), 1e-6);
    assertEquals(onHours.shape(), onExposure.shape(), 1e-9);
  }
}
