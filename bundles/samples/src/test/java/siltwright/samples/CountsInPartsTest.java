package siltwright.samples;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.apache.commons.math3.stat.descriptive.DescriptiveStatistics;
import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;
import siltwright.cleanliness.Iso4406;

/** Sums over parts against Commons Math on all numbers in one place. */
class CountsInPartsTest {
  @Test
  void partsGiveWhatTheWholeGives() {
    Random random = new Random(5);
    SimpleRegression line = new SimpleRegression();
    DescriptiveStatistics logs = new DescriptiveStatistics();
    CountsInParts all = new CountsInParts();
    int[] numbers = new int[1000];
    for (int part = 0; part < 10; part++) {
      CountsInParts some = new CountsInParts();
      for (int i = 0; i < 100; i++) {
        double hours = 1e5 + 20_000 * random.nextDouble();
        double perMl = Math.exp(5 + 1.5 * random.nextGaussian() + hours * 1e-5);
        some.add(hours, perMl);
        line.addData(hours, Math.log(perMl) / Math.log(2));
        logs.addValue(Math.log(perMl) / Math.log(2));
        numbers[part * 100 + i] = Iso4406.scaleNumber(perMl);
      }
      all.add(some);
    }
    assertEquals(1000, all.counts());
    assertEquals(logs.getMean(), Math.log(all.geometricMeanPerMl()) / Math.log(2), 1e-12);
    assertEquals(logs.getStandardDeviation(), all.spread(), 1e-12);
    assertEquals(line.getSlope(), all.slopePerH(), 1e-10 * Math.abs(line.getSlope()));
    assertEquals(line.getSlopeStdErr(), all.slopeErrorPerH(), 1e-10 * line.getSlopeStdErr());
    Arrays.sort(numbers);
    assertEquals(numbers[499], all.scaleNumber(0.5));
    assertEquals(numbers[949], all.scaleNumber(0.95));
  }

  @Test
  void countsOfNoneAreScaleNumbersOnly() {
    CountsInParts counts = new CountsInParts();
    counts.add(10, 0);
    counts.add(20, 8);
    assertEquals(2, counts.counts());
    assertEquals(8, counts.geometricMeanPerMl(), 1e-12);
    assertEquals(Iso4406.scaleNumber(0), counts.scaleNumber(0.5));
  }
}
