package siltwright.restart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Progress;
import siltwright.contamination.Circuit;
import siltwright.contamination.Trace;
import siltwright.model.Bands;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.model.json.FleetReader;
import siltwright.samples.BandCounts;
import siltwright.samples.CountError;

/** Releases that were put in are found again; what is stated of chances holds. */
class ReleaseTest {
  private static Machine machine;
  private static WashOut wash;

  @BeforeAll
  static void read() {
    machine = FleetReader.read(PitSamples.FLEET).fleet().machine("EX-11").orElseThrow();
    wash = WashOut.of(machine);
  }

  /** The contamination balance's own course of a release, not the wash-out law, as the truth. */
  @Test
  void theKernelsCourseIsReadBack() {
    double grams = 5;
    Bands dirty = wash.basePerMl().plus(wash.particlesPerG().times(grams / wash.volumeMl()));
    double[] hours = {0, 5 / 60.0, 10 / 60.0, 25 / 60.0};
    Trace trace =
        Trace.of(Circuit.of(machine.withDuty(List.of(machine.duty().get(2)))), dirty, hours);
    List<Bottle> bottles = new ArrayList<>();
    for (int k = 1; k < hours.length; k++) {
      double[] counts = SizeBands.toCumulative(trace.perMl().get(k).toArray());
      bottles.add(new Bottle(hours[k] * 60, BandCounts.of(counts, 25, false)));
    }
    Release r = new ReleaseFit(wash, Doubt.STANDARD, CountError.STANDARD).of(bottles);
    assertEquals(grams, r.medianG(), 0.15 * grams);
    assertTrue(r.quantileG(0.05) < grams && grams < r.quantileG(0.95));
    assertTrue(r.probabilityAbove(1) > 0.99);
  }

  /** By hand: mass of what is released is conserved, so s_j particles of mass m_j make one gram. */
  @Test
  void aGramIsAGram() {
    assertEquals(1, SizeBands.massG(wash.particlesPerG().toArray()), 1e-12);
  }

  @Test
  void longAfterTheWashOutThePriorIsAllThereIs() {
    MadeBottles made = new MadeBottles(wash, Doubt.STANDARD, CountError.STANDARD, 3, 5);
    Release r =
        new ReleaseFit(wash, Doubt.STANDARD, CountError.STANDARD)
            .of(List.of(made.before(), made.after(1, 2000)));
    assertTrue(r.logSd() > 0.8 * Doubt.STANDARD.releaseSd(), "sd " + r.logSd());
  }

  @Test
  void changesAreGradedRight() {
    SamplingPlan.Request ask = Grading.ask(3, 100);
    SamplingPlan plan =
        SamplingPlan.of(wash, Doubt.STANDARD, CountError.STANDARD, ask, Progress.NONE);
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
            2024);
    assertTrue(g.auc() >= 0.95, "area under the curve " + g.auc());
    assertEquals(0.90, g.cover(), 0.03, "90 % intervals");
  }

  @Test
  void theStatedPowerIsTheTrueOne() {
    SamplingPlan.Request ask = Grading.ask(2, 900);
    SamplingPlan plan =
        SamplingPlan.of(wash, Doubt.STANDARD, CountError.STANDARD, ask, Progress.NONE);
    for (SamplingPlan.Power p : plan.powers()) {
      if (p.grams() == 1.5) {
        double truth = Grading.power(wash, plan.minutes(), ask, p.grams(), 1200, 500_000);
        assertEquals(truth, p.found(), 0.03, "power at " + p.grams() + " g");
      }
    }
  }

  /** Zero particles are a count too: no release follows from an empty bottle. */
  @Test
  void cleanOilAfterAChangeMeansNoRelease() {
    Release r =
        new ReleaseFit(wash, Doubt.STANDARD, CountError.STANDARD)
            .of(
                List.of(
                    new Bottle(
                        4,
                        BandCounts.of(
                            new double[] {0, 0, 0, Double.NaN, Double.NaN, Double.NaN},
                            25,
                            false))));
    assertTrue(r.probabilityAbove(0.1) < 0.05);
  }

  @Test
  void theCounterTellsWhatABottleTells() {
    double[] minutes = new double[1000];
    double[][] perMl = new double[1000][];
    Arrays.setAll(minutes, i -> i * 0.05);
    double coincidence = 2e-6;
    for (int i = 0; i < minutes.length; i++) {
      double t = minutes[i] - 0.5;
      double[] bands = new double[SizeBands.COUNT];
      for (int j = 0; j < bands.length; j++) {
        bands[j] =
            wash.basePerMl().get(j)
                + (t < 0
                    ? 0
                    : 3
                        / wash.volumeMl()
                        * wash.particlesPerG().get(j)
                        * Math.exp(-wash.ratePerMin().get(j) * t));
      }
      double[] c = SizeBands.toCumulative(bands);
      double kept = 1 / (1 + c[0] * coincidence);
      perMl[i] = Arrays.stream(c).map(v -> v * kept).toArray();
    }
    List<Bottle> bottles =
        CounterSeries.bottles(
            minutes, perMl, new CounterSeries.Instrument(0.5, 0, coincidence, 100));
    Release r =
        new ReleaseFit(wash, Doubt.STANDARD, new CountError(0.1, 0.05, 0.05, 100)).of(bottles);
    assertEquals(3, r.medianG(), 0.1);
    assertTrue(bottles.size() <= CounterSeries.MOST);
  }
}
