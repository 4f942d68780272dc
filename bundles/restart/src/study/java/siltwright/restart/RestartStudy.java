package siltwright.restart;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import siltwright.analysis.Progress;
import siltwright.model.Machine;
import siltwright.model.json.FleetReader;
import siltwright.samples.CountError;

/** The tables of docs/restart-study.md. Run by the profile "study". */
public final class RestartStudy {
  private RestartStudy() {}

  /** Prints the tables. */
  public static void main(String[] args) {
    for (String id : new String[] {"EX-11", "HT-14", "WL-21"}) {
      Machine machine =
          FleetReader.read(Path.of("demo-data/three-pits.json")).fleet().machine(id).orElseThrow();
      WashOut wash = WashOut.of(machine);
      for (int bottles : new int[] {1, 2, 3}) {
        SamplingPlan.Request ask = Grading.ask(bottles, 400);
        long t = System.nanoTime();
        SamplingPlan plan =
            SamplingPlan.of(wash, Doubt.STANDARD, CountError.STANDARD, ask, Progress.NONE);
        double took = (System.nanoTime() - t) / 1e9;
        Grading g =
            Grading.of(
                wash,
                plan.minutes(),
                ask,
                Doubt.STANDARD,
                CountError.STANDARD,
                Doubt.STANDARD,
                CountError.STANDARD,
                1000,
                77);
        System.out.printf(
            Locale.ROOT,
            "%s tau %.1f %.1f %.1f bottles %d at %s last %.0f seen %.2f g; auc %.4f cover90 %.3f median |ln| %.3f took %.1f s%n",
            id,
            wash.tauMin(0),
            wash.tauMin(1),
            wash.tauMin(2),
            bottles,
            Arrays.toString(Arrays.stream(plan.minutes()).map(Math::rint).toArray()),
            plan.lastUsefulMin(),
            plan.seenG(),
            g.auc(),
            g.cover(),
            g.medianLogError(),
            took);
      }
    }
    Machine machine =
        FleetReader.read(Path.of("demo-data/three-pits.json"))
            .fleet()
            .machine("EX-11")
            .orElseThrow();
    WashOut wash = WashOut.of(machine);
    SamplingPlan.Request ask = Grading.ask(3, 1500);
    SamplingPlan plan =
        SamplingPlan.of(wash, Doubt.STANDARD, CountError.STANDARD, ask, Progress.NONE);
    System.out.println("stated and true power");
    for (SamplingPlan.Power p : plan.powers()) {
      System.out.printf(
          Locale.ROOT,
          "%.2f g  %.3f  %.3f%n",
          p.grams(),
          p.found(),
          Grading.power(wash, plan.minutes(), ask, p.grams(), 4000, 1_000_003));
    }
    Doubt d = Doubt.STANDARD;
    CountError e = CountError.STANDARD;
    Object[][] cases = {
      {"as assumed", d, e, d, e, wash},
      {"laboratory errors twice those assumed", d, e.times(2), d, e, wash},
      {"laboratory errors half", d, e.times(0.5), d, e, wash},
      {"doubts of base, rate and sizes twice", d.times(2), e, d, e, wash},
      {"doubts half", d.times(0.5), e, d, e, wash},
      {"prior median release 2 g instead of 1", d, e, d.withRelease(2, 2), e, wash},
      {"prior median release 0.5 g", d, e, d.withRelease(0.5, 2), e, wash},
      {"prior spread half", d, e, d.withRelease(1, 1), e, wash},
      {
        "instrument counts twice too many",
        d,
        new CountError(0.1, 0.15, 0.1, 25),
        d,
        e,
        scaled(wash, 2)
      },
      {"instrument counts half", d, e, d, e, scaled(wash, 0.5)},
      {"flow (wash-out) twice as fast", d, e, d, e, faster(wash, 2)},
      {"flow half", d, e, d, e, faster(wash, 0.5)},
    };
    for (Object[] c : cases) {
      Grading g =
          Grading.of(
              (WashOut) c[5],
              wash,
              plan.minutes(),
              ask,
              (Doubt) c[1],
              (CountError) c[2],
              (Doubt) c[3],
              (CountError) c[4],
              1000,
              99);
      System.out.printf(
          Locale.ROOT,
          "| %s | %.3f | %.2f | %.2f | %.1f %% |%n",
          c[0],
          g.auc(),
          g.medianFactor(),
          Math.exp(g.medianLogError()),
          100 * g.cover());
    }
  }

  private static WashOut scaled(WashOut w, double f) {
    return new WashOut(w.volumeMl() / f, w.ratePerMin(), w.basePerMl().times(f), w.particlesPerG());
  }

  private static WashOut faster(WashOut w, double f) {
    return new WashOut(
        w.volumeMl(), w.ratePerMin().times(f), w.basePerMl().times(1 / f), w.particlesPerG());
  }
}
