package siltwright.workbench.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.model.Problem;

class RunsTest {
  private final Runs runs = new Runs();
  private final BlockingQueue<String> heard = new LinkedBlockingQueue<>();

  @AfterEach
  void close() {
    runs.close();
  }

  private void start(String slot, Work work) {
    SwingUtilities.invokeLater(
        () -> runs.start(this, slot, slot, work::run, heard::add, why -> heard.add("! " + why)));
  }

  private interface Work {
    String run(Progress progress);
  }

  private String next() throws InterruptedException {
    return heard.poll(20, TimeUnit.SECONDS);
  }

  @Test
  void lastRequestOfASlotWinsAndTheOneBeforeIsNeverHeard() throws Exception {
    CountDownLatch begun = new CountDownLatch(1);
    List<String> stopped = new ArrayList<>();
    CountDownLatch over = new CountDownLatch(1);
    start(
        "a",
        progress -> {
          begun.countDown();
          while (progress.report(0.5, "first")) {
            Thread.onSpinWait();
          }
          stopped.add("first");
          over.countDown();
          return "first";
        });
    begun.await();
    start("a", progress -> "second");
    assertEquals("second", next());
    over.await();
    assertEquals(List.of("first"), stopped);
    SwingUtilities.invokeAndWait(() -> {});
    assertTrue(heard.isEmpty(), heard.toString());
  }

  @Test
  void slotsDoNotDisturbEachOther() throws Exception {
    start("a", progress -> "one");
    start("b", progress -> "two");
    List<String> both = new ArrayList<>(List.of(next(), next()));
    both.sort(null);
    assertEquals(List.of("one", "two"), both);
  }

  @Test
  void cancelledRunTellsItsOwner() throws Exception {
    CountDownLatch begun = new CountDownLatch(1);
    start(
        "a",
        progress -> {
          begun.countDown();
          while (true) {
            progress.check(0.1, "on");
          }
        });
    begun.await();
    SwingUtilities.invokeAndWait(() -> runs.cancel(runs.list().get(0)));
    assertEquals("! cancelled", next());
    SwingUtilities.invokeAndWait(
        () -> assertEquals(Runs.State.CANCELLED, runs.list().get(0).state()));
  }

  @Test
  void faultsAreALineForTheUser() throws Exception {
    start(
        "a",
        progress -> {
          throw new InputException(new Problem("x.csv", "row 3", "7", "less"));
        });
    assertEquals("! x.csv row 3: found 7; expected less", next());
    start(
        "b",
        progress -> {
          throw new IllegalStateException("oops");
        });
    assertEquals("! fault of the program: java.lang.IllegalStateException: oops", next());
  }

  /** A run that takes all memory ends alone: what it held is free again, and others are done. */
  @Test
  void aRunWithoutMemoryLeavesTheOthersTheirs() throws Exception {
    for (int i = 0; i < 3; i++) {
      start(
          "a",
          progress -> {
            List<long[]> all = new ArrayList<>();
            while (true) {
              all.add(new long[32 << 20]);
              progress.report(0, "" + all.size());
            }
          });
      assertTrue(next().startsWith("! not enough memory: "));
      start("b", progress -> "as before: " + new long[1 << 20].length);
      assertEquals("as before: 1048576", next());
    }
  }

  @Test
  void closedOwnerHearsNothing() throws Exception {
    CountDownLatch begun = new CountDownLatch(1);
    CountDownLatch go = new CountDownLatch(1);
    start(
        "a",
        progress -> {
          begun.countDown();
          try {
            go.await();
          } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
          }
          return "late";
        });
    begun.await();
    SwingUtilities.invokeAndWait(() -> runs.cancelAll(this));
    go.countDown();
    start("b", progress -> "after");
    assertEquals("after", next());
    assertTrue(heard.isEmpty(), heard.toString());
  }
}
