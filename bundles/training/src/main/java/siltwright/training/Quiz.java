package siltwright.training;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import siltwright.model.ChangeProcedure;
import siltwright.model.Housing;
import siltwright.model.Machine;

/**
 * A quiz on the team's own machines: each question on another one as long as there are enough, each
 * answer worked out line by line.
 *
 * @param questions the questions, in order
 */
public record Quiz(List<Question> questions) {
  private static final int DIGITS = 4;

  public Quiz {
    questions = List.copyOf(questions);
  }

  /**
   * A question.
   *
   * @param machine machine it is about
   * @param text the question
   * @param working how the answer is found, line by line
   * @param answer the answer
   */
  public record Question(Machine machine, String text, List<String> working, String answer) {
    public Question {
      working = List.copyOf(working);
    }
  }

  /**
   * Makes the quiz.
   *
   * @param lessons the lessons, at least one
   * @param useHPerYear hours of operation a year
   * @param currency currency of the fleet
   * @param words words
   */
  public static Quiz of(List<Lesson> lessons, double useHPerYear, String currency, Wording words) {
    List<Lesson> dearest =
        lessons.stream()
            .sorted(Comparator.comparingDouble(Lesson::perYearMoney).reversed())
            .toList();
    List<Question> questions = new ArrayList<>();
    for (Housing housing : Housing.values()) {
      dearest.stream()
          .filter(l -> l.machine().returnFilter().housing() == housing)
          .findFirst()
          .ifPresent(l -> questions.add(order(l, words)));
    }
    questions.add(grams(at(dearest, 0), words));
    questions.add(ratio(at(dearest, 1), words));
    questions.add(ceiling(at(dearest, 2), words));
    questions.add(cost(at(dearest, 3), useHPerYear, currency, words));
    Lesson cheapest = dearest.get(dearest.size() - 1);
    if (cheapest.perYearMoney() < 0) {
      questions.add(cost(cheapest, useHPerYear, currency, words));
    }
    dearest.stream()
        .filter(l -> Double.isFinite(l.washOutMin()))
        .skip(Math.min(4, dearest.size() - 1))
        .findFirst()
        .ifPresent(l -> questions.add(washOut(l, words)));
    return new Quiz(questions);
  }

  private static Lesson at(List<Lesson> lessons, int index) {
    return lessons.get(index % lessons.size());
  }

  private static Map<String, String> names(Lesson l) {
    Map<String, String> v = new HashMap<>();
    v.put("id", l.machine().id());
    v.put("machine", l.machine().name());
    v.put("right", l.right().procedure().name());
    v.put("wrong", l.wrong().procedure().name());
    return v;
  }

  private static Question question(
      Lesson l, String key, Map<String, String> values, int lines, Wording words) {
    List<String> working =
        Stream.iterate(1, i -> i <= lines, i -> i + 1)
            .map(i -> words.text(key + "." + i, values))
            .toList();
    return new Question(
        l.machine(),
        words.text(key + ".question", values),
        working,
        words.text(key + ".answer", values));
  }

  private static Question order(Lesson l, Wording words) {
    String key =
        l.machine().returnFilter().housing() == Housing.SEALING_CANISTER
            ? "orderCanister"
            : "orderBowl";
    return question(l, key, names(l), 2, words);
  }

  private static Question grams(Lesson l, Wording words) {
    Map<String, String> v = names(l);
    ChangeProcedure p = l.wrong().procedure();
    double fines = l.machine().returnFilter().element().finesShare();
    double mass = shown(l.wrong().cycle().retainedG());
    double held = shown(mass * (1 - fines));
    double shed = shown(held * p.backFlushShare());
    double handlingG = p.handlingDirtMg() / 1000;
    v.put("interval", words.number(l.wrong().cycle().intervalH()));
    v.put("mass", number(words, mass));
    v.put("fines", number(words, 100 * fines));
    v.put("held", number(words, held));
    v.put("share", number(words, 100 * p.backFlushShare()));
    v.put("shed", number(words, shed));
    v.put("handling", number(words, handlingG));
    v.put("released", words.number(shed + handlingG));
    v.put("rightReleased", words.number(l.right().cycle().releasedG()));
    return question(l, "grams", v, 3, words);
  }

  private static Question ratio(Lesson l, Wording words) {
    Map<String, String> v = names(l);
    double phiRight = l.right().procedure().backFlushShare();
    double phiWrong = l.wrong().procedure().backFlushShare();
    double ratio = shown(l.right().ratio());
    double keptRight = shown(1 - 1 / ratio);
    double e = shown(keptRight / (1 - phiRight));
    double keptWrong = shown(e * (1 - phiWrong));
    v.put("ratio", number(words, ratio));
    v.put("phiRight", number(words, phiRight));
    v.put("phiWrong", number(words, phiWrong));
    v.put("keptRight", number(words, keptRight));
    v.put("e", number(words, e));
    v.put("keptWrong", number(words, keptWrong));
    v.put("wrongRatio", words.number(1 / (1 - keptWrong)));
    return question(l, "ratio", v, 3, words);
  }

  /** A working goes on with the number it shows, so that a class gets the same. */
  private static double shown(double value) {
    return Wording.rounded(value, DIGITS);
  }

  private static String number(Wording words, double value) {
    return words.number(value, DIGITS);
  }

  private static Question ceiling(Lesson l, Wording words) {
    Map<String, String> v = names(l);
    double phi = l.wrong().procedure().backFlushShare();
    v.put("phi", words.number(phi));
    v.put("kept", words.number(1 - phi));
    v.put("ceiling", words.number(1 / phi));
    return question(l, "ceiling", v, 2, words);
  }

  private static Question cost(Lesson l, double useHPerYear, String currency, Wording words) {
    Map<String, String> v = names(l);
    double right = shown(l.right().cycle().split().total());
    double wrong = shown(l.wrong().cycle().split().total());
    double more = shown(wrong - right);
    v.put("currency", currency);
    v.put("interval", words.number(l.right().cycle().intervalH()));
    v.put("rightPerH", number(words, right));
    v.put("wrongPerH", number(words, wrong));
    v.put("more", number(words, more));
    v.put("use", words.number(useHPerYear));
    v.put("year", words.number(more * useHPerYear));
    return question(l, l.perYearMoney() < 0 ? "costLess" : "cost", v, 2, words);
  }

  private static Question washOut(Lesson l, Wording words) {
    Map<String, String> v = names(l);
    double tau = Wording.rounded(l.washOutMin(), 3);
    v.put("tau", words.number(tau));
    v.put("minutes", words.number(3 * tau));
    return question(l, "washOut", v, 2, words);
  }
}
