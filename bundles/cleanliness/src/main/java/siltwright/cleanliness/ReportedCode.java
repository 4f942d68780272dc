package siltwright.cleanliness;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import siltwright.model.CleanlinessCode;

/**
 * A cleanliness code as a laboratory reports it: three places, of which any may be a bare scale
 * number, a scale number that is a lower bound, above the scale, not counted, or too numerous.
 *
 * <p>Examples: {@code 18/16/13}, {@code 14/12/>=7}, {@code >28/25/20}, {@code -/15/12} (a
 * microscope count).
 *
 * @param places the places for 4, 6 and 14 µm(c); by microscope the last two are 5 and 15 µm
 */
public record ReportedCode(List<Place> places) {

  /** What stands in a place. */
  public enum Kind {
    /** A scale number. */
    NUMBER,
    /**
     * A scale number of fewer than 20 particles, written {@code >=7}: the true one may be higher.
     */
    AT_LEAST,
    /** More than scale number 28 covers, written {@code >28}. */
    ABOVE_SCALE,
    /** Not counted or not required, written {@code -}. */
    NOT_COUNTED,
    /** Too many particles to count, written {@code *} (from memory of ISO 4406). */
    TOO_NUMEROUS
  }

  /**
   * One place of a code.
   *
   * @param kind what it is
   * @param scaleNumber 0 to 28 for a number or a lower bound; else 0 and without meaning
   */
  public record Place(Kind kind, int scaleNumber) {

    private static final Pattern FORM = Pattern.compile("(>=|≥)?\\d{1,2}");

    /** Checks that a number is on the scale, and drops it where it has no meaning. */
    public Place {
      scaleNumber = kind == Kind.NUMBER || kind == Kind.AT_LEAST ? scaleNumber : 0;
      if (scaleNumber < 0 || scaleNumber > CleanlinessCode.HIGHEST) {
        throw new IllegalArgumentException("a scale number is from 0 to 28, not " + scaleNumber);
      }
    }

    /**
     * Reads one place.
     *
     * @throws IllegalArgumentException if the text is none of the forms, or the number not 0 to 28
     */
    public static Place parse(String text) {
      switch (text) {
        case "-":
          return new Place(Kind.NOT_COUNTED, 0);
        case "*":
          return new Place(Kind.TOO_NUMEROUS, 0);
        case ">28":
          return new Place(Kind.ABOVE_SCALE, 0);
        default:
          if (!FORM.matcher(text).matches()) {
            throw new IllegalArgumentException(
                "a place of a code is a number from 0 to 28, >= and a number, >28, - or *, not "
                    + text);
          }
          boolean bound = !Character.isDigit(text.charAt(0));
          return new Place(
              bound ? Kind.AT_LEAST : Kind.NUMBER,
              Integer.parseInt(text.replaceFirst("^\\D+", "")));
      }
    }

    /** Returns the counts that the place allows, empty if it says nothing about the count. */
    public Optional<CountRange> rangePerMl() {
      return switch (kind) {
        case NUMBER -> Optional.of(Iso4406.rangePerMl(scaleNumber));
        case AT_LEAST ->
            Optional.of(
                new CountRange(
                    Iso4406.rangePerMl(scaleNumber).moreThanPerMl(), Double.POSITIVE_INFINITY));
        case ABOVE_SCALE -> Optional.of(Iso4406.rangePerMl(Iso4406.ABOVE_SCALE));
        case NOT_COUNTED, TOO_NUMEROUS -> Optional.empty();
      };
    }

    /** Returns the place as it is written. */
    @Override
    public String toString() {
      return switch (kind) {
        case NUMBER -> Integer.toString(scaleNumber);
        case AT_LEAST -> ">=" + scaleNumber;
        case ABOVE_SCALE -> ">" + CleanlinessCode.HIGHEST;
        case NOT_COUNTED -> "-";
        case TOO_NUMEROUS -> "*";
      };
    }

    private boolean onScale() {
      return kind == Kind.NUMBER || kind == Kind.AT_LEAST;
    }
  }

  /** Checks that there are three places and that no later one is higher. */
  public ReportedCode {
    places = List.copyOf(places);
    if (places.size() != 3) {
      throw new IllegalArgumentException("a code has three places, not " + places.size());
    }
    int lowest = Iso4406.ABOVE_SCALE;
    for (Place place : places) {
      int number = place.onScale() ? place.scaleNumber() : Iso4406.ABOVE_SCALE;
      if ((place.onScale() || place.kind() == Kind.ABOVE_SCALE) && number > lowest) {
        throw new IllegalArgumentException(
            "the scale numbers of a code do not rise with size, as they do in " + join(places));
      }
      lowest = place.onScale() ? number : lowest;
    }
  }

  /**
   * Reads a code in any of the reported forms.
   *
   * @throws IllegalArgumentException if it has not three places, a place has none of the forms, or
   *     the numbers rise with size
   */
  public static ReportedCode parse(String text) {
    String[] parts = text.trim().split("/", -1);
    if (parts.length != 3) {
      throw new IllegalArgumentException(
          "a code is written like 18/16/13 or -/15/12, with three places, not " + text);
    }
    return new ReportedCode(IntStream.range(0, 3).mapToObj(i -> Place.parse(parts[i])).toList());
  }

  /**
   * Returns the plain code, empty unless all three places are numbers on the scale; a lower bound
   * counts as its number.
   */
  public Optional<CleanlinessCode> code() {
    return places.stream().allMatch(Place::onScale)
        ? Optional.of(
            new CleanlinessCode(
                places.get(0).scaleNumber(),
                places.get(1).scaleNumber(),
                places.get(2).scaleNumber()))
        : Optional.empty();
  }

  /** Returns the code as it is written, such as {@code 14/12/>=7}. */
  @Override
  public String toString() {
    return join(places);
  }

  private static String join(List<Place> places) {
    return places.stream().map(Place::toString).collect(Collectors.joining("/"));
  }
}
