package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("Powers from tables against the JDK's")
class PowerTest {
  private static final double RIGHT_TO = 4e-11;

  @ParameterizedTest
  @ValueSource(doubles = {0.2, 0.35, 0.5, 1, 1.5, 2, 3, 4, 5.5})
  void areThoseOfTheJdk(double exponent) {
    Power power = new Power(exponent);
    for (double x = 1e-25; x < 1e25; x *= 1.0137) {
      double expected = Math.pow(x, exponent);
      assertEquals(expected, power.of(x), RIGHT_TO * expected, () -> "exponent " + exponent);
    }
  }

  @Test
  void oneStaysOne() {
    assertEquals(1, new Power(0.45).of(1));
  }

  /** Where a cell of the tables ends and the next begins. */
  @ParameterizedTest
  @ValueSource(doubles = {0x1p-64, 0x1p-1, 1, 0x1.04p0, 0x1.fcp0, 2, 0x1p63, 0x1p64})
  void goOnFromCellToCell(double x) {
    Power power = new Power(0.45);
    for (double at : new double[] {Math.nextDown(x), x, Math.nextUp(x)}) {
      double expected = Math.pow(at, 0.45);
      assertEquals(expected, power.of(at), RIGHT_TO * expected);
    }
  }
}
