package siltwright.fleet.internal;

import java.util.List;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Result;

/**
 * The answer of a comparison: one or two sentences, and what there is to say of each pair.
 *
 * @param text the sentences
 * @param details more of each pair, clearest first
 */
record Answer(String text, List<Entry.Value> details) {
  Answer {
    details = List.copyOf(details);
  }

  static Entry.Value detail(String name, String label, String text) {
    return new Entry.Value(name, label, "", Cell.of(text));
  }

  void addTo(Result.Builder result) {
    result.value("answer", "Answer", text);
    if (!details.isEmpty()) {
      result.add(new Entry.Group("inDetail", "In detail", details));
    }
  }

  /** Returns what stands behind a p-value in a sentence: of how many comparisons it is one. */
  static String among(int comparisons) {
    return comparisons > 1 ? ", one of " + comparisons + " comparisons" : "";
  }

  /** Returns the sentence on the pairs beside the clearest one, with a space before it. */
  static String others(int pairs, int differ) {
    if (pairs < 2 || differ == 0) {
      return "";
    }
    int rest = pairs - 1;
    int also = differ - 1;
    String others = rest == 1 ? "The other pair" : "The other " + rest + " pairs";
    if (also == 0) {
      return " " + others + " these data can't tell apart.";
    }
    return also == rest
        ? " " + others + (rest == 1 ? " differs too." : " differ too.")
        : " Of the other "
            + rest
            + " pairs "
            + also
            + (also == 1 ? " differs too." : " differ too.");
  }

  /**
   * Returns how many more hours would tell a pair apart, as the rest of a sentence.
   *
   * @param times times the hours watched that it takes
   * @param watchedH hours watched
   * @param hours what they are called
   */
  static String moreHours(double times, double watchedH, String hours) {
    return times > Distances.MOST
        ? "; a difference as small as it looks no amount of hours worth waiting for would show"
        : times <= 1
            ? "; by itself this pair would be clear, among so many it is not"
            : "; "
                + Words.rough((times - 1) * watchedH)
                + " more "
                + hours
                + " would show it in 8 of 10 cases, if it is what it looks like";
  }
}
