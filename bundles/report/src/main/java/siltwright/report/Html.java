package siltwright.report;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayDeque;
import java.util.Base64;
import java.util.Deque;
import java.util.regex.Pattern;

/** Writes elements, each closed in its turn, and texts, each escaped. The result is XML, too. */
public final class Html {
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
  public Html begin(String name, String... attributes) {
    start(name, attributes);
    out.append('>');
    open.push(name);
    return this;
  }

  /** Ends the element begun last. */
  public Html end() {
    out.append("</").append(open.pop()).append('>');
    return this;
  }

  /** Writes an element that holds a text. */
  public Html element(String name, String text, String... attributes) {
    return begin(name, attributes).text(text).end();
  }

  /** Writes an element that never holds anything. */
  public Html empty(String name, String... attributes) {
    start(name, attributes);
    out.append("/>");
    return this;
  }

  /** Writes a text. */
  public Html text(String text) {
    out.append(escaped(text));
    return this;
  }

  /** Writes markup as it is; for markup of our own only. */
  public Html markup(String markup) {
    out.append(markup);
    return this;
  }

  /** Begins a new line, for those who read the source. */
  public Html line() {
    out.append('\n');
    return this;
  }

  /**
   * Begins a page that fetches nothing and runs nothing: its charset, and a policy that lets a
   * browser use but the one style sheet. What else belongs into the head comes after it.
   *
   * @param style the style sheet, as {@link #style} will write it
   */
  public Html head(String style) {
    empty("meta", "charset", "utf-8").line();
    String policy = "default-src 'none'; style-src 'sha256-" + sha256(style) + "'";
    return empty("meta", "http-equiv", "Content-Security-Policy", "content", policy).line();
  }

  /** Writes a style sheet of our own. */
  public Html style(String style) {
    return begin("style").markup(style).end().line();
  }

  private static String sha256(String text) {
    try {
      byte[] sum =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return Base64.getEncoder().encodeToString(sum);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  private void start(String name, String... attributes) {
    out.append('<').append(name);
    for (int i = 0; i < attributes.length; i += 2) {
      out.append(' ').append(attributes[i]).append("=\"");
      out.append(escaped(attributes[i + 1])).append('"');
    }
  }

  /** Returns a text that means nothing but itself. */
  public static String escaped(String text) {
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
