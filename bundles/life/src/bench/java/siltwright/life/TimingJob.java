package siltwright.life;

import ch.randelshofer.fastdoubleparser.JavaDoubleParser;
import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.CsvReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** One timing job as a whole process: reads a CSV file, computes, prints the answer. */
public final class TimingJob {
  private TimingJob() {}

  /**
   * Runs a job.
   *
   * @param args {@code regression}, {@code survival} or {@code bootstrap}, and the file
   */
  public static void main(String[] args) throws IOException {
    LifeData data = read(Path.of(args[1]));
    switch (args[0]) {
      case "regression" -> {
        AftFit fit = AftModel.fit(data, LifeFamily.WEIBULL, List.of("code", "temp", "mob")).get();
        for (String name : fit.names()) {
          Estimated b = fit.coefficient(name, 0.95);
          print(name, b.value(), b.standardError());
        }
        print("sigma", fit.sigma(), fit.sigma() * fit.logSigmaStandardError());
      }
      case "survival" -> {
        KaplanMeier km = KaplanMeier.of(data);
        double[][] band = km.band(KaplanMeier.Band.LOG_LOG, 0.95);
        int at = Arrays.binarySearch(km.timesH(), 3000);
        int before = at >= 0 ? at : -at - 2;
        print("S(3000 h)", km.survivalAt(3000), band[0][before], band[1][before]);
      }
      case "bootstrap" -> {
        Bootstrap b = Bootstrap.of(data, LifeFamily.WEIBULL, 1000, 1, true).get();
        print("shape", b.fit().shape(), b.standardDeviation(Quantity.SHAPE));
        print("scale", b.fit().scaleH(), b.standardDeviation(Quantity.SCALE));
      }
      default -> throw new IllegalArgumentException("no job " + args[0]);
    }
  }

  private static void print(String name, double... values) {
    StringBuilder line = new StringBuilder(name);
    for (double v : values) {
      line.append(String.format(Locale.ROOT, " %.6g", v));
    }
    System.out.println(line);
  }

  private static LifeData read(Path file) throws IOException {
    Columns columns = new Columns();
    try (CsvReader<Boolean> csv = CsvReader.builder().build(columns, file)) {
      csv.forEach(row -> {});
    }
    double[] hours = columns.column(0);
    double[] event = columns.column(1);
    boolean[] failed = new boolean[hours.length];
    for (int i = 0; i < failed.length; i++) {
      failed[i] = event[i] == 1;
    }
    LifeData data = LifeData.of(hours, failed);
    for (int j = 2; j < columns.names.size(); j++) {
      data = data.withCovariate(columns.names.get(j), columns.column(j));
    }
    return data;
  }

  /** Collects a header and columns of numbers, without an object a field. */
  private static final class Columns extends AbstractBaseCsvCallbackHandler<Boolean> {
    private final List<String> names = new ArrayList<>();
    private final List<double[]> values = new ArrayList<>();
    private int rows = -1;

    @Override
    protected void handleField(int field, char[] from, int at, int length, boolean quoted) {
      if (rows < 0) {
        names.add(new String(from, at, length));
        values.add(new double[1024]);
        return;
      }
      double[] column = values.get(field);
      if (rows == column.length) {
        column = Arrays.copyOf(column, 2 * rows);
        values.set(field, column);
      }
      column[rows] = JavaDoubleParser.parseDouble(from, at, length);
    }

    @Override
    protected Boolean buildRecord() {
      rows++;
      return true;
    }

    double[] column(int j) {
      return Arrays.copyOf(values.get(j), rows);
    }
  }
}
