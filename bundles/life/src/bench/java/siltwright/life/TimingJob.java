package siltwright.life;

import ch.randelshofer.fastdoubleparser.JavaDoubleParser;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.nio.file.Path;
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
    try (CsvReader<CsvRecord> csv = CsvReader.builder().ofCsvRecord(file)) {
      var records = csv.iterator();
      List<String> header = records.next().getFields();
      double[][] columns = new double[header.size()][1024];
      int n = 0;
      while (records.hasNext()) {
        CsvRecord row = records.next();
        if (n == columns[0].length) {
          for (int j = 0; j < columns.length; j++) {
            columns[j] = Arrays.copyOf(columns[j], 2 * n);
          }
        }
        for (int j = 0; j < columns.length; j++) {
          columns[j][n] = JavaDoubleParser.parseDouble(row.getField(j));
        }
        n++;
      }
      boolean[] failed = new boolean[n];
      for (int i = 0; i < n; i++) {
        failed[i] = columns[1][i] == 1;
      }
      LifeData data = LifeData.of(Arrays.copyOf(columns[0], n), failed);
      for (int j = 2; j < columns.length; j++) {
        data = data.withCovariate(header.get(j), Arrays.copyOf(columns[j], n));
      }
      return data;
    }
  }
}
