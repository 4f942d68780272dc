package siltwright.restart;

import java.nio.file.Path;
import java.util.Locale;
import java.util.SplittableRandom;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.model.json.FleetReader;

/**
 * Invents {@code demo-data/pit-counter.csv}: a counter in the line of EX-12 for 70 minutes after a
 * change that let go 6 g, a value every ten seconds, 30 s late, 15 % too high, with a volume of 3
 * nL in which two particles count as one.
 */
final class PitCounter {
  static final Path FILE = Path.of("../../demo-data/pit-counter.csv");
  static final double GRAMS = 6;

  private PitCounter() {}

  static String text() {
    Machine m = FleetReader.read(PitSamples.FLEET).fleet().machine("EX-12").orElseThrow();
    WashOut wash = WashOut.of(m);
    SplittableRandom random = new SplittableRandom(42);
    StringBuilder text =
        new StringBuilder("time,count4_per_mL,count6_per_mL,count14_per_mL,count21_per_mL\n");
    for (int i = 0; i <= 420; i++) {
      double t = i / 6.0 - 0.5;
      double[] bands = new double[SizeBands.COUNT];
      for (int j = 0; j < bands.length; j++) {
        double pulse =
            t < 0
                ? 0
                : GRAMS
                    / wash.volumeMl()
                    * wash.particlesPerG().get(j)
                    * Math.exp(-wash.ratePerMin().get(j) * t);
        bands[j] =
            1.15 * (1.2 * wash.basePerMl().get(j) + pulse) * Math.exp(0.04 * random.nextGaussian());
      }
      double[] seen = SizeBands.toCumulative(bands);
      double lost = 1 / (1 + seen[0] * 3e-6);
      text.append(
          String.format(
              Locale.ROOT,
              "%.3f,%.1f,%.1f,%.2f,%.2f%n",
              i / 6.0,
              seen[0] * lost,
              seen[1] * lost,
              seen[2] * lost,
              seen[3] * lost));
    }
    return text.toString().replace(System.lineSeparator(), "\n");
  }
}
