package siltwright.store;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Options that several commands on stores share. */
public final class StoreOptions {
  /** The store. */
  public static final TextParameter STORE =
      TextParameter.required(
          "store",
          "a file, or jdbc:postgresql://HOST/DATABASE?user=NAME",
          "the store; on a server the password comes from your own password file (~/.pgpass)");

  /** Who does it. */
  public static final TextParameter WHO =
      TextParameter.optional(
          "who", "a name", "who does it, for the journal; if not given, the user of this computer");

  private StoreOptions() {}

  /** Returns who does it. */
  public static String who(Values values) {
    return values.find(WHO).orElseGet(() -> System.getProperty("user.name", "somebody"));
  }

  /**
   * Returns the number of an action.
   *
   * @throws InputException if the text is none
   */
  public static long number(String option, String text) {
    if (!text.matches("\\d{1,15}")) {
      throw new InputException(
          new Problem("option", option, text, "a number, as journal lists it"));
    }
    return Long.parseLong(text);
  }

  /**
   * Returns a path.
   *
   * @throws InputException if the text names none
   */
  public static Path path(String option, String text) {
    try {
      if (text.isBlank()) {
        throw new InvalidPathException(text, "blank");
      }
      return Path.of(text);
    } catch (InvalidPathException e) {
      throw new InputException(new Problem("option", option, text, "the name of a file"));
    }
  }
}
