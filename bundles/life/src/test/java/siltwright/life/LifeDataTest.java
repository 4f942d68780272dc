package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LifeDataTest {
  @Test
  void rowsKeepWhatTheyWereGiven() {
    LifeData data =
        LifeData.builder()
            .failedAt(120)
            .runningAt(300)
            .times(4)
            .enteredAt(100)
            .failedBetween(200, 250)
            .failedBetween(0, 80)
            .build()
            .withModes(new String[] {"leak", null, "wear", "leak"})
            .withCovariate("depot", new String[] {"n", "s", "n", "s"});
    assertEquals(7, data.components());
    assertEquals(3, data.failures());
    assertTrue(data.hasIntervals() && data.hasLateEntry());
    assertEquals(100, data.entryH(1));
    assertEquals(List.of("leak", "wear"), data.modes());
    LifeData south = data.where(i -> i % 2 == 1);
    assertEquals(5, south.components());
    assertEquals(1, south.failures());
    assertEquals(80, south.upperH(1));
    assertEquals(2, south.covariates().get("depot").rows());
  }

  /** A component seen alive at its entry cannot have failed before it. */
  @Test
  void anIntervalStartsAtTheEntry() {
    LifeData data = LifeData.builder().failedBetween(0, 80).enteredAt(30).build();
    assertEquals(30, data.lowerH(0));
  }

  @ParameterizedTest(name = "lower {0}, upper {1}, entry {2}, count {3}: names {4}")
  @CsvSource({
    "-1, 5, 0, 1, lower bound",
    "NaN, 5, 0, 1, lower bound",
    "Infinity, Infinity, 0, 1, lower bound",
    "5, 4, 0, 1, upper bound",
    "0, 0, 0, 1, upper bound",
    "5, NaN, 0, 1, upper bound",
    "5, 5, 5, 1, entry",
    "5, Infinity, 6, 1, entry",
    "5, 5, -1, 1, entry",
    "5, 5, 0, 0, count",
    "5, 5, 0, NaN, count"
  })
  void badRowsAreNamed(double lower, double upper, double entry, double count, String name) {
    LifeData.Builder builder =
        LifeData.builder().failedAt(1).failedBetween(lower, upper).enteredAt(entry).times(count);
    IllegalArgumentException e = assertThrows(IllegalArgumentException.class, builder::build);
    assertTrue(e.getMessage().startsWith("row 1: " + name), e.getMessage());
  }

  @Test
  void manyRowsNeedNoObjectEach() {
    LifeData.Builder builder = LifeData.builder();
    for (int i = 0; i < 200_000; i++) {
      builder.failedAt(1 + i);
    }
    assertEquals(200_000, builder.build().failures());
    assertFalse(builder.build().hasIntervals());
  }

  @Test
  void columnsOfAnotherLengthAreRefused() {
    LifeData data = LifeData.builder().failedAt(1).failedAt(2).build();
    assertThrows(IllegalArgumentException.class, () -> data.withCovariate("x", new double[] {1}));
    assertThrows(
        IllegalArgumentException.class,
        () -> data.withCovariate("x", new double[] {1, Double.NaN}));
    assertThrows(IllegalArgumentException.class, () -> data.withModes(new String[] {"a", ""}));
    assertThrows(IllegalStateException.class, data::modes);
  }

  /** The README's example. */
  @Test
  void theExampleOfTheReadmeRuns() {
    LifeData data =
        LifeData.builder().failedAt(5230).failedAt(7110).runningAt(8000).times(12).build();
    LifeFit fit = LifeFitting.fit(data, LifeFamily.WEIBULL).get();
    Estimated b10 = fit.estimate(new Quantity.BLife(0.1), 0.95);
    Interval profile = fit.profileInterval(new Quantity.BLife(0.1), 0.95);
    assertTrue(profile.lower() < b10.value() && b10.value() < profile.upper());
  }
}
