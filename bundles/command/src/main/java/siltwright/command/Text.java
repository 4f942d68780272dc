package siltwright.command;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Words and lines. */
final class Text {
  private Text() {}

  /** Returns a text on one line, with nothing in it that a terminal would obey. */
  static String clean(String text) {
    return text.codePoints()
        .map(c -> Character.isISOControl(c) ? ' ' : c)
        .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
        .toString();
  }

  /** Returns how many places a text takes. */
  static int width(String text) {
    return text.codePointCount(0, text.length());
  }

  /** Returns a text with blanks behind it. */
  static String padded(String text, int width) {
    return text + " ".repeat(Math.max(0, width - width(text)));
  }

  /** Returns a text in lines of at most a width, broken between words where that can be. */
  static List<String> wrapped(String text, int width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : clean(text).trim().split(" +")) {
      if (line.length() > 0 && width(line.toString()) + 1 + width(word) > width) {
        lines.add(line.toString());
        line.setLength(0);
      }
      if (line.length() > 0) {
        line.append(' ');
      }
      String rest = word;
      while (width(rest) > width) {
        int end = rest.offsetByCodePoints(0, width);
        lines.add(rest.substring(0, end));
        rest = rest.substring(end);
      }
      line.append(rest);
    }
    lines.add(line.toString());
    return lines;
  }

  /** Returns the word that a mistyped one was most likely meant to be. */
  static Optional<String> nearest(String word, Collection<String> known) {
    return known.stream()
        .filter(k -> edits(word, k) <= Math.max(1, Math.max(word.length(), k.length()) / 2))
        .min(Comparator.comparingInt(k -> edits(word, k)));
  }

  /**
   * Counts letters added, left out, changed or swapped with the next (optimal string alignment).
   */
  private static int edits(String a, String b) {
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        if (i == 0 || j == 0) {
          d[i][j] = i + j;
          continue;
        }
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        d[i][j] = Math.min(d[i - 1][j - 1] + change, 1 + Math.min(d[i - 1][j], d[i][j - 1]));
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
        }
      }
    }
    return d[a.length()][b.length()];
  }
}
