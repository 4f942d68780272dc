package siltwright.model.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.util.Collection;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** How values, keys and places of a file are written in a message of one line. */
final class Words {
  private static final int LONGEST = 40;
  private static final int MOST = 30;

  private Words() {}

  /** Returns a number without exponent and without needless zeros. */
  static String number(double value) {
    return new BigDecimal(Double.toString(value)).stripTrailingZeros().toPlainString();
  }

  /** Returns a value as a message names it: short, on one line. */
  static String found(JsonNode node) {
    return switch (node.getNodeType()) {
      case STRING -> quoted(node.textValue());
      case ARRAY -> "a list of " + node.size();
      case OBJECT -> "an object";
      default -> node.asText();
    };
  }

  /** Returns a text in quotes, shortened. */
  static String quoted(String text) {
    return '"' + cut(text) + '"';
  }

  /** Returns the pointer of a member of the object or list at a pointer (RFC 6901). */
  static String pointer(String parent, String key) {
    return parent + "/" + cut(key).replace("~", "~0").replace("/", "~1");
  }

  private static String cut(String text) {
    return text.codePointCount(0, text.length()) <= LONGEST
        ? text
        : text.substring(0, text.offsetByCodePoints(0, LONGEST)) + "…";
  }

  /** Returns some words for a message: all, or the first of many. */
  static String list(Collection<String> words) {
    String first = words.stream().limit(MOST).collect(Collectors.joining(", "));
    return words.size() <= MOST ? first : first + " and " + (words.size() - MOST) + " more";
  }

  /** Returns that one of some words is expected. */
  static String oneOf(Collection<String> words) {
    return words.isEmpty()
        ? "nothing, since there is none to choose"
        : words.size() == 1 ? list(words) : "one of " + list(words);
  }

  /** Returns that one of some words is expected instead of a wrong one, the nearest first. */
  static String choice(String wrong, Collection<String> words) {
    return nearest(wrong, words)
        .filter(n -> words.size() > 1)
        .map(n -> n + " (there is: " + list(words) + ")")
        .orElse(oneOf(words));
  }

  /** Returns the allowed word that a wrong one was most likely meant to be, if one is near. */
  static Optional<String> nearest(String wrong, Collection<String> allowed) {
    if (wrong.length() > LONGEST) {
      return Optional.empty();
    }
    String nearest = "";
    int least = Integer.MAX_VALUE;
    for (String word : allowed) {
      int distance = distance(plain(wrong), plain(word));
      if (distance < least) {
        least = distance;
        nearest = word;
      }
    }
    int length = plain(nearest).length();
    return least < length && least <= Math.max(1, length / 3)
        ? Optional.of(nearest)
        : Optional.empty();
  }

  private static String plain(String word) {
    return word.toLowerCase(Locale.ROOT).replace("_", "").replace("-", "");
  }

  /** Counts the letters to insert, drop or replace to get from one word to the other. */
  private static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int replaced = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(replaced, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[b.length()];
  }
}
