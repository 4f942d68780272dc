package siltwright.training;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Parameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.model.Fleet;
import siltwright.model.Housing;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;

/**
 * All that a class needs.
 *
 * @param fleet the fleet
 * @param useHPerYear hours of operation a year
 * @param words words
 * @param lessons a lesson for each machine that has one, in the fleet's order
 * @param without ids of machines that have none
 * @param quiz the quiz
 */
public record Pack(
    Fleet fleet,
    double useHPerYear,
    Wording words,
    List<Lesson> lessons,
    List<String> without,
    Quiz quiz) {
  /** Hours of operation a year. */
  public static final NumberParameter USE =
      NumberParameter.of(
          "use",
          "h/year",
          1,
          8784,
          2000,
          "hours of operation a year, for the cost of a year; 2000 is common practice, no source");

  /** Language. */
  public static final ChoiceParameter LANGUAGE =
      new ChoiceParameter(
          "language", Wording.LANGUAGES, Wording.LANGUAGES.get(0), "language of the pack");

  /** Size of the paper. */
  public static final ChoiceParameter PAGE =
      new ChoiceParameter("page", List.of("a4", "letter"), "a4", "size of the paper");

  public Pack {
    lessons = List.copyOf(lessons);
    without = List.copyOf(without);
  }

  /** Returns the parameters in the order shown. */
  public static Parameter<?>[] parameters() {
    return new Parameter<?>[] {USE, LANGUAGE, PAGE};
  }

  /**
   * Makes the pack.
   *
   * @throws InputException if no machine has a right and a wrong way to compare
   */
  public static Pack of(Context context, Values values, Progress progress) {
    Fleet fleet = context.fleet().orElseThrow();
    Wording words = new Wording(values.get(LANGUAGE));
    List<Lesson> lessons = new ArrayList<>();
    List<String> without = new ArrayList<>();
    for (Machine m : fleet.machines()) {
      progress.check((double) (lessons.size() + without.size()) / fleet.machines().size(), m.id());
      Optional<Lesson> lesson = Lesson.of(m, values.get(USE), Progress.NONE);
      lesson.ifPresentOrElse(lessons::add, () -> without.add(m.id()));
    }
    if (lessons.isEmpty()) {
      throw new InputException(
          new Problem(
              fleet.name(),
              "",
              "no machine with two ways to change its element",
              "at least one, with a cycle that repeats itself at today's interval"));
    }
    return new Pack(
        fleet,
        values.get(USE),
        words,
        lessons,
        without,
        Quiz.of(lessons, values.get(USE), fleet.currency(), words));
  }

  /** Returns the lesson of a housing in which the wrong way costs most. */
  public Optional<Lesson> dearest(Housing housing) {
    return lessons.stream()
        .filter(l -> l.machine().returnFilter().housing() == housing)
        .max(Comparator.comparingDouble(Lesson::perYearMoney));
  }
}
