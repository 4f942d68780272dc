package siltwright.life;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Writes the records of the timing jobs as CSV files: hours, event, and covariates. */
public final class WriteTimingFiles {
  private WriteTimingFiles() {}

  /**
   * Writes {@code regression.csv}, {@code survival.csv} and {@code bootstrap.csv}.
   *
   * @param args the folder
   */
  public static void main(String[] args) throws IOException {
    Path folder = Files.createDirectories(Path.of(args[0]));
    write(folder.resolve("regression.csv"), TimingRecords.regression());
    write(folder.resolve("survival.csv"), TimingRecords.survival());
    write(folder.resolve("bootstrap.csv"), TimingRecords.bootstrap());
  }

  private static void write(Path file, LifeData data) throws IOException {
    List<double[]> covariates = new ArrayList<>();
    List<String> header = new ArrayList<>(List.of("hours", "event"));
    data.covariates()
        .forEach(
            (name, column) -> {
              header.add(name);
              covariates.add(((Covariate.Numeric) column).values());
            });
    try (CsvWriter csv = CsvWriter.builder().build(file)) {
      csv.writeRecord(header);
      for (int i = 0; i < data.rows(); i++) {
        List<String> row = new ArrayList<>(header.size());
        row.add(Double.toString(data.lowerH(i)));
        row.add(data.failed(i) ? "1" : "0");
        for (double[] column : covariates) {
          row.add(Double.toString(column[i]));
        }
        csv.writeRecord(row);
      }
    }
  }
}
