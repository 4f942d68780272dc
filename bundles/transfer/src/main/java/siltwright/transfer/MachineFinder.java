package siltwright.transfer;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * Finds the machine of what stands in a table.
 *
 * <p>In this order: its id as it is; its serial number; its id written otherwise, with other
 * capital letters, blanks, hyphens or leading zeros, if only one machine's is that. A rule is
 * applied before.
 */
final class MachineFinder {
  private static final int LONGEST_RULE = 1000;
  private static final int MOST_LOOKS = 1_000_000;

  private final String match;
  private final Pattern from;
  private final String to;
  private final Map<String, Long> ids;
  private final Map<String, Long> serials;
  private final Map<String, Long> loose = new HashMap<>();
  private final Map<String, Long> found = new HashMap<>();

  /**
   * Makes a finder.
   *
   * @param match auto, id or serial
   * @param rule {@code REGEX=>ID}, or empty
   * @param ids numbers of machines by id
   * @param serials numbers by serial number
   */
  MachineFinder(String match, String rule, Map<String, Long> ids, Map<String, Long> serials) {
    this.match = match;
    this.from = rule.isEmpty() ? null : rule(rule);
    this.to = rule.isEmpty() ? "" : rule.substring(rule.indexOf("=>") + 2).strip();
    this.ids = ids;
    this.serials = serials;
    Set<String> twice = new HashSet<>();
    ids.forEach(
        (id, number) -> {
          if (loose.putIfAbsent(loose(id), number) != null) {
            twice.add(loose(id));
          }
        });
    loose.keySet().removeAll(twice);
  }

  static Pattern rule(String rule) {
    if (!isRule(rule)) {
      throw new InputException(
          new Problem("option", "--machine-rule", rule, "REGEX=>ID, such as Unit (\\d+)=>EX-$1"));
    }
    return Pattern.compile(rule.substring(0, rule.indexOf("=>")).strip());
  }

  static boolean isRule(String rule) {
    int at = rule.indexOf("=>");
    try {
      Pattern.compile(rule.substring(0, Math.max(0, at)).strip());
      return at > 0 && rule.length() <= LONGEST_RULE;
    } catch (PatternSyntaxException e) {
      return false;
    }
  }

  private static String loose(String id) {
    return id.toUpperCase(Locale.ROOT)
        .replaceAll("[^\\p{L}\\p{N}]", "")
        .replaceAll("(?<!\\d)0+(?=\\d)", "");
  }

  /** Returns what the rule makes of a text. */
  String ruled(String text) {
    if (from == null) {
      return text;
    }
    Matcher m = from.matcher(new Bounded(text, this::tooLong));
    try {
      return m.matches() ? m.replaceFirst(to) : text;
    } catch (IllegalArgumentException | IndexOutOfBoundsException e) {
      throw new InputException(
          new Problem("option", "--machine-rule", to, "groups that its expression has"));
    } catch (StackOverflowError e) {
      throw tooLong();
    }
  }

  private InputException tooLong() {
    return new InputException(
        new Problem(
            "option", "--machine-rule", from.pattern(), "an expression that comes to an end"));
  }

  /** A text that is looked at so often only: some expressions would take years for one. */
  private static final class Bounded implements CharSequence {
    private final String text;
    private final Supplier<InputException> tooLong;
    private int looks;

    Bounded(String text, Supplier<InputException> tooLong) {
      this.text = text;
      this.tooLong = tooLong;
    }

    @Override
    public char charAt(int i) {
      if (++looks > MOST_LOOKS) {
        throw tooLong.get();
      }
      return text.charAt(i);
    }

    @Override
    public int length() {
      return text.length();
    }

    @Override
    public CharSequence subSequence(int start, int end) {
      return text.substring(start, end);
    }

    @Override
    public String toString() {
      return text;
    }
  }

  /** Returns the number of a machine, or null if none is that. */
  Long find(String text) {
    Long number = found.get(text);
    if (number == null) {
      number = look(ruled(text));
      if (number != null) {
        found.put(text, number);
      }
    }
    return number;
  }

  private Long look(String text) {
    Long number = match.equals("serial") ? null : ids.get(text);
    if (number == null && !match.equals("id")) {
      number = serials.get(text);
    }
    return number == null && match.equals("auto") ? loose.get(loose(text)) : number;
  }

  /** Takes note of a machine that was added. */
  void added(String text, long number) {
    found.put(text, number);
    ids.put(ruled(text), number);
  }
}
