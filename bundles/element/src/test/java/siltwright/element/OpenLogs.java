package siltwright.element;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.GZIPInputStream;
import siltwright.cleanliness.ViscosityLine;

/**
 * Open data: 100 runs of an air filter mat to 600 Pa at four feeds of ISO 12103-1 A3 dust, 10 Hz,
 * with the ten splits of their authors (F. Mauthe, M. Braig, P. Zeiler, Hochschule Esslingen, ESREL
 * 2022; rig in Int. J. Prognostics and Health Management 12(2), 2021, doi
 * 10.36001/ijphm.2021.v12i2.3087). Not part of the project: {@code -Dsiltwright.datasets=FOLDER}
 * says where they are, and tests are skipped without it.
 */
final class OpenLogs {
  /** What ends a run, kPa. */
  static final double LIMIT_KPA = 0.6;

  /** First sample from which the authors score a forecast, from 0. */
  static final int FIRST_SCORED = 124;

  private final Path folder;
  final Map<Integer, LoadingRun> runs = new TreeMap<>();
  final Map<Integer, double[]> left = new TreeMap<>();

  private OpenLogs(Path folder) {
    this.folder = folder;
  }

  static Path folder() {
    return Path.of(System.getProperty("siltwright.datasets", "")).resolve("hse-filter-esrel22");
  }

  static boolean present() {
    return Files.isDirectory(folder());
  }

  static OpenLogs read() {
    OpenLogs logs = new OpenLogs(folder());
    Map<Integer, List<double[]>> rows = new TreeMap<>();
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                new GZIPInputStream(Files.newInputStream(logs.folder.resolve("runs.csv.gz"))),
                StandardCharsets.US_ASCII))) {
      in.readLine();
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        double[] cells = Arrays.stream(line.split(",")).mapToDouble(Double::parseDouble).toArray();
        rows.computeIfAbsent((int) cells[0], k -> new ArrayList<>()).add(cells);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Reference none = new Reference(Double.NaN, Double.NaN, ViscosityLine.through(40, 46, 100, 6.8));
    rows.forEach(
        (run, cells) -> {
          double[] none0 = {};
          DropLog log =
              new DropLog(
                  "run-" + run,
                  column(cells, 9, 1),
                  column(cells, 2, 1e-3),
                  none0,
                  none0,
                  column(cells, 6, 1));
          logs.runs.put(run, LoadingRun.of(log, none));
          logs.left.put(run, column(cells, 10, 1));
        });
    return logs;
  }

  private static double[] column(List<double[]> cells, int column, double factor) {
    return cells.stream().mapToDouble(c -> c[column] * factor).toArray();
  }

  List<LoadingRun> of(List<Integer> numbers) {
    return numbers.stream().map(runs::get).toList();
  }

  /** Returns the run numbers of each of the ten splits: "train", "val" or "test". */
  List<List<Integer>> split(String part) {
    try {
      return Files.readAllLines(folder.resolve("splits").resolve("idx_" + part + "_10x.csv"))
          .stream()
          .filter(l -> !l.isBlank())
          .map(l -> Arrays.stream(l.split(",")).map(s -> Integer.parseInt(s.strip())).toList())
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** How forecasts fared: squared errors, cover, and errors at shares of life. */
  static final class Score {
    private double squares;
    private double covered;
    private long samples;
    final Map<Integer, List<Double>> atPercent = new TreeMap<>();

    void add(OpenLogs logs, int number, EarlierRuns earlier) {
      LoadingRun run = logs.runs.get(number);
      double[] truth = logs.left.get(number);
      double life = run.time(run.rows() - 1) + truth[truth.length - 1];
      for (int i = FIRST_SCORED; i < run.rows(); i++) {
        Remaining r = earlier.remaining(run, i).atFeed(run.feed());
        double error = r.value() - truth[i];
        squares += error * error;
        // Times are written to a tenth of a second.
        covered += truth[i] >= r.low() - 0.05 && truth[i] <= r.high() + 0.05 ? 1 : 0;
        samples++;
      }
      for (int percent : new int[] {50, 75, 90}) {
        int i = run.rows() * percent / 100;
        Remaining r = earlier.remaining(run, i).atFeed(run.feed());
        atPercent
            .computeIfAbsent(percent, k -> new ArrayList<>())
            .add(Math.abs(r.value() - truth[i]) / life);
      }
    }

    double rmse() {
      return Math.sqrt(squares / samples);
    }

    double cover() {
      return covered / samples;
    }

    long samples() {
      return samples;
    }
  }

  static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(v -> v).sorted().toArray();
    return sorted[sorted.length / 2];
  }
}
