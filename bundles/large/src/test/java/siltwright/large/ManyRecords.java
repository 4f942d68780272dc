package siltwright.large;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import siltwright.parquet.ParquetWriter;
import siltwright.parquet.ParquetWriter.Column;
import siltwright.parquet.ParquetWriter.Kind;

/** Invented records, in a table of ours and as Parquet. */
public final class ManyRecords {
  private final List<Column> columns;
  final List<Object[]> rows = new ArrayList<>();

  private ManyRecords(String... columns) {
    this.columns =
        Arrays.stream(columns)
            .map(
                c ->
                    new Column(
                        c,
                        List.of("machine", "site", "code").contains(c) ? Kind.TEXT : Kind.NUMBER))
            .toList();
  }

  /** Lives in whole hours, at three sites, some from a late entry. */
  public static ManyRecords lives(int n) {
    Random random = new Random(1);
    ManyRecords all = new ManyRecords("hours", "event", "entry_hours", "site");
    for (int i = 0; i < n; i++) {
      double scale = 6000 + 1500 * (i % 3);
      double life = Math.ceil(scale * Math.pow(-Math.log(1 - random.nextDouble()), 1 / 1.7));
      double end = Math.ceil(10_000 * random.nextDouble());
      Double entry = i % 4 == 0 ? Math.floor(0.4 * Math.min(life, end)) : null;
      all.rows.add(
          new Object[] {
            Math.min(life, end), life <= end ? 1.0 : 0.0, entry, "site-" + "abc".charAt(i % 3)
          });
    }
    return all;
  }

  /** Events in whole hours of machines at three sites. */
  public static ManyRecords events(int machines) {
    Random random = new Random(2);
    ManyRecords all = new ManyRecords("machine", "hours", "event", "entry_hours", "cost", "site");
    for (int m = 0; m < machines; m++) {
      String site = "site-" + "abc".charAt(m % 3);
      double from = m % 5 == 0 ? 100 : 0;
      double to = from + 500 + random.nextInt(3000);
      double rate = (0.001 + 0.0004 * (m % 3)) * (0.5 + random.nextDouble());
      for (double h = from + 1; h <= to; h++) {
        if (random.nextDouble() < rate) {
          all.rows.add(new Object[] {"M" + m, h, 1.0, null, 100.0 * random.nextInt(50), site});
        }
      }
      all.rows.add(new Object[] {"M" + m, to, 0.0, from == 0 ? null : from, null, site});
    }
    return all;
  }

  /** Samples of machines at three sites, some with a code alone. */
  public static ManyRecords samples(int n) {
    Random random = new Random(4);
    ManyRecords all =
        new ManyRecords(
            "machine", "hours", "count4_per_mL", "count6_per_mL", "count14_per_mL", "code", "site");
    for (int i = 0; i < n; i++) {
      double four = Math.exp(6.5 + random.nextGaussian());
      boolean codeOnly = i % 6 == 0;
      all.rows.add(
          new Object[] {
            "M" + i % 50,
            (double) random.nextInt(20_000),
            codeOnly ? null : four,
            codeOnly ? null : four / 4,
            codeOnly ? null : four / 60,
            codeOnly ? "18/16/13" : null,
            "site-" + "abc".charAt(i % 3)
          });
    }
    return all;
  }

  /** Writes some of the rows. */
  public Path write(Path to, int from, int end) throws IOException {
    try (ParquetWriter writer = ParquetWriter.create(to, columns)) {
      for (Object[] row : rows.subList(from, Math.min(end, rows.size()))) {
        writer.row(row);
      }
      writer.finish();
    }
    return to;
  }

  /** Writes all rows. */
  public Path write(Path to) throws IOException {
    return write(to, 0, rows.size());
  }
}
