package siltwright.plan.files.internal;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;

/**
 * Lines of a calendar as RFC 5545 wants them: texts escaped (3.3.11), lines of at most 75 octets,
 * longer ones folded without cutting a character (3.1), each ended by CR and LF.
 */
final class CalendarText {
  private static final int LONGEST = 75;
  private static final DateTimeFormatter DATE = DateTimeFormatter.BASIC_ISO_DATE;

  private final StringBuilder out = new StringBuilder();

  /** Adds a line whose value is of no text, such as a date. */
  CalendarText line(String name, String value) {
    fold(name + ":" + value);
    return this;
  }

  /** Adds a line with a text. */
  CalendarText text(String name, String text) {
    return line(name, escaped(text));
  }

  /** Adds a line with a whole day. */
  CalendarText day(String name, LocalDate day) {
    return line(name + ";VALUE=DATE", DATE.format(day));
  }

  /** Adds a line with the midnight at which a day begins, universal time. */
  CalendarText midnight(String name, LocalDate day) {
    return line(name, DATE.format(day) + "T000000Z");
  }

  private static String escaped(String text) {
    StringBuilder escaped = new StringBuilder();
    text.lines()
        .forEach(
            l ->
                escaped
                    .append(escaped.length() == 0 ? "" : "\\n")
                    .append(
                        l.replace("\\", "\\\\")
                            .replace(";", "\\;")
                            .replace(",", "\\,")
                            .replaceAll("\\p{Cntrl}", " ")));
    return escaped.toString();
  }

  private void fold(String line) {
    int octets = 0;
    for (int i = 0; i < line.length(); ) {
      int c = line.codePointAt(i);
      String character = Character.toString(c);
      int size = character.getBytes(StandardCharsets.UTF_8).length;
      if (octets + size > LONGEST) {
        out.append("\r\n ");
        octets = 1;
      }
      out.append(character);
      octets += size;
      i += Character.charCount(c);
    }
    out.append("\r\n");
  }

  @Override
  public String toString() {
    return out.toString();
  }
}
