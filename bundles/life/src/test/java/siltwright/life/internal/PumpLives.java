package siltwright.life.internal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * Invents the demonstration records {@code demo-data/pump-lives.csv}: 60 pumps of three pits, no
 * real machine among them.
 *
 * <p>Truth behind them: Weibull of shape 2.2; scale 9000 h in oil of 16 at 6 µm(c), times 2^-0.4
 * for each code number more (exponent 0.4); one failure in five is a seizure, the others wear; the
 * pit decides the oil and mostly the way to change the element, which has no effect of its own;
 * nine in twenty or so are taken out or still run; one in seven was old when watching began.
 */
final class PumpLives {
  static final Path FILE = Path.of("../../demo-data/pump-lives.csv");
  static final double SHAPE = 2.2;
  static final double EXPONENT = 0.4;
  static final double SCALE_AT_16_H = 9000;

  private static final long SEED = 3;
  private static final int PUMPS = 60;
  private static final List<String> PITS = List.of("Dusthollow", "Frostmarrow", "Loamquell");
  private static final double[] MEAN_CODE = {19.2, 17, 18};

  private PumpLives() {}

  /** Returns the file's text. */
  static String text() {
    SplittableRandom random = new SplittableRandom(SEED);
    StringBuilder csv =
        new StringBuilder("machine,hours,event,entry_hours,mode,code,depot,procedure\n");
    for (int i = 0; i < PUMPS; i++) {
      int pit = i % PITS.size();
      int at6 =
          (int)
              Math.rint(
                  MEAN_CODE[pit] + 4 * (random.nextDouble() - 0.5) + random.nextDouble() - 0.5);
      String code = (at6 + 2 + random.nextInt(2)) + "/" + at6 + "/" + (at6 - 3 - random.nextInt(2));
      boolean pulled = random.nextDouble() < (pit == 0 ? 0.9 : pit == 1 ? 0.1 : 0.5);
      double scale = SCALE_AT_16_H * Math.pow(2, -EXPONENT * (at6 - 16));
      double life = scale * Math.pow(-Math.log(1 - random.nextDouble()), 1 / SHAPE);
      double end = 1000 + 5500 * random.nextDouble();
      double entry = random.nextDouble() < 0.14 ? 500 + 1000 * random.nextDouble() : 0;
      boolean seized = random.nextDouble() < 0.2;
      boolean failed = life <= end;
      long hours = Math.round(Math.min(life, end));
      boolean late = entry > 0 && entry < hours - 1;
      csv.append(PITS.get(pit).charAt(0))
          .append(String.format(Locale.ROOT, "%02d", i / PITS.size() + 1));
      csv.append(',').append(hours).append(',').append(failed ? 1 : 0).append(',');
      csv.append(late ? Long.toString(Math.round(entry)) : "").append(',');
      csv.append(failed ? (seized ? "seizure" : "wear") : "").append(',').append(code).append(',');
      csv.append(PITS.get(pit))
          .append(',')
          .append(pulled ? "pull-in-place" : "lift-out")
          .append('\n');
    }
    return csv.toString();
  }

  /** Writes the file anew. */
  public static void main(String[] args) throws IOException {
    Files.writeString(FILE, text());
  }
}
