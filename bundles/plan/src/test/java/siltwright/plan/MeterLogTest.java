package siltwright.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import siltwright.plan.MeterLog.Event;
import siltwright.plan.MeterLog.Reading;
import siltwright.plan.MeterLog.Step;

class MeterLogTest {
  private static Reading at(long day, double meterH) {
    return new Reading(day, meterH, Event.READING, (int) day);
  }

  private static Reading at(long day, double meterH, Event event) {
    return new Reading(day, meterH, event, (int) day);
  }

  @Test
  void hoursSinceTheLastChange() {
    MeterLog log = MeterLog.of(List.of(at(20, 1200), at(0, 1000), at(10, 1090, Event.CHANGE)));
    assertEquals(List.of(new Step(0, 10, 90), new Step(10, 20, 110)), log.steps());
    assertEquals(110, log.sinceChange().orElseThrow().hours());
    assertEquals(1200, log.lastMeterH());
    assertTrue(log.faults().isEmpty());
  }

  @Test
  void anotherMeterLeavesDaysThatNobodySaw() {
    MeterLog log =
        MeterLog.of(
            List.of(
                at(0, 5000, Event.CHANGE), at(10, 5080), at(15, 3, Event.NEW_METER), at(25, 93)));
    assertEquals(170, log.sinceChange().orElseThrow().hours());
    assertEquals(List.of(new Step(10, 15, 0)), log.sinceChange().orElseThrow().unseen());
    assertEquals(2, log.steps().size());
    assertTrue(log.broken());
    assertTrue(log.faults().isEmpty());
  }

  @Test
  void runningBackwardsIsFlaggedAndTakenAsAnotherMeter() {
    MeterLog log = MeterLog.of(List.of(at(0, 5000), at(10, 5080), at(20, 60), at(30, 150)));
    assertEquals(1, log.faults().size());
    assertEquals(20, log.faults().get(0).line());
    assertTrue(log.broken());
    assertEquals(List.of(new Step(0, 10, 80), new Step(20, 30, 90)), log.steps());
  }

  @Test
  void slipOfThePenIsLeftOut() {
    MeterLog high = MeterLog.of(List.of(at(0, 5000), at(10, 6080), at(20, 5170), at(30, 5250)));
    assertEquals(List.of(new Step(0, 20, 170), new Step(20, 30, 80)), high.steps());
    assertEquals(10, high.faults().get(0).line());
    assertFalse(high.broken());
    // Not faster than 24 h a day, but above what follows.
    MeterLog near = MeterLog.of(List.of(at(0, 5000), at(10, 5200), at(20, 5170)));
    assertEquals(List.of(new Step(0, 20, 170)), near.steps());
    MeterLog low = MeterLog.of(List.of(at(0, 5000), at(10, 508), at(20, 5170)));
    assertEquals(List.of(new Step(0, 20, 170)), low.steps());
  }

  @Test
  void changeAtABadReadingStillCounts() {
    MeterLog log = MeterLog.of(List.of(at(0, 5000), at(10, 9999, Event.CHANGE), at(20, 5170)));
    assertEquals(170, log.sinceChange().orElseThrow().hours());
  }
}
