package siltwright.element;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Laws that hold for any log, and incidents that were put into logs. */
class ElementTest {
  private static final Reference REFERENCE = new Reference(Double.NaN, Double.NaN, MadeLogs.OIL);

  private static LoadingRun run(DropLog log) {
    return LoadingRun.of(log, REFERENCE);
  }

  /** By hand: m = (r^(1-n) - 1)/((1-n) k) at a drop of r times the clean one. */
  @ParameterizedTest
  @ValueSource(doubles = {0, 0.65, 1, 1.5})
  void anExactLawIsFoundAgain(double n) {
    double k = 0.002;
    LoadingRun run = run(MadeLogs.of("x", 600, m -> MadeLogs.law(20, k, n, m)));
    BlockingFit fit = BlockingFit.of(run, 599, n, 5);
    assertEquals(n, fit.exponent(), 0.02);
    double limit = 20 * 4;
    double all = n == 1 ? Math.log(4) / k : (Math.pow(4, 1 - n) - 1) / ((1 - n) * k);
    double left = all - 600;
    if (left > 0) {
      Remaining r = fit.between(MadeLogs.law(20, k, n, 600), limit);
      assertEquals(left, r.value(), 0.03 * left);
      assertTrue(r.low() < r.value() && r.value() < r.high());
    }
  }

  /** Half the flow halves the drop; oil twice as thick doubles it (Darcy). */
  @Test
  void flowAndViscosityAreTakenOut() {
    double[] t = {1, 2, 3};
    double nu = MadeLogs.OIL.mm2PerS(30) / MadeLogs.OIL.mm2PerS(60);
    DropLog log =
        new DropLog(
            "x",
            t,
            new double[] {50, 25, 50 * nu},
            new double[] {100, 50, 100},
            new double[] {60, 60, 30},
            MadeLogs.NONE);
    Reference reference = new Reference(100, 60, MadeLogs.OIL);
    for (int i = 0; i < 3; i++) {
      assertEquals(50, reference.dropKPa(log, i), 1e-9);
    }
    assertTrue(Double.isNaN(new Reference(1000, 60, MadeLogs.OIL).dropKPa(log, 1)));
  }

  @Test
  void theClockIsOneOfMassWhereFeedIsKnown() {
    DropLog log =
        new DropLog(
            "x",
            new double[] {1, 2, 4},
            new double[] {1, 2, 3},
            MadeLogs.NONE,
            MadeLogs.NONE,
            new double[] {3, 3, 5});
    LoadingRun run = run(log);
    assertEquals(3, run.mass(0), 1e-12);
    assertEquals(6, run.mass(1), 1e-12);
    assertEquals(14, run.mass(2), 1e-12); // 6 + 2 hours at a mean of 4
  }

  /** A forecast made at a moment must not change by what comes behind it. */
  @Test
  void aForecastUsesNothingOfTheFuture() {
    Random random = new Random(3);
    DropLog log =
        MadeLogs.of("x", 300, m -> MadeLogs.law(20, 0.005, 0.8, m) + random.nextGaussian());
    LoadingRun whole = run(log);
    LoadingRun part = run(log.first(200));
    for (int i = 0; i < 200; i++) {
      assertEquals(part.level(i), whole.level(i), 1e-9);
    }
    assertEquals(
        BlockingFit.of(part).exponent(),
        BlockingFit.of(whole, 199, BlockingFit.PRIOR_EXPONENT, BlockingFit.PRIOR_SD).exponent(),
        1e-9);
  }

  @Test
  void earlierRunsForetellTheirLike() {
    Random random = new Random(5);
    List<LoadingRun> runs = new ArrayList<>();
    for (int i = 0; i < 24; i++) {
      double capacity = Math.exp(0.15 * random.nextGaussian());
      runs.add(
          run(
              MadeLogs.of(
                  "run-" + i,
                  700,
                  m ->
                      MadeLogs.law(20, 0.004 / capacity, 0.8, m)
                          * (1 + 0.01 * random.nextGaussian()))));
    }
    EarlierRuns earlier = EarlierRuns.of(runs, 100);
    assertTrue(earlier.enough());
    int good = 0;
    for (int i = 0; i < 40; i++) {
      double capacity = Math.exp(0.15 * random.nextGaussian());
      LoadingRun run =
          run(
              MadeLogs.of(
                  "new",
                  200,
                  m ->
                      MadeLogs.law(20, 0.004 / capacity, 0.8, m)
                          * (1 + 0.01 * random.nextGaussian())));
      double truth = (Math.pow(5, 0.2) - 1) / (0.2 * 0.004 / capacity) - 200;
      Remaining r = earlier.remaining(run, 199);
      assertEquals(truth, r.value(), 0.25 * truth);
      good += r.low() <= truth && truth <= r.high() ? 1 : 0;
    }
    assertTrue(good >= 32, good + " of 40 intervals hold");
  }

  private static List<Incident.Kind> kinds(DropLog log, OptionalDouble clean) {
    return Incident.in(log, REFERENCE, clean).stream().map(Incident::kind).toList();
  }

  private static double noisy(Random random, double p) {
    return p * (1 + 0.02 * random.nextGaussian());
  }

  @Test
  void incidentsAreNoticedAndCalledByTheirNames() {
    Random random = new Random(7);
    DropLog sound = MadeLogs.of("x", 400, m -> noisy(random, MadeLogs.law(20, 0.005, 0.8, m)));
    assertEquals(List.of(), kinds(sound, OptionalDouble.empty()));
    DropLog changed =
        MadeLogs.of(
            "x", 400, m -> noisy(random, MadeLogs.law(20, 0.008, 0.8, m > 250 ? m - 250 : m)));
    assertEquals(List.of(Incident.Kind.CHANGE), kinds(changed, OptionalDouble.empty()));
    assertEquals(250, Incident.in(changed, REFERENCE, OptionalDouble.empty()).get(0).row(), 3);
    DropLog torn =
        MadeLogs.of(
            "x", 400, m -> noisy(random, (m > 300 ? 0.45 : 1) * MadeLogs.law(20, 0.008, 0.8, m)));
    assertEquals(List.of(Incident.Kind.COLLAPSE), kinds(torn, OptionalDouble.empty()));
    DropLog bypassed =
        MadeLogs.of("x", 400, m -> noisy(random, Math.min(100, MadeLogs.law(20, 0.012, 0.8, m))));
    assertEquals(List.of(Incident.Kind.BYPASS_OPEN), kinds(bypassed, OptionalDouble.empty()));
    DropLog missing = MadeLogs.of("x", 100, m -> noisy(random, 3));
    assertEquals(List.of(Incident.Kind.NO_ELEMENT), kinds(missing, OptionalDouble.of(20)));
  }

  /** A machine that stands for an hour, or a gauge that drops out, is no change of element. */
  @Test
  void aDipIsNoIncident() {
    Random random = new Random(8);
    DropLog dip =
        MadeLogs.of(
            "x",
            400,
            m -> m > 200 && m < 206 ? 0.5 : noisy(random, MadeLogs.law(20, 0.005, 0.8, m)));
    assertEquals(List.of(), kinds(dip, OptionalDouble.empty()));
  }

  @Test
  void falseAlarmsAreRare() {
    int alarms = 0;
    for (int seed = 0; seed < 200; seed++) {
      Random random = new Random(seed);
      double n = 0.5 + random.nextDouble();
      DropLog log =
          MadeLogs.of(
              "x",
              250,
              m ->
                  MadeLogs.law(20, 0.006, n, Math.min(m, 240))
                      * (1 + 0.05 * random.nextGaussian()));
      alarms += kinds(log, OptionalDouble.empty()).isEmpty() ? 0 : 1;
    }
    assertTrue(alarms <= 4, alarms + " alarms on 200 sound logs");
  }
}
