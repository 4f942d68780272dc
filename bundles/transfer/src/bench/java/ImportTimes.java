import java.io.BufferedWriter;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * Times the import of a million rows of samples into an empty store, and by turns the database's
 * own importer on the same file: {@code java bundles/transfer/src/bench/java/ImportTimes.java
 * features/target/siltwright.jar 3}. What it gave: docs/benchmarks-store.md.
 */
public final class ImportTimes {
  private static final int ROWS = 1_000_000;

  private ImportTimes() {}

  /** A process that has ended: wall and processor time, s; most memory, MiB. */
  private record Run(double wallS, double cpuS, double mostMiB) {}

  /** Takes the program's jar and the number of rounds. */
  public static void main(String[] arguments) throws Exception {
    Path folder = Files.createTempDirectory("import-times");
    Path table = table(folder.resolve("samples.csv"));
    System.out.printf(Locale.ROOT, "%d rows, %.1f MB%n", ROWS, Files.size(table) / 1e6);
    List<Double> wall = new ArrayList<>();
    List<Double> cpu = new ArrayList<>();
    for (int i = 0; i < Integer.parseInt(arguments[1]); i++) {
      Path store = folder.resolve("store" + i + ".db");
      Path bare = folder.resolve("bare" + i + ".db");
      Run own =
          run(
              "java",
              "-Xmx256m",
              "-jar",
              arguments[0],
              "import",
              table.toString(),
              "--store",
              store.toString(),
              "--add-machines");
      Run theirs =
          run("sqlite3", bare.toString(), "-cmd", ".mode csv", ".import " + table + " samples");
      wall.add(own.wallS() / theirs.wallS());
      cpu.add(own.cpuS() / theirs.cpuS());
      System.out.printf(
          Locale.ROOT,
          "import %.1f s (processor %.1f s), %.0f MiB; sqlite3 %.1f s (processor %.1f s);"
              + " ratio %.1f, of processor time %.1f%n",
          own.wallS(),
          own.cpuS(),
          own.mostMiB(),
          theirs.wallS(),
          theirs.cpuS(),
          wall.get(i),
          cpu.get(i));
      Files.delete(store);
      Files.delete(bare);
    }
    Collections.sort(wall);
    Collections.sort(cpu);
    System.out.printf(
        Locale.ROOT,
        "median ratio %.1f, of processor time %.1f%n",
        wall.get(wall.size() / 2),
        cpu.get(cpu.size() / 2));
    Files.delete(table);
    Files.delete(folder);
  }

  private static Path table(Path file) throws IOException {
    SplittableRandom random = new SplittableRandom(7);
    try (BufferedWriter out = Files.newBufferedWriter(file)) {
      out.write(
          "machine,date,meter_h,sample_no,oil_h,count4_per_mL,count6_per_mL,count14_per_mL,code,"
              + "water_ppm,viscosity40_mm2_per_s,iron_ppm,silicon_ppm\n");
      for (int i = 0; i < ROWS; i++) {
        int machine = i % 500;
        int day = i / 500;
        out.write(
            String.format(
                Locale.ROOT,
                "EX-%03d,%04d-%02d-%02d,%.1f,L%07d,%d,%.1f,%.1f,%.1f,%d/%d/%d,%d,%.1f,%.1f,%.1f%n",
                machine,
                2019 + day / 330,
                1 + day % 330 / 28,
                1 + day % 330 % 28,
                day * 9 + machine + random.nextDouble(),
                i,
                day % 400 * 10,
                200 + 4800 * random.nextDouble(),
                50 + 850 * random.nextDouble(),
                1 + 39 * random.nextDouble(),
                15 + random.nextInt(5),
                13 + random.nextInt(4),
                9 + random.nextInt(5),
                60 + random.nextInt(240),
                44 + 3 * random.nextDouble(),
                1 + 29 * random.nextDouble(),
                1 + 14 * random.nextDouble()));
      }
    }
    return file;
  }

  private static Run run(String... command) throws IOException, InterruptedException {
    long begun = System.nanoTime();
    Process process =
        new ProcessBuilder(command)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    File about = new File("/proc/" + process.pid());
    double cpuS = 0;
    double mostMiB = 0;
    while (process.isAlive()) {
      try {
        String stat = Files.readString(about.toPath().resolve("stat"));
        String[] fields = stat.substring(stat.lastIndexOf(')') + 2).split(" ");
        cpuS = (Long.parseLong(fields[11]) + Long.parseLong(fields[12])) / 100.0;
        for (String line : Files.readAllLines(about.toPath().resolve("status"))) {
          if (line.startsWith("VmHWM:")) {
            mostMiB = Double.parseDouble(line.replaceAll("\\D", "")) / 1024;
          }
        }
      } catch (IOException | RuntimeException e) {
        // it has just ended
      }
      Thread.sleep(20);
    }
    if (process.exitValue() != 0) {
      throw new IllegalStateException(command[0] + " failed");
    }
    return new Run((System.nanoTime() - begun) / 1e9, cpuS, mostMiB);
  }
}
