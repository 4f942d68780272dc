package siltwright.analysis;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The order of names in which numbers count as numbers: run-9 comes before run-10. */
public final class NaturalOrder {
  private static final Pattern PART = Pattern.compile("\\d+|\\D+");

  private NaturalOrder() {}

  /** Compares two names; equal only if they are the same text. */
  public static int compare(String a, String b) {
    Matcher left = PART.matcher(a);
    Matcher right = PART.matcher(b);
    while (left.find()) {
      if (!right.find()) {
        return 1;
      }
      int order = part(left.group(), right.group());
      if (order != 0) {
        return order;
      }
    }
    return right.find() ? -1 : a.compareTo(b);
  }

  private static int part(String a, String b) {
    if (Character.isDigit(a.charAt(0)) && Character.isDigit(b.charAt(0))) {
      String left = a.replaceFirst("^0+(?=.)", "");
      String right = b.replaceFirst("^0+(?=.)", "");
      return left.length() != right.length()
          ? Integer.compare(left.length(), right.length())
          : left.compareTo(right);
    }
    return a.compareTo(b);
  }
}
