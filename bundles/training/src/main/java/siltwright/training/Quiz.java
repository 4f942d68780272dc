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
    double held = l.wrong().cycle().retainedG() * (1 - fines);
    double handlingG = p.handlingDirtMg() / 1000;
    v.put("interval", words.number(l.wrong().cycle().intervalH()));
    v.put("mass", words.number(l.wrong().cycle().retainedG()));
    v.put("fines", words.number(100 * fines));
    v.put("held", words.number(held));
    v.put("share", words.number(100 * p.backFlushShare()));
    v.put("shed", words.number(held * p.backFlushShare()));
    v.put("handling", words.number(handlingG));
    v.put("released", words.number(held * p.backFlushShare() + handlingG));
    v.put("rightReleased", words.number(l.right().cycle().releasedG()));
    return question(l, "grams", v, 3, words);
  }

  private static Question ratio(Lesson l, Wording words) {
    Map<String, String> v = names(l);
    double phiRight = l.right().procedure().backFlushShare();
    double phiWrong = l.wrong().procedure().backFlushShare();
    double rightShare = 1 - 1 / l.right().ratio();
    double e = rightShare / (1 - phiRight);
    v.put("ratio", words.number(l.right().ratio()));
    v.put("phiRight", words.number(phiRight));
    v.put("phiWrong", words.number(phiWrong));
    v.put("keptRight", words.number(rightShare));
    v.put("e", words.number(e));
    v.put("keptWrong", words.number(e * (1 - phiWrong)));
    v.put("wrongRatio", words.number(1 / (1 - e * (1 - phiWrong))));
    return question(l, "ratio", v, 3, words);
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
    double right = l.right().cycle().split().total();
    double wrong = l.wrong().cycle().split().total();
    v.put("currency", currency);
    v.put("interval", words.number(l.right().cycle().intervalH()));
    v.put("rightPerH", words.number(right));
    v.put("wrongPerH", words.number(wrong));
    v.put("more", words.number(wrong - right));
    v.put("use", words.number(useHPerYear));
    v.put("year", words.number(l.perYearMoney()));
    return question(l, l.perYearMoney() < 0 ? "costLess" : "cost", v, 2, words);
  }

  private static Question washOut(Lesson l, Wording words) {
    Map<String, String> v = names(l);
    v.put("tau", words.number(l.washOutMin()));
    v.put("minutes", words.number(3 * l.washOutMin()));
    return question(l, "washOut", v, 2, words);
  }
}
