package siltwright.checks.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.FlagParameter;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.checks.SealRing;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Whether an O-ring may go back into its groove. */
@Component
@Capability(namespace = "siltwright.command", name = "seal-ring")
public final class SealRingAnalysis implements Analysis {
  private static final NumberParameter ORIGINAL =
      size("original-section", 0.5, SealRing.LARGEST_SECTION_MM, "section of a new ring");
  private static final NumberParameter MEASURED =
      size(
          "section",
          0.2,
          10,
          "section measured, the ring free for half an hour; the thinnest place");
  private static final NumberParameter DEPTH =
      size(
          "groove-depth", 0.2, SealRing.LARGEST_SECTION_MM, "from the groove's bottom to the face");
  private static final NumberParameter WIDTH = size("groove-width", 0.5, 20, "width of the groove");
  private static final NumberParameter INSIDE =
      size("inside-diameter", 1, 1000, "inside diameter of a new ring");
  private static final NumberParameter SEAT =
      NumberParameter.optional(
          "seat-diameter",
          "mm",
          1,
          1000,
          "diameter that the ring is drawn onto; without it the ring counts as unstretched");
  private static final NumberParameter MOST_SET =
      NumberParameter.of(
          "most-set", "1", 0.05, 0.8, 0.4, "compression set beyond which a ring is replaced");
  private static final NumberParameter LEAST_SQUEEZE =
      NumberParameter.of(
          "least-squeeze", "1", 0.02, 0.4, 0.1, "squeeze below which a ring is replaced");
  private static final FlagParameter CUT =
      new FlagParameter("cut", "the ring shows a cut, nick or crack");
  private static final FlagParameter FLAT =
      new FlagParameter("flat", "the ring shows a flat that can be felt");
  private static final double LEAST_SQUEEZE_MM = 0.2;
  private static final double MOST_STRETCH = 0.05;
  private static final double MOST_FILL = 0.9;

  private static final Description DESCRIPTION =
      Description.of(
          "seal-ring",
          "O-ring: back into its groove?",
          "Tells from its section whether a used O-ring still seals, or is to be replaced.",
          Scope.NONE,
          ORIGINAL,
          MEASURED,
          DEPTH,
          WIDTH,
          INSIDE,
          SEAT,
          MOST_SET,
          LEAST_SQUEEZE,
          CUT,
          FLAT);

  private static NumberParameter size(String name, double low, double high, String meaning) {
    return new NumberParameter(name, "mm", low, high, Optional.empty(), true, meaning);
  }

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    SealRing ring = ring(values);
    List<String> reasons = reasons(ring, values);
    boolean replace = !reasons.isEmpty();
    double[] set = ring.setRange();
    Result.Builder result =
        Result.of(DESCRIPTION, "", values)
            .value("verdict", "Verdict", replace ? "replace" : "may go back")
            .value("compressionSet", "Compression set", "1", ring.set())
            .add(
                new Entry.Value(
                    "compressionSetRange",
                    "Within the tolerance of a new section",
                    "1",
                    new Cell.Range(set[0], set[1])))
            .value("squeezeNew", "Squeeze of a new ring", "1", ring.squeezeNew())
            .value("squeezeNow", "Squeeze left, of the section", "1", ring.squeezeNow())
            .value("squeezeNow_mm", "Squeeze left", "mm", ring.squeezeNowMm())
            .value("stretch", "Stretch on its seat", "1", ring.stretch())
            .value("fill", "Fill of the groove by a new ring", "1", ring.fill());
    for (String reason : reasons) {
      result.finding(WARNING, "Replace: " + reason + ".", "section");
    }
    if (!replace && set[1] > values.get(MOST_SET)) {
      result.finding(
          CAUTION,
          "The tolerance of a new section (±"
              + Numbers.text(ring.toleranceMm())
              + " mm) leaves a set of up to "
              + Numbers.text(set[1])
              + " open: when in doubt, replace.",
          "original-section");
    }
    if (ring.fill() > MOST_FILL) {
      result.finding(
          CAUTION,
          "A new ring would fill more than 90 % of the groove: oil and heat make it swell. Is it"
              + " the right ring?",
          "groove-width");
    }
    result.finding(
        NOTE,
        "A seal costs little beside a leak: a ring that is at hand is fitted new, and always where"
            + " the maker's manual says so. Limits of set and squeeze are common practice, no"
            + " source.",
        "");
    result.finding(NOTE, Cautions.MANUAL, "");
    return result.build();
  }

  private static SealRing ring(Values values) {
    double inside = values.get(INSIDE);
    try {
      return new SealRing(
          values.get(ORIGINAL),
          values.get(MEASURED),
          values.get(DEPTH),
          values.get(WIDTH),
          inside,
          values.find(SEAT).orElse(inside));
    } catch (IllegalArgumentException e) {
      throw new InputException(
          new Problem(
              "option", "--groove-depth", Numbers.text(values.get(DEPTH)) + " mm", e.getMessage()));
    }
  }

  private static List<String> reasons(SealRing ring, Values values) {
    List<String> reasons = new ArrayList<>();
    if (values.get(CUT)) {
      reasons.add("cut, nicked or cracked");
    }
    if (values.get(FLAT)) {
      reasons.add("a flat that can be felt");
    }
    if (ring.set() > values.get(MOST_SET)) {
      reasons.add(
          "set " + Numbers.text(ring.set()) + ", more than " + Numbers.text(values.get(MOST_SET)));
    }
    if (ring.squeezeNow() < values.get(LEAST_SQUEEZE)) {
      reasons.add(
          "squeeze left "
              + Numbers.text(ring.squeezeNow())
              + ", less than "
              + Numbers.text(values.get(LEAST_SQUEEZE)));
    }
    if (ring.squeezeNowMm() < LEAST_SQUEEZE_MM) {
      reasons.add("squeeze left " + Numbers.text(ring.squeezeNowMm()) + " mm, less than 0.2 mm");
    }
    if (ring.stretch() > MOST_STRETCH) {
      reasons.add("stretched by more than 5 % on its seat: the wrong ring, or grown");
    }
    return reasons;
  }
}
