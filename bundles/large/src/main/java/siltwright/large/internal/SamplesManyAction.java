package siltwright.large.internal;

import java.util.ArrayList;
import java.util.List;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Action;
import siltwright.analysis.Cell;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.cleanliness.ReportedCode;
import siltwright.large.ManySamples;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.SizeBands;
import siltwright.samples.CountsInParts;
import siltwright.wide.BackEnd;

/** What oil samples that do not fit in memory come to. */
@Component
@Capability(namespace = "siltwright.command", name = "samples-many")
public final class SamplesManyAction implements Action {
  private static final int[] SIZES = {4, 6, 14, 21, 38, 70};
  private static final TextParameter TARGET =
      TextParameter.optional(
          "target", "a code such as 18/16/13", "code of ISO 4406 that samples are held against");
  private static final Description DESCRIPTION =
      Settings.describe(
          "samples-many",
          "Very many oil samples",
          "How clean is the oil, how does it spread and change, by samples that do not fit in"
              + " memory?",
          Settings.BY,
          TARGET);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public String file() {
    return "Oil records (Parquet, or a folder of such files) with the columns that samples takes;"
        + " samples in running are summed up.";
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    String target = values.find(TARGET).orElse("");
    try {
      if (!target.isEmpty() && ReportedCode.parse(target).code().isEmpty()) {
        throw new IllegalArgumentException(TARGET.form());
      }
    } catch (IllegalArgumentException e) {
      throw new InputException(new Problem("option", "--target", target, TARGET.form()));
    }
    try (BackEnd backEnd = Settings.backEnd(values)) {
      return told(
          ManySamples.of(
              Settings.source(file),
              values.find(Settings.BY).orElse(""),
              target,
              Settings.together(values),
              backEnd,
              progress),
          values);
    }
  }

  private static Result told(ManySamples samples, Values values) {
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    result.rows(samples.rows());
    List<List<Cell>> rows = new ArrayList<>();
    samples
        .groups()
        .forEach(
            (name, group) -> {
              for (int i = 0; i < SizeBands.COUNT; i++) {
                if (group.size(i).counts() > 0) {
                  rows.add(row(name, SIZES[i], group.size(i)));
                }
              }
            });
    result.add(
        new Entry.Table(
            "counts",
            "Counts",
            Entry.Use.READ,
            List.of(
                new Entry.Column("group", "Group", ""),
                new Entry.Column("size_um_c", "At or above", "µm(c)"),
                new Entry.Column("samples", "Samples", "1"),
                new Entry.Column("mean_per_mL", "Geometric mean", "1/mL"),
                new Entry.Column("spread", "Spread, scale numbers", "1"),
                new Entry.Column("median", "Scale number, 50 % up to", "1"),
                new Entry.Column("high", "Scale number, 95 % up to", "1"),
                new Entry.Column("slope_per_1000h", "Scale numbers gained", "1/1000 h"),
                new Entry.Column("slopeError_per_1000h", "Its error", "1/1000 h")),
            rows));
    if (values.find(TARGET).isPresent()) {
      within(result, samples);
    }
    if (samples.leftOut() > 0) {
      result.value("leftOut", "Rows that are no samples in running", "1", samples.leftOut());
    }
    Settings.leftOut(result, samples.rows(), "counts");
    return result.build();
  }

  private static List<Cell> row(String name, int size, CountsInParts counts) {
    return List.of(
        Settings.group(name),
        Cell.of(size),
        Cell.of(counts.counts()),
        Cell.of(counts.geometricMeanPerMl()),
        Cell.of(counts.spread()),
        Cell.of(counts.scaleNumber(0.5)),
        Cell.of(counts.scaleNumber(0.95)),
        Cell.of(1000 * counts.slopePerH()),
        Cell.of(1000 * counts.slopeErrorPerH()));
  }

  private static void within(Result.Builder result, ManySamples samples) {
    List<List<Cell>> rows = new ArrayList<>();
    samples
        .groups()
        .forEach(
            (name, group) ->
                rows.add(
                    List.of(
                        Settings.group(name),
                        Cell.of(group.judged()),
                        Cell.of(100.0 * group.within() / group.judged()))));
    result.add(
        new Entry.Table(
            "within",
            "Samples within the target",
            Entry.Use.READ,
            List.of(
                new Entry.Column("group", "Group", ""),
                new Entry.Column("samples", "Samples", "1"),
                new Entry.Column("within_pct", "Within", "%")),
            rows));
  }
}
