package siltwright.wide.spark;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Progress;
import siltwright.batch.TuneMany;
import siltwright.fleet.EventsInParts;
import siltwright.interval.Tuning;
import siltwright.large.ManyEvents;
import siltwright.large.ManyLives;
import siltwright.large.ManyRecords;
import siltwright.large.ManySamples;
import siltwright.life.LifeFamily;
import siltwright.model.InputException;
import siltwright.model.json.Extensions;
import siltwright.parquet.ParquetWriter;
import siltwright.wide.BackEnd;
import siltwright.wide.Cluster;
import siltwright.wide.ClusterPlace;
import siltwright.wide.Local;

/** A real cluster, on this computer's loopback address: a master and two workers. */
class ClusterIT {
  private static final Path FLEET = Path.of("../../demo-data/three-pits.json");
  private static final int MACHINES = 1600;

  @TempDir static Path folder;

  private static Path machines() throws Exception {
    Path table = folder.resolve("machines.parquet");
    try (ParquetWriter writer =
        ParquetWriter.create(
            table,
            List.of(
                new ParquetWriter.Column("machine", ParquetWriter.Kind.TEXT),
                new ParquetWriter.Column("like", ParquetWriter.Kind.TEXT),
                new ParquetWriter.Column("today/interval_h", ParquetWriter.Kind.NUMBER)))) {
      for (int i = 0; i < MACHINES; i++) {
        String like = List.of("EX-31", "WL-21", "WL-22").get(i % 3);
        // one that is at fault comes back as a row with its reason, from there as from here
        writer.row(new Object[] {"M" + i, i == 123 ? "nothing" : like, 200.0 + i % 1000});
      }
      writer.finish();
    }
    return table;
  }

  private static Path tune(String name, BackEnd on, Progress progress) throws Exception {
    Path to = folder.resolve(name);
    try (on) {
      TuneMany.run(
          new TuneMany.Task(
              folder.resolve("machines.parquet"),
              FLEET,
              Extensions.of(List::of, List::of, List::of),
              to,
              false,
              new Tuning.Settings(4000, 0, 1),
              on),
          progress);
    }
    return to;
  }

  @Test
  void aWorkerIsKilledAndTheResultIsTheSameToTheBit() throws Exception {
    machines();
    Path here = tune("here.parquet", new Local(2, 64), Progress.NONE);
    try (ClusterProcesses cluster = new ClusterProcesses(folder, 2)) {
      boolean[] killed = new boolean[1];
      double[] at = new double[1];
      Path there =
          tune(
              "there.parquet",
              new Cluster(cluster.place(), 64),
              (share, doing) -> {
                if (!killed[0]
                    && doing.contains("machines")
                    && doing.matches("[1-9].*")
                    && cluster.workers.stream().allMatch(w -> w.descendants().count() > 0)) {
                  killed[0] = true;
                  at[0] = share;
                  secretIsInNoCommandLine(cluster);
                  cluster.kill(0);
                }
                return true;
              });
      assertTrue(killed[0]);
      assertFalse(cluster.workers.get(0).isAlive());
      assertEquals(-1, Files.mismatch(here, there));
      recordsComeToTheSame(cluster);
      nothingIsOpenToOthers(cluster);
    }
  }

  @Test
  void sparksLocalModeGivesTheSameToTheBit() throws Exception {
    machines();
    Path here = tune("alone.parquet", new Local(2, 64), Progress.NONE);
    try (LocalMode local = new LocalMode(2, folder.resolve("local-mode.log"))) {
      assertEquals(-1, Files.mismatch(here, tune("local.parquet", local, Progress.NONE)));
      assertEquals(1, local.processes());
    }
  }

  /** Fits, comparisons and sums of samples: the same from there as from here. */
  private static void recordsComeToTheSame(ClusterProcesses cluster) throws Exception {
    Path lives = ManyRecords.lives(3000).write(folder.resolve("lives.parquet"));
    Path events = ManyRecords.events(200).write(folder.resolve("events.parquet"));
    Path samples = ManyRecords.samples(3000).write(folder.resolve("samples.parquet"));
    List<List<String>> told = new ArrayList<>();
    for (BackEnd on : List.of(new Local(2, 4), new Cluster(cluster.place(), 64))) {
      try (on) {
        ManyLives fits =
            ManyLives.of(lives, "site", List.of(LifeFamily.values()), 1, 400, on, Progress.NONE);
        EventsInParts rates =
            ManyEvents.of(events, "site", 1, Double.NaN, 100, on, Progress.NONE).events();
        ManySamples counts = ManySamples.of(samples, "site", "18/16/13", 500, on, Progress.NONE);
        List<String> numbers = new ArrayList<>();
        fits.groups()
            .forEach(
                (name, group) ->
                    group
                        .fits()
                        .forEach(
                            (law, fit) ->
                                numbers.add(
                                    name + law + fit.get().scaleH() + " " + fit.get().aic())));
        numbers.add(fits.alike().toString() + fits.logRank().orElseThrow().test());
        rates.groups().forEach(g -> numbers.add(rates.sums(g) + " " + rates.meanVariance(g)));
        numbers.add(rates.alike().toString());
        counts
            .groups()
            .forEach(
                (name, group) ->
                    numbers.add(
                        name
                            + group.within()
                            + " "
                            + group.size(0).spread()
                            + " "
                            + group.size(0).slopeErrorPerH()));
        told.add(numbers);
      }
    }
    assertEquals(told.get(0), told.get(1));
  }

  private static void secretIsInNoCommandLine(ClusterProcesses cluster) {
    // of the cluster, of what works on it, and of the process that drives it
    Stream.concat(cluster.all().stream(), ProcessHandle.current().descendants())
        .forEach(
            p -> {
              String line = p.info().commandLine().orElse("");
              assertFalse(line.contains(cluster.secretText), line);
            });
  }

  /** Every port that a process of the cluster listens at is one of loopback, and serves no page. */
  private static void nothingIsOpenToOthers(ClusterProcesses cluster) throws Exception {
    int pages = 0;
    HttpClient client = HttpClient.newHttpClient();
    for (ProcessHandle p : cluster.all()) {
      for (Listening l : Listening.of(p.pid())) {
        assertTrue(l.loopback(), l.toString());
        try {
          HttpResponse<String> page =
              client.send(
                  HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + l.port() + "/"))
                      .timeout(java.time.Duration.ofSeconds(10))
                      .build(),
                  HttpResponse.BodyHandlers.ofString());
          assertEquals(403, page.statusCode(), l.toString());
          pages++;
        } catch (java.io.IOException e) {
          // no server of pages
        }
      }
    }
    assertTrue(pages >= 2, pages + " servers of pages, expected those of master and worker");
  }

  @Test
  void whatIsNotThereIsToldInALine() throws Exception {
    Path secret = Files.writeString(folder.resolve("open"), "sixteen characters and more");
    Files.setPosixFilePermissions(secret, PosixFilePermissions.fromString("rw-r--r--"));
    told("--secret", new ClusterPlace("spark://127.0.0.1:9", ClusterProcesses.KIT, secret));
    Files.setPosixFilePermissions(secret, PosixFilePermissions.fromString("rw-------"));
    told("--kit", new ClusterPlace("spark://127.0.0.1:9", folder, secret));
    told("--on", new ClusterPlace("spark://127.0.0.1:9", ClusterProcesses.KIT, secret));
  }

  private static void told(String option, ClusterPlace place) {
    String line = assertThrows(InputException.class, () -> new Cluster(place, 8)).getMessage();
    assertTrue(line.startsWith("option " + option + ": found "), line);
  }
}
