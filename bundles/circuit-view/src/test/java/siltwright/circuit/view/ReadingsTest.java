package siltwright.circuit.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.ResourceBundle;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Progress;
import siltwright.circuit.view.Course.Stretch;
import siltwright.circuit.view.Plan.Carried;
import siltwright.cleanliness.Iso4406;
import siltwright.contamination.Simulation;
import siltwright.contamination.Simulation.Moment;
import siltwright.contamination.Simulation.ServiceCycle;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.model.Units;

/** The numbers on the picture are those of the simulation. */
class ReadingsTest {
  private final ResourceBundle texts = Words.bundle();

  private static ChangeProcedure today(Machine m) {
    return m.procedure(m.today().procedure()).orElseThrow();
  }

  @Test
  void aChangeAsTodayIsTheNextCycleOfTheSimulation() {
    for (Machine m : DemoFleet.machines()) {
      Course course = Course.of(m, today(m), Progress.NONE);
      double intervalH = m.today().intervalH();
      List<ServiceCycle> cycles =
          Simulation.of(m, today(m)).run(intervalH, 5, Progress.NONE).cycles();
      assertEquals(cycles.get(3), course.last(), m.id());
      Moment first = course.look(Stretch.CYCLE, 0).moment();
      assertEquals(cycles.get(3).afterChangePerMl(), first.perMl(), m.id());
      Moment end = course.look(Stretch.CYCLE, Course.STEPS).moment();
      assertEquals(intervalH, end.elementH(), 1e-9);
      // Other stops on the way give other steps, within the kernel's stated accuracy.
      assertEquals(cycles.get(4).retainedG(), end.retainedG(), 1e-4 * end.retainedG(), m.id());
      for (int j = 0; j < SizeBands.COUNT; j++) {
        double n = cycles.get(4).endPerMl().get(j);
        assertEquals(n, end.perMl().get(j), 1e-3 * n, m.id());
      }
      for (int k = 0; k < m.duty().size(); k++) {
        double p = cycles.get(4).dropKPa().get(k);
        assertEquals(p, end.dropKPa().get(k), 1e-3 * p, m.id());
        assertEquals(cycles.get(4).bypassShare().get(k), end.bypassShare().get(k), 1e-3);
      }
    }
  }

  @Test
  void twoWaysOfChangingShareTheirPastAndTheirTimes() {
    Machine m = DemoFleet.machine("EX-11");
    Course wrong = Course.of(m, m.procedure("pull-in-place").orElseThrow(), Progress.NONE);
    Course right = Course.of(m, m.procedure("ports-capped").orElseThrow(), Progress.NONE);
    assertEquals(wrong.last().endPerMl(), right.last().endPerMl());
    assertEquals(wrong.last().retainedG(), right.last().retainedG());
    assertTrue(wrong.last().releasedG() > 10 * right.last().releasedG());
    for (Stretch stretch : Stretch.values()) {
      for (int i = 0; i <= Course.STEPS; i++) {
        assertEquals(
            right.look(stretch, i).moment().elementH(), wrong.look(stretch, i).moment().elementH());
      }
    }
    Readings badly = readings(wrong, Stretch.MINUTES, 60, Readings.MEAN, Units.SI);
    Readings well = readings(right, Stretch.MINUTES, 60, Readings.MEAN, Units.SI);
    assertTrue(badly.passedG() > 5 * well.passedG());
  }

  @Test
  void tagsTellTheSimulationsNumbers() {
    Machine m = DemoFleet.machine("EX-31");
    Course course = Course.of(m, today(m), Progress.NONE);
    int cold = 0;
    Moment end = course.look(Stretch.CYCLE, Course.STEPS).moment();
    Readings r = readings(course, Stretch.CYCLE, Course.STEPS, cold, Units.SI);
    assertEquals(Iso4406.code(end.perMl()).toString(), r.card("tank").lines().get(0));
    List<String> filter = r.card("returnFilter").lines();
    assertEquals("Δp " + three(end.dropKPa().get(cold)) + " kPa", filter.get(0));
    assertEquals("bypass " + three(100 * end.bypassShare().get(cold)) + " %", filter.get(1));
    assertEquals("holds " + three(end.retainedG()) + " of 130 g", filter.get(2));
    assertEquals("reads " + three(end.readingKPa()) + " of 130 kPa", filter.get(5));
    assertTrue(r.card("returnFilter").alarms().contains(filter.get(1)), "the bypass is open");
    assertEquals("91 L/min", r.card("pump0").lines().get(0));
    assertTrue(r.bypassShare() > 0.5);
    assertEquals(end.bypassShare().get(cold), r.bypassShare(), 1e-12);
  }

  @Test
  void inTheMeanTheDropIsAsWideAsTheStates() {
    Machine m = DemoFleet.machine("EX-11");
    Course course = Course.of(m, today(m), Progress.NONE);
    Moment end = course.look(Stretch.CYCLE, Course.STEPS).moment();
    Readings r = readings(course, Stretch.CYCLE, Course.STEPS, Readings.MEAN, Units.SI);
    double least = end.dropKPa().stream().mapToDouble(p -> p).min().orElseThrow();
    double most = end.dropKPa().stream().mapToDouble(p -> p).max().orElseThrow();
    String drop = r.card("returnFilter").lines().get(0);
    assertEquals("Δp " + three(least) + "–" + three(most) + " kPa", drop);
  }

  @Test
  void unitsAreTheScreens() {
    Machine m = DemoFleet.machine("EX-11");
    Course course = Course.of(m, today(m), Progress.NONE);
    Readings r = readings(course, Stretch.CYCLE, 0, 2, Units.US);
    // 240 L / 3.785411784 and 165 L/min / 3.785411784; 130 kPa / 6.894757
    assertTrue(r.card("tank").title().contains("63.4 gal"), r.card("tank").title());
    assertEquals("43.6 gal/min", r.card("pump0").lines().get(0));
    assertTrue(r.card("indicator").lines().get(0).endsWith("of 18.9 psi"));
  }

  @Test
  void whatALineCarriesAddsUp() {
    for (Machine m : DemoFleet.machines()) {
      Course course = Course.of(m, today(m), Progress.NONE);
      Readings r = readings(course, Stretch.CYCLE, 100, Readings.MEAN, Units.SI);
      double back = r.stream(Carried.RETURN).flowLPerMin();
      assertEquals(course.circuit().meanFlowLPerMin(), back, 1e-9 * back);
      assertEquals(
          back,
          r.stream(Carried.PAST_FILTER).flowLPerMin() + r.stream(Carried.TO_FILTER).flowLPerMin(),
          1e-9 * back);
      assertEquals(
          r.stream(Carried.TO_FILTER).mgPerH(),
          r.stream(Carried.ELEMENT).mgPerH() + r.stream(Carried.BYPASS).mgPerH(),
          1e-9 * r.stream(Carried.TO_FILTER).mgPerH());
    }
  }

  @Test
  void everyTagOfEveryMachineSaysSomething() {
    for (Machine m : PlanTest.machines().toList()) {
      Course course = Course.of(m, today(m), Progress.NONE);
      Readings r = readings(course, Stretch.MINUTES, 10, Readings.MEAN, Units.SI);
      Draughtsman.plan(m)
          .tags()
          .forEach(
              t -> {
                assertFalse(r.card(t.place()).title().isEmpty(), m.id() + " " + t.place());
                assertFalse(r.card(t.place()).lines().isEmpty(), m.id() + " " + t.place());
              });
      r.rows().forEach(row -> assertFalse(row.value().contains("–\u202f"), row.toString()));
    }
  }

  @Test
  void numbersHaveThreeDigitsAndAUnitThatFits() {
    assertEquals("82 mg", Digits.mass(0.082));
    assertEquals("1.23 g", Digits.mass(1.2345));
    assertEquals("5.18 kg", Digits.mass(5180.4));
    assertEquals("195\u202f000", Digits.three(195_432));
    assertEquals("0 %", Digits.percent(0));
    assertEquals("612 g/h", Digits.perHour(612_300));
    assertEquals("–", Digits.three(Double.POSITIVE_INFINITY));
  }

  @Test
  void dotsGoWithTheRootOfTheCount() {
    Bands some = Bands.of(1000, 100, 8, 1, 1, 0);
    assertEquals(1000, Dots.perMl(some, 0));
    assertEquals(100, Dots.perMl(some, 1));
    assertEquals(10, Dots.perMl(some, 2));
    assertEquals(2 * Dots.per100(some, 1), Dots.per100(some.times(4), 1), 1e-12);
    for (int i = 1; i < Shades.STEPS.length; i++) {
      assertEquals(i, Shades.step(Shades.STEPS[i]));
      assertEquals(i - 1, Shades.step(Shades.STEPS[i] - 1));
    }
  }

  @Test
  void stopsWhenAsked() {
    Machine m = DemoFleet.machine("EX-11");
    Assertions.assertThrows(
        CancellationException.class, () -> Course.of(m, today(m), (share, doing) -> false));
  }

  private Readings readings(Course course, Stretch stretch, int step, int state, Units units) {
    return new Readings(course, course.look(stretch, step), state, units, texts);
  }

  /** Three significant digits, written out. */
  private static String three(double value) {
    int whole = (int) Math.floor(Math.log10(Math.abs(value))) + 1;
    return new BigDecimal(value)
        .setScale(3 - whole, RoundingMode.HALF_UP)
        .stripTrailingZeros()
        .toPlainString();
  }
}
