package siltwright.cleanliness.view;

import java.util.List;
import siltwright.analysis.Finding;
import siltwright.analysis.Numbers;
import siltwright.samples.OilRecord;
import siltwright.samples.SampleLimit;

/** What is said of a machine's samples: in a line, and in the list of findings. */
final class Verdict {
  private Verdict() {}

  /** Returns how many there are, how many are to doubt, and how the last sound one stands. */
  static String summary(MachineSamples m) {
    String last =
        m.last()
            .map(
                r ->
                    Words.of(
                        "last",
                        r.codeText(),
                        hours(r),
                        m.limits().isEmpty()
                            ? Words.of("noLimit")
                            : SampleLimit.exceeded(r, m.limits())
                                .map(l -> Words.of("overWhy", l.kind(), l.code(), l.reason()))
                                .orElse(Words.of("withinAll"))))
            .orElse(Words.of("noSound"));
    return Words.of(
        "summary",
        m.id(),
        Numbers.grouped(Numbers.text(m.samples().size())),
        Numbers.text(m.doubts().size()),
        last);
  }

  private static String hours(OilRecord r) {
    return Numbers.text(r.hours(), "h") + " h";
  }

  /** Returns which limit the last sound sample is over, a target being none to warn of. */
  static List<Finding> findings(MachineSamples m) {
    return m.last().stream()
        .flatMap(
            r ->
                SampleLimit.exceeded(r, m.limits())
                    .filter(l -> !l.kind().equals("target"))
                    .map(l -> finding(r, l))
                    .stream())
        .toList();
  }

  private static Finding finding(OilRecord r, SampleLimit l) {
    return new Finding(
        l.kind().equals("alarm") ? Finding.Severity.WARNING : Finding.Severity.CAUTION,
        Words.of("finding", r.codeText(), hours(r), l.kind(), l.code(), l.reason()),
        "limits");
  }
}
