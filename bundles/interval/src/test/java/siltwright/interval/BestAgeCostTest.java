package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.OptionalDouble;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("Cost at the best age, told between places, against age replacement itself")
class BestAgeCostTest {
  /** Shapes with and without a best age, and parts whose planned replacement is hardly cheaper. */
  @ParameterizedTest
  @CsvSource({"2.2, 500, 4000", "1.3, 500, 900", "4, 1, 1000", "0.8, 500, 4000", "2, 900, 800"})
  void isThatOfTheAgeReplacement(double shape, double planned, double failure) {
    BestAgeCost told = new BestAgeCost(shape, planned, failure);
    for (double scaleH = 300; scaleH < 1e6; scaleH *= 2.3) {
      for (double acute : new double[] {0, 1e-12, 3e-7, 1e-5, 2.7e-4, 3e-2}) {
        AgeReplacement part = new AgeReplacement(shape, scaleH, acute, planned, failure);
        OptionalDouble age = part.bestAgeH();
        double expected =
            age.isPresent() ? part.costPerH(age.getAsDouble()) : part.costAtFailurePerH();
        assertEquals(expected, told.perH(scaleH, acute), 1e-6 * expected);
      }
    }
  }
}
