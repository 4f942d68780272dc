package siltwright.cleanliness;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A viscosity grade of ISO 3448, such as VG 46.
 *
 * <p>Source: ISO 3448, grades 2 to 1500, by the reprint named in {@code iso3448.csv}.
 *
 * @param number the grade's number
 * @param midMm2PerS mid-point kinematic viscosity at 40 °C, mm²/s
 * @param minMm2PerS lowest viscosity of the grade, included
 * @param maxMm2PerS highest viscosity of the grade, included
 */
public record ViscosityGrade(int number, double midMm2PerS, double minMm2PerS, double maxMm2PerS) {

  /** All grades, thinnest first. */
  public static final List<ViscosityGrade> ALL =
      TableResource.rows("iso3448.csv").stream()
          .map(
              row ->
                  new ViscosityGrade(
                      Integer.parseInt(row[0]),
                      Double.parseDouble(row[1]),
                      Double.parseDouble(row[2]),
                      Double.parseDouble(row[3])))
          .toList();

  /**
   * Returns a grade by its number.
   *
   * @throws IllegalArgumentException if there is no such grade
   */
  public static ViscosityGrade of(int number) {
    return ALL.stream()
        .filter(grade -> grade.number == number)
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "a viscosity grade is one of "
                        + ALL.stream()
                            .map(grade -> Integer.toString(grade.number))
                            .collect(Collectors.joining(", "))
                        + ", not "
                        + number));
  }

  /**
   * Returns the grade that a viscosity at 40 °C, mm²/s, belongs to; empty between the grades, which
   * do not touch.
   */
  public static Optional<ViscosityGrade> containing(double at40Mm2PerS) {
    return ALL.stream().filter(grade -> grade.contains(at40Mm2PerS)).findFirst();
  }

  /** Returns whether a viscosity at 40 °C, mm²/s, is within the grade's tolerance. */
  public boolean contains(double at40Mm2PerS) {
    return at40Mm2PerS >= minMm2PerS && at40Mm2PerS <= maxMm2PerS;
  }

  /** Returns the grade as it is written, such as {@code VG 46}. */
  @Override
  public String toString() {
    return "VG " + number;
  }
}
