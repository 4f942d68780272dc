package siltwright.features.hostile;

import java.util.List;
import java.util.Optional;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding;
import siltwright.analysis.ReportSection;

/** Sections of the report that do what a section must not; the good one is for comparison. */
public abstract class HostileSection implements ReportSection {
  /** Does nothing wrong. */
  public static final class GoodSection extends HostileSection {
    @Override
    public Optional<Content> content(Matter matter) {
      return Optional.of(
          new Content(
              "good",
              Place.AFTER_RESULTS,
              "Signed by hand",
              "Who answers for it.",
              List.of(new Finding(Finding.Severity.NOTE, "Seen.", "")),
              List.of(
                  new Entry.Value("results", "Results", "", Cell.of("" + matter.results().size()))),
              List.of()));
    }
  }

  /** Fails when it is asked. */
  public static final class ThrowingSection extends HostileSection {
    @Override
    public Optional<Content> content(Matter matter) {
      throw new IllegalStateException("asked to fail");
    }
  }

  /** Gives nothing, not even an empty answer. */
  public static final class NullSection extends HostileSection {
    @Override
    public Optional<Content> content(Matter matter) {
      return null;
    }
  }

  /** Never comes back. */
  public static final class LoopingSection extends HostileSection {
    private volatile boolean ends;

    @Override
    public Optional<Content> content(Matter matter) {
      while (!ends) {
        Thread.onSpinWait();
      }
      return Optional.empty();
    }
  }
}
