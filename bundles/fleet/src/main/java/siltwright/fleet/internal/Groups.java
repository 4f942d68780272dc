package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import siltwright.analysis.Numbers;
import siltwright.analysis.Records;
import siltwright.life.Covariate;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Groups of machines or components.
 *
 * @param names names, the one that others are compared with first
 * @param codes group of each
 * @param reference whether the first is what all others are compared with, and not each with each
 */
record Groups(List<String> names, int[] codes, boolean reference) {
  /** Most groups that can be told apart in a comparison. */
  static final int MOST = 200;

  /** Most pairs of groups that are compared each with each. */
  private static final int MOST_EACH = 8;

  /**
   * A pair to compare.
   *
   * @param first its first group
   * @param second its second
   */
  record Pair(int first, int second) {}

  /**
   * Makes groups.
   *
   * @param texts value of each
   * @param numbers value of each as a number, where they are to be cut
   * @throws InputException if there are fewer than two groups, too many, or the reference is none
   */
  static Groups of(List<String> texts, Optional<double[]> numbers, Settings s, Records table) {
    List<String> names;
    int[] codes;
    if (numbers.isPresent()) {
      names = new ArrayList<>();
      for (int k = 0; k <= s.cuts().size(); k++) {
        names.add(cutName(s.cuts(), k));
      }
      codes =
          Arrays.stream(numbers.get())
              .mapToInt(v -> (int) s.cuts().stream().filter(c -> v >= c).count())
              .toArray();
      boolean[] there = new boolean[names.size()];
      Arrays.stream(codes).forEach(c -> there[c] = true);
      int[] place = new int[names.size()];
      List<String> used = new ArrayList<>();
      for (int k = 0; k < there.length; k++) {
        place[k] = used.size();
        if (there[k]) {
          used.add(names.get(k));
        }
      }
      names = used;
      codes = Arrays.stream(codes).map(c -> place[c]).toArray();
    } else {
      Covariate.Categorical levels = MachineValues.levels(texts);
      names = levels.levels();
      codes = levels.codes();
    }
    if (names.size() < 2 || names.size() > MOST) {
      throw new InputException(
          new Problem(
              table.source(),
              "column " + s.by(),
              names.size() == 1 ? "only " + names.get(0) : names.size() + " values",
              "from 2 to "
                  + MOST
                  + " groups"
                  + (numbers.isEmpty() ? "; --cut makes few of numbers" : "")));
    }
    if (s.reference().isEmpty()) {
      return new Groups(List.copyOf(names), codes, names.size() > MOST_EACH);
    }
    int first = names.indexOf(s.reference().get());
    if (first < 0) {
      throw CompareAnalysis.fault(
          "--reference", s.reference().get(), "one of " + String.join(", ", names));
    }
    List<String> ordered = new ArrayList<>(names);
    ordered.add(0, ordered.remove(first));
    List<String> before = names;
    int[] place = before.stream().mapToInt(ordered::indexOf).toArray();
    return new Groups(
        List.copyOf(ordered), Arrays.stream(codes).map(c -> place[c]).toArray(), true);
  }

  private static String cutName(List<Double> cuts, int k) {
    if (cuts.isEmpty()) {
      return "all";
    }
    return k == 0
        ? "below " + Numbers.text(cuts.get(0))
        : k == cuts.size()
            ? "from " + Numbers.text(cuts.get(k - 1))
            : Numbers.text(cuts.get(k - 1)) + " to " + Numbers.text(cuts.get(k));
  }

  /** Returns the pairs to compare: each group but the reference with it, or each with each. */
  List<Pair> pairs() {
    List<Pair> pairs = new ArrayList<>();
    for (int a = 0; a < names.size(); a++) {
      for (int b = a + 1; b < names.size(); b++) {
        if (!reference || a == 0) {
          // The reference stands second: the others are told against it.
          pairs.add(reference ? new Pair(b, a) : new Pair(a, b));
        }
      }
    }
    return pairs;
  }

  Covariate.Categorical covariate() {
    return new Covariate.Categorical(names, codes);
  }

  int[] members(int group) {
    return IntStream.range(0, codes.length).filter(i -> codes[i] == group).toArray();
  }
}
