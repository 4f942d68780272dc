package siltwright.report.internal;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.regex.Pattern;

/** Writes elements, each closed in its turn, and texts, each escaped. The result is XML, too. */
final class Html {
  /** What XML has no place for, and marks that turn the direction of what follows. */
  private static final Pattern UNPRINTABLE =
      Pattern.compile(
          "[\\p{Cc}&&[^\\n\\t]]|[\\x{d800}-\\x{dfff}\\x{fffe}\\x{ffff}]"
              + "|[\\x{202a}-\\x{202e}\\x{2066}-\\x{2069}]");

  private final StringBuilder out = new StringBuilder();
  private final Deque<String> open = new ArrayDeque<>();

  /**
   * Begins an element.
   *
   * @param name its name
   * @param attributes names and values in turn
   */
  Html begin(String name, String... attributes) {
    start(name, attributes);
    out.append('>');
    open.push(name);
    return this;
  }

  /** Ends the element begun last. */
  Html end() {
    out.append("</").append(open.pop()).append('>');
    return this;
  }

  /** Writes an element that holds a text. */
  Html element(String name, String text, String... attributes) {
    return begin(name, attributes).text(text).end();
  }

  /** Writes an element that never holds anything. */
  Html empty(String name, String... attributes) {
    start(name, attributes);
    out.append("/>");
    return this;
  }

  /** Writes a text. */
  Html text(String text) {
    out.append(escaped(text));
    return this;
  }

  /** Writes markup as it is; for markup of our own only. */
  Html markup(String markup) {
    out.append(markup);
    return this;
  }

  /** Begins a new line, for those who read the source. */
  Html line() {
    out.append('\n');
    return this;
  }

  private void start(String name, String... attributes) {
    out.append('<').append(name);
    for (int i = 0; i < attributes.length; i += 2) {
      out.append(' ').append(attributes[i]).append("=\"");
      out.append(escaped(attributes[i + 1])).append('"');
    }
  }

  /** Returns a text that means nothing but itself. */
  static String escaped(String text) {
    return UNPRINTABLE
        .matcher(text)
        .replaceAll("\ufffd")
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;")
        .replace("'", "&#39;");
  }

  @Override
  public String toString() {
    if (!open.isEmpty()) {
      throw new IllegalStateException("not ended: " + open);
    }
    return out.toString();
  }
}
