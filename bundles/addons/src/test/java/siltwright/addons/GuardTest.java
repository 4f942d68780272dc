package siltwright.addons;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.function.BiFunction;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.InputException;
import siltwright.model.Problem;

class GuardTest {
  private static final Map<String, Object> ADD_ON = Map.of("service.bundleid", 7L);
  private static final Map<String, Object> OWN = Map.of("service.bundleid", 1L);
  private static final Description ABOUT = Description.of("a", "A", "What?", Scope.NONE);

  /** As the launcher does it, in the calling thread. */
  private static final BiFunction<Map<String, Object>, Callable<Object>, Object> LAUNCHER =
      (request, task) -> {
        if (!request.get("bundle").equals(7L)) {
          return null;
        }
        try {
          return task == null ? "other 1.2.0" : task.call();
        } catch (Exception | Error e) {
          throw new IllegalStateException("add-on other 1.2.0 is set aside: " + e.getMessage());
        }
      };

  private record Made(Runnable act) implements Analysis {
    @Override
    public Description description() {
      return ABOUT;
    }

    @Override
    public Result run(Context context, Values values, Progress progress) {
      act.run();
      progress.check(0.5, "half");
      return Result.of(ABOUT, "", values).finding(Finding.Severity.NOTE, "Said.", "").build();
    }
  }

  private static Result run(Runnable act, Progress progress) {
    Analysis guarded = new Guard(LAUNCHER).analysis(new Made(act), ADD_ON).orElseThrow();
    return guarded.run(Context.NONE, Values.standard(ABOUT), progress);
  }

  @Test
  void theProductsOwnPassesAsItIs() {
    Analysis own = new Made(() -> {});
    assertSame(own, new Guard(LAUNCHER).analysis(own, OWN).orElseThrow());
    assertSame(own, new Guard(null).analysis(own, ADD_ON).orElseThrow());
  }

  @Test
  void findingsBearNameAndVersion() {
    assertEquals(
        "Said. (add-on other 1.2.0)", run(() -> {}, Progress.NONE).findings().get(0).text());
  }

  @Test
  void refusalsAndCancellingAreNoFaults() {
    InputException refusal = new InputException(new Problem("f", "p", "v", "e"));
    Runnable refuses =
        () -> {
          throw refusal;
        };
    assertSame(refusal, assertThrows(InputException.class, () -> run(refuses, Progress.NONE)));
    assertThrows(CancellationException.class, () -> run(() -> {}, (share, doing) -> false));
  }

  @Test
  void whatElseItThrowsIsTheAddOnsFault() {
    Runnable fails =
        () -> {
          throw new StackOverflowError("deep");
        };
    AddOnFault fault = assertThrows(AddOnFault.class, () -> run(fails, Progress.NONE));
    assertEquals("add-on other 1.2.0 is set aside: deep", fault.getMessage());
    assertSame(fault, AddOnFault.behind(new IllegalStateException("on machine X", fault)));
    assertEquals(Optional.empty(), Optional.ofNullable(AddOnFault.behind(new Error("no"))));
  }

  @Test
  void oneThatCannotSayWhatItIsIsLeftOut() {
    Analysis mute =
        new Analysis() {
          @Override
          public Description description() {
            throw new IllegalStateException("mute");
          }

          @Override
          public Result run(Context context, Values values, Progress progress) {
            throw new IllegalStateException("mute");
          }
        };
    assertFalse(new Guard(LAUNCHER).analysis(mute, ADD_ON).isPresent());
  }
}
