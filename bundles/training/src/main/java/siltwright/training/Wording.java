package siltwright.training;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import siltwright.analysis.Numbers;

/** The words of a pack in one language. */
public final class Wording {
  /** Languages there are. */
  public static final List<String> LANGUAGES = List.of("en", "de");

  private final Properties texts = new Properties();
  private final String language;

  /**
   * Reads the words.
   *
   * @param language one of {@link #LANGUAGES}
   */
  public Wording(String language) {
    this.language = language;
    try (InputStream in =
        Wording.class.getResourceAsStream("training-" + language + ".properties")) {
      texts.load(new InputStreamReader(in, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns the language (BCP 47). */
  public String language() {
    return language;
  }

  /**
   * Returns a text.
   *
   * @throws IllegalArgumentException if there is none with that key
   */
  public String text(String key) {
    String text = texts.getProperty(key);
    if (text == null) {
      throw new IllegalArgumentException("no text " + key + " in " + language);
    }
    return text;
  }

  /** Returns the keys of all texts. */
  Set<String> keys() {
    return texts.stringPropertyNames();
  }

  /** Returns a text whose names in braces are filled. */
  public String text(String key, Map<String, String> values) {
    String text = text(key);
    for (Map.Entry<String, String> e : values.entrySet()) {
      text = text.replace("{" + e.getKey() + "}", e.getValue());
    }
    return text;
  }

  /** Returns a number as the language writes it, with three significant digits. */
  public String number(double value) {
    return number(value, 3);
  }

  /**
   * Returns a number as the language writes it.
   *
   * @param digits significant digits, at most 4
   */
  public String number(double value, int digits) {
    return Numbers.grouped(Numbers.text(rounded(value, digits)))
        .replace(".", text("decimalMark"))
        .replace('-', '\u2212');
  }

  /** Returns a number rounded to some significant digits, as it is shown. */
  static double rounded(double value, int digits) {
    return value == 0 || !Double.isFinite(value)
        ? value
        : BigDecimal.valueOf(value).round(new MathContext(digits)).doubleValue();
  }
}
