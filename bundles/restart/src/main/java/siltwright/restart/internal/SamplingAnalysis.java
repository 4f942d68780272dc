package siltwright.restart.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.model.SizeBands;
import siltwright.restart.Doubt;
import siltwright.restart.SamplingPlan;
import siltwright.restart.WashOut;
import siltwright.samples.CountError;
import siltwright.samples.CountErrorParameters;

/** When to draw bottles after a change, how many, and what they can tell. */
@Component
@Capability(namespace = "siltwright.command", name = "sampling")
public final class SamplingAnalysis implements Analysis {
  private static final WholeParameter BOTTLES =
      new WholeParameter(
          "bottles",
          1,
          12,
          SamplingPlan.Request.STANDARD.bottles(),
          "bottles to draw after the restart");
  private static final ChoiceParameter BEFORE =
      new ChoiceParameter(
          "before",
          List.of("yes", "no"),
          "yes",
          "whether a sample from before the change is there");
  private static final WholeParameter SIZES =
      new WholeParameter(
          "sizes",
          1,
          6,
          SamplingPlan.Request.STANDARD.sizes(),
          "sizes that are counted, from the least: 4, 6, 14, 21, 38, 70 µm(c)");
  private static final NumberParameter EARLIEST =
      NumberParameter.of(
          "earliest-min",
          "min",
          0,
          600,
          SamplingPlan.Request.STANDARD.earliestMin(),
          "first minute of running at which the oil is mixed and a bottle can be drawn");
  private static final NumberParameter APART =
      NumberParameter.of(
          "apart-min",
          "min",
          0,
          240,
          SamplingPlan.Request.STANDARD.apartMin(),
          "least minutes between two bottles");
  private static final WholeParameter DRAWS =
      new WholeParameter(
          "draws",
          50,
          20_000,
          SamplingPlan.Request.STANDARD.draws(),
          "changes drawn for each power");
  private static final WholeParameter SEED =
      new WholeParameter("seed", 0, Long.MAX_VALUE / 10_000, 1, "seed of the draws");

  private static final Description DESCRIPTION =
      Description.of(
          "sampling",
          "Sampling plan",
          "When should bottles be drawn after a change, and what release can they tell?",
          Scope.MACHINE,
          RestartAnalysis.LIMIT,
          BOTTLES,
          BEFORE,
          SIZES,
          EARLIEST,
          APART,
          DRAWS,
          SEED,
          CountErrorParameters.ALL,
          CountErrorParameters.BOTTLE,
          CountErrorParameters.SIZE,
          CountErrorParameters.VOLUME);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    progress.check(0.01, "wash-out");
    WashOut wash = WashOut.of(context.machine());
    CountError error = CountErrorParameters.of(values);
    double limit = values.get(RestartAnalysis.LIMIT);
    SamplingPlan.Request ask =
        new SamplingPlan.Request(
            values.get(BOTTLES).intValue(),
            values.get(BEFORE).equals("yes"),
            values.get(SIZES).intValue(),
            limit,
            values.get(EARLIEST),
            values.get(APART),
            values.get(DRAWS).intValue(),
            values.get(SEED));
    SamplingPlan plan = SamplingPlan.of(wash, Doubt.of(context.machine()), error, ask, progress);
    Result.Builder result = Result.of(DESCRIPTION, context.machine().id(), values);
    double[] minutes = Arrays.stream(plan.minutes()).map(Math::rint).toArray();
    result.add(
        new Entry.Group(
            "plan",
            "Plan",
            List.of(
                new Entry.Value(
                    "minutes_min", "Draw after the restart, at", "min", new Cell.Numbers(minutes)),
                new Entry.Value("first_min", "First bottle", "min", Cell.of(minutes[0])),
                new Entry.Value(
                    "last_min", "Last bottle", "min", Cell.of(minutes[minutes.length - 1])),
                new Entry.Value(
                    "seen_g",
                    "Least release found four times out of five",
                    "g",
                    Cell.of(plan.seenG())),
                new Entry.Value(
                    "pointlessAfter_min",
                    "Pointless after",
                    "min",
                    Cell.of(Math.rint(plan.lastUsefulMin()))),
                new Entry.Value(
                    "tau4_min", "Time constant at 4 to 6 µm(c)", "min", Cell.of(wash.tauMin(0))),
                new Entry.Value(
                    "tau14_min",
                    "Time constant at 14 to 21 µm(c)",
                    "min",
                    Cell.of(wash.tauMin(2))))));
    result.add(power(plan));
    result.add(figure(wash, plan, limit));
    if (plan.lastUsefulMin() < ask.earliestMin() || Double.isInfinite(plan.seenG())) {
      result.finding(
          CAUTION,
          "On this machine these bottles do not tell a release of "
              + Numbers.text(limit)
              + " g: the oil washes out too fast, holds too much, or is too dirty. Look at more sizes,"
              + " a counter in the line, or a larger limit.",
          "reservoir");
    } else {
      result.finding(
          NOTE,
          "After "
              + Numbers.text(Math.rint(plan.lastUsefulMin()))
              + " min of running a bottle tells little of a release of "
              + Numbers.text(limit)
              + " g: it has washed out.",
          "reservoir");
    }
    result.finding(
        NOTE,
        "A change is said to have shed more when that is 90 % probable. Powers are counted on "
            + ask.draws()
            + " drawn changes, known to "
            + Numbers.text(Math.rint(100 * 1.96 * Math.sqrt(0.25 / ask.draws())))
            + " points.",
        "");
    result.finding(
        NOTE,
        "Take bottles from a live sampling point in running, flushed; hot oil and pressure: heed the"
            + " maker's manual.",
        "");
    return result.build();
  }

  private static Entry.Table power(SamplingPlan plan) {
    List<List<Cell>> rows = new ArrayList<>();
    for (SamplingPlan.Power p : plan.powers()) {
      rows.add(List.of(Cell.of(p.grams()), Cell.of(p.found())));
    }
    return new Entry.Table(
        "power",
        "How often a release is said to be more than the limit",
        Entry.Use.READ,
        List.of(new Column("released_g", "Truly released", "g"), new Column("found", "Found", "1")),
        rows);
  }

  private static Figure figure(WashOut wash, SamplingPlan plan, double limit) {
    int points = 121;
    double end =
        Math.max(1.5 * plan.minutes()[plan.minutes().length - 1], 1.1 * plan.lastUsefulMin());
    double[] t = new double[points];
    Arrays.setAll(t, i -> end * i / (points - 1));
    List<Layer> layers = new ArrayList<>();
    int[] from = {0, 1, 2};
    for (int size : from) {
      double[] y = new double[points];
      for (int i = 0; i < points; i++) {
        for (int j = size; j < SizeBands.COUNT; j++) {
          y[i] +=
              wash.basePerMl().get(j)
                  + limit
                      / wash.volumeMl()
                      * wash.particlesPerG().get(j)
                      * Math.exp(-wash.ratePerMin().get(j) * t[i]);
        }
      }
      layers.add(
          new Layer.Line("≥ " + SizeBands.edgeUmC(size) + " µm(c)", t, y, Layer.Style.COMPARED));
    }
    for (int k = 0; k < plan.minutes().length; k++) {
      layers.add(new Layer.At(k == 0 ? "draw a bottle" : "", plan.minutes()[k], Layer.Style.LIMIT));
    }
    return new Figure(
        "washOut",
        "Counts after a change that released " + Numbers.text(limit) + " g",
        "Counts fall back to what the oil settles at; the upright lines are the bottles of the plan.",
        Axis.linear("Running since the restart", "min"),
        List.of(new Panel(Axis.log("Particles", "1/mL"), layers)));
  }
}
