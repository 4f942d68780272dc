package siltwright.training;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Progress;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.Fleet;
import siltwright.model.Housing;
import siltwright.model.InputException;
import siltwright.model.json.FleetReader;

/** The pack of the demo fleet. */
class PackTest {
  private static final Fleet FLEET =
      FleetReader.read(Path.of("../../demo-data/three-pits.json")).fleet();
  private static final Description DESCRIPTION =
      Description.of("training", "", "", Scope.FLEET, Pack.parameters());

  private static Pack pack(String language) {
    return Pack.of(
        Context.of(FLEET), Values.of(DESCRIPTION, Map.of("language", language)), Progress.NONE);
  }

  @Test
  void everyMachineIsALessonOrSaysWhyNot() {
    Pack pack = pack("en");
    Set<String> ids = new HashSet<>(pack.without());
    pack.lessons().forEach(l -> ids.add(l.machine().id()));
    assertEquals(FLEET.machines().size(), ids.size());
    assertTrue(pack.lessons().size() > 8);
  }

  /** By hand from the numbers of the file: 1/φ bounds the ratio, the wrong way sheds more. */
  @Test
  void theWrongWayIsWorseInGramsAndRatio() {
    for (Lesson l : pack("en").lessons()) {
      assertTrue(l.wrong().cycle().releasedG() > l.right().cycle().releasedG());
      assertTrue(l.wrong().ratio() < l.right().ratio());
      assertTrue(l.wrong().ratio() < 1 / l.wrong().procedure().backFlushShare());
      double fines = l.machine().returnFilter().element().finesShare();
      double byHandG =
          l.wrong().procedure().backFlushShare() * l.wrong().cycle().retainedG() * (1 - fines)
              + l.wrong().procedure().handlingDirtMg() / 1000;
      assertEquals(byHandG, l.wrong().cycle().releasedG(), 2e-3 * byHandG, l.machine().id());
      assertEquals(
          2000 * (l.wrong().cycle().split().total() - l.right().cycle().split().total()),
          l.perYearMoney(),
          1e-9 * Math.abs(l.perYearMoney()));
    }
  }

  /** The working leads to what the engines say. */
  @Test
  void answersAgreeWithTheLessons() {
    Pack pack = pack("en");
    int checked = 0;
    for (Quiz.Question q : pack.quiz().questions()) {
      Lesson l =
          pack.lessons().stream()
              .filter(x -> x.machine().equals(q.machine()))
              .findFirst()
              .orElseThrow();
      double wanted =
          q.answer().endsWith(" g")
              ? l.wrong().cycle().releasedG()
              : q.answer().endsWith("a year")
                  ? l.perYearMoney()
                  : q.answer().endsWith("min")
                      ? 3 * l.washOutMin()
                      : q.text().contains("finest")
                          ? 1 / l.wrong().procedure().backFlushShare()
                          : l.wrong().ratio();
      String number = q.answer().replaceAll(" .*", "").replace("−", "-").replace("\u202f", "");
      if (number.matches("-?[0-9.]+")) {
        assertEquals(wanted, Double.parseDouble(number), 0.006 * Math.abs(wanted), q.text());
        checked++;
      }
    }
    assertTrue(checked >= 5, checked + " answers");
  }

  @ParameterizedTest
  @ValueSource(strings = {"en", "de"})
  void everyTextIsThereAndFilled(String language) {
    Pack pack = pack(language);
    for (Quiz.Question q : pack.quiz().questions()) {
      List<String> texts = List.of(q.text(), q.answer(), q.working().toString());
      texts.forEach(t -> assertFalse(t.contains("{"), t));
    }
    for (Housing h : Housing.values()) {
      assertTrue(pack.dearest(h).isPresent());
      pack.words().text("sealed." + h.word());
    }
  }

  @Test
  void bothLanguagesHaveTheSameTexts() {
    assertEquals(new Wording("en").keys(), new Wording("de").keys());
    assertEquals("1,5", new Wording("de").number(1.5));
    assertEquals("−758", new Wording("en").number(-758.2));
  }

  @Test
  void aFleetWithoutTwoWaysIsRefused() {
    Fleet one =
        new Fleet(
            "One way",
            "",
            "EUR",
            FLEET.sites(),
            List.of(
                FLEET
                    .machines()
                    .get(0)
                    .withProcedures(FLEET.machines().get(0).procedures().subList(0, 1))));
    InputException e =
        assertThrows(
            InputException.class,
            () -> Pack.of(Context.of(one), Values.standard(DESCRIPTION), Progress.NONE));
    assertTrue(e.problems().get(0).toString().contains("two ways"), e.problems().toString());
  }
}
