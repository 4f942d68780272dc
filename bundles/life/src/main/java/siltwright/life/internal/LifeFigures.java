package siltwright.life.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.life.AftFit;
import siltwright.life.Covariate;
import siltwright.life.CumulativeIncidence;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.KaplanMeier;
import siltwright.life.LifeData;
import siltwright.life.LifeFamily;
import siltwright.life.LifeFit;
import siltwright.life.Quantity;

/** The pictures of a study. */
final class LifeFigures {
  private static final int POINTS = 121;
  private static final int PROFILE_POINTS = 61;
  private static final int MOST_MARKS = 500;
  private static final int MOST_EFFECTS = 6;
  private static final int MOST_RESIDUALS = 20_000;

  /** Shares, %, between which a probability plot shows its line. */
  private static final double LOWEST_SHARE = 0.1;

  private static final double HIGHEST_SHARE = 99.5;

  private final Study study;
  private final LifeData data;
  private final Curve curve;
  private final double longestH;

  LifeFigures(Study study) {
    this.study = study;
    this.data = study.data;
    this.curve = study.curve.thinned();
    double longest = 0;
    for (int i = 0; i < data.rows(); i++) {
      longest = Math.max(longest, data.failed(i) ? data.upperH(i) : data.lowerH(i));
    }
    this.longestH = longest;
  }

  List<Figure> all() {
    List<Figure> figures = new ArrayList<>();
    study
        .fit(LifeFamily.WEIBULL)
        .ifPresent(f -> figures.add(probability(f, Axis.Scale.WEIBULL, "Weibull")));
    study
        .fit(LifeFamily.LOGNORMAL)
        .ifPresent(f -> figures.add(probability(f, Axis.Scale.NORMAL, "lognormal")));
    if (curve.known() || !study.fits.isEmpty()) {
      figures.add(survival());
    }
    if (!study.fits.isEmpty()) {
      figures.add(hazard());
      if (!study.profiles.isEmpty()) {
        profiles().forEach(figures::add);
      }
      figures.add(residuals());
    }
    study.settings.clean().ifPresent(c -> cleanliness(c).ifPresent(figures::add));
    if (!study.regressions.isEmpty() && study.profilesRegressions()) {
      effects(study.regressions.get(0)).forEach(figures::add);
    }
    study.incidence.ifPresent(i -> figures.add(incidence(i)));
    return figures;
  }

  private static double[] grid(double low, double high, int points) {
    double[] xs = new double[points];
    Arrays.setAll(xs, i -> low * Math.pow(high / low, i / (points - 1.0)));
    return xs;
  }

  private static double[] mapped(double[] xs, DoubleUnaryOperator f) {
    return Arrays.stream(xs).map(f).toArray();
  }

  /** Returns the ages at which components were taken out, of so many as a picture can show. */
  private double[] removalsH() {
    int step = 1 + data.rows() / (20 * MOST_MARKS); // of very many, these tell the picture's rest
    double[] ages = new double[data.rows() / step + 1];
    int n = 0;
    for (int i = 0; i < data.rows(); i += step) {
      if (!data.failed(i) && data.lowerH(i) > 0) {
        ages[n++] = data.lowerH(i);
      }
    }
    double[] sorted = Arrays.copyOf(ages, n);
    Arrays.sort(sorted);
    return thinned(sorted);
  }

  private static double[] thinned(double[] sorted) {
    int n = sorted.length;
    if (n <= MOST_MARKS) {
      return sorted;
    }
    double[] some = new double[MOST_MARKS];
    Arrays.setAll(some, i -> sorted[(int) ((long) i * (n - 1) / (MOST_MARKS - 1))]);
    return some;
  }

  private Figure probability(LifeFit fit, Axis.Scale scale, String name) {
    double first = curve.timesH().length > 0 ? curve.timesH()[0] : fit.bLifeH(0.01);
    double low = Math.max(fit.bLifeH(LOWEST_SHARE / 100), Math.min(first / 2, fit.bLifeH(0.01)));
    double high = Math.min(fit.bLifeH(HIGHEST_SHARE / 100), 1.5 * longestH);
    double[] xs = grid(Math.min(low, high / 2), high, POINTS);
    double[] lows = new double[POINTS];
    double[] highs = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      Interval r = fit.estimate(new Quantity.Reliability(xs[i]), Laws.CONFIDENCE).wald();
      lows[i] = 100 * (1 - r.upper());
      highs[i] = 100 * (1 - r.lower());
    }
    DoubleUnaryOperator failed = t -> 100 * (1 - fit.reliability(t));
    double[] removalsH = removalsH();
    List<Layer> layers = new ArrayList<>();
    layers.add(new Layer.Band("95 % confidence", xs, lows, highs));
    layers.add(new Layer.Line(name + " fit", xs, mapped(xs, failed), Layer.Style.MAIN));
    layers.add(
        new Layer.Points(
            "failures",
            curve.timesH(),
            mapped(curve.plottedShares(), p -> 100 * p),
            Layer.Mark.EVENT));
    if (removalsH.length > 0) {
      layers.add(
          new Layer.Points(
              "taken out or still running",
              removalsH,
              mapped(removalsH, failed),
              Layer.Mark.CENSORED));
    }
    return new Figure(
        "probability_" + Laws.word(fit.family()),
        "Probability plot, " + name + " paper",
        "Failures that follow the law lie along the line. Marks on the line are components that had"
            + " not failed.",
        Axis.log(study.ageLabel(), "h"),
        List.of(new Panel(new Axis("Failed", "%", scale), layers)));
  }

  private Figure survival() {
    List<Layer> layers = new ArrayList<>();
    int n = curve.timesH().length;
    double end = longestH;
    double[] xs = new double[2 * n];
    double[] lows = new double[2 * n];
    double[] highs = new double[2 * n];
    for (int i = 0; i < n; i++) {
      xs[2 * i] = curve.timesH()[i];
      xs[2 * i + 1] = i + 1 < n ? curve.timesH()[i + 1] : end;
      for (int k = 0; k < 2; k++) {
        lows[2 * i + k] = 100 * curve.low()[i];
        highs[2 * i + k] = 100 * curve.high()[i];
      }
    }
    if (curve.kaplanMeier().isPresent() && n > 0) {
      layers.add(new Layer.Band("95 % confidence", xs, lows, highs));
    }
    double[] times = new double[n + 2];
    double[] shares = new double[n + 2];
    shares[0] = 100;
    for (int i = 0; i < n; i++) {
      times[i + 1] = curve.timesH()[i];
      shares[i + 1] = 100 * curve.survival()[i];
    }
    times[n + 1] = end;
    shares[n + 1] = shares[n];
    if (curve.known()) {
      layers.add(
          new Layer.Steps(
              curve.kaplanMeier().isPresent() ? "records" : "records (latest possible)",
              times,
              shares,
              Layer.Style.MAIN));
    }
    double[] grid = new double[POINTS];
    Arrays.setAll(grid, i -> end * i / (POINTS - 1));
    for (LifeFit fit : study.fits) {
      layers.add(
          new Layer.Line(
              Laws.word(fit.family()),
              grid,
              mapped(grid, t -> 100 * fit.reliability(t)),
              Layer.Style.COMPARED));
    }
    return new Figure(
        "survival",
        "Survival",
        "Share that reaches an age: the steps are the records without any law, the curves the laws.",
        Axis.linear(study.ageLabel(), "h"),
        List.of(new Panel(Axis.linear("Survive", "%"), layers)));
  }

  private Figure hazard() {
    double end = longestH;
    double[] grid = new double[POINTS];
    Arrays.setAll(grid, i -> end * (i + 1) / POINTS);
    List<Layer> layers = new ArrayList<>();
    for (LifeFit fit : study.fits) {
      layers.add(
          new Layer.Line(
              Laws.word(fit.family()),
              grid,
              mapped(grid, t -> 1000 * fit.hazardPerH(t)),
              fit == study.best() ? Layer.Style.MAIN : Layer.Style.COMPARED));
    }
    return new Figure(
        "hazard",
        "Failures per 1000 hours",
        "Of the components that reached an age, failures in the next 1000 h, were they renewed at"
            + " once. A rising line is wear, a level one is chance.",
        Axis.linear(study.ageLabel(), "h"),
        List.of(new Panel(Axis.linear("Hazard", "per 1000 h"), layers)));
  }

  private List<Figure> profiles() {
    LifeFit fit = study.best();
    Map<String, Laws.Named> wanted = new LinkedHashMap<>();
    for (Laws.Named q : Laws.quantities(fit.family())) {
      boolean held = study.settings.shape().isPresent() && q.quantity().equals(Quantity.SHAPE);
      if (!held && !q.name().equals("meanLife_h")) {
        wanted.put(q.name(), q);
      }
    }
    List<Figure> figures = new ArrayList<>();
    wanted.values().forEach(q -> figures.add(profile(fit, q)));
    return figures;
  }

  private Figure profile(LifeFit fit, Laws.Named q) {
    Estimated e = fit.estimate(q.quantity(), Laws.CONFIDENCE);
    Interval interval = study.profile(fit, q.quantity()).orElseThrow();
    boolean log = !q.quantity().equals(Quantity.MU);
    double low = reach(e.value(), interval.lower(), e.wald().lower(), log);
    double high = reach(e.value(), interval.upper(), e.wald().upper(), log);
    double[] xs = new double[PROFILE_POINTS];
    if (log) {
      xs = grid(low, high, PROFILE_POINTS);
    } else {
      Arrays.setAll(xs, i -> low + (high - low) * i / (PROFILE_POINTS - 1));
    }
    double[] ys = fit.profileLogLikelihood(q.quantity(), xs);
    return profile(
        "profile_" + q.name(),
        "Profile likelihood, " + Laws.word(fit.family()) + ": " + q.label(),
        log ? Axis.log(q.label(), q.unit()) : Axis.linear(q.label(), q.unit()),
        xs,
        mapped(ys, y -> y - fit.logLikelihood()),
        e.wald());
  }

  private static Figure profile(
      String name, String title, Axis x, double[] xs, double[] below, Interval wald) {
    List<Layer> layers = new ArrayList<>();
    layers.add(new Layer.Line("profile", xs, below, Layer.Style.MAIN));
    layers.add(new Layer.Level("95 %", -1.920729));
    for (double end : new double[] {wald.lower(), wald.upper()}) {
      if (Double.isFinite(end) && (end > 0 || x.scale() != Axis.Scale.LOG)) {
        layers.add(new Layer.At("Wald", end, Layer.Style.REFERENCE));
      }
    }
    return new Figure(
        name,
        title,
        "Where the curve is above the level line, a value agrees with the records at 95 %. A curve"
            + " that is no parabola says that a symmetric interval misleads.",
        x,
        List.of(new Panel(Axis.linear("Log likelihood below its maximum", "1"), layers)));
  }

  /** Returns the profiles of the effects of covariates, as factors on life. */
  private static List<Figure> effects(AftFit fit) {
    List<Figure> figures = new ArrayList<>();
    int most = Math.min(MOST_EFFECTS, fit.names().size() - 1);
    for (String name : fit.names().subList(1, 1 + most)) {
      Estimated factor = fit.lifeFactor(name, Laws.CONFIDENCE);
      Interval i = fit.profileInterval(name, Laws.CONFIDENCE);
      double low = reach(factor.value(), Math.exp(i.lower()), factor.wald().lower(), true);
      double high = reach(factor.value(), Math.exp(i.upper()), factor.wald().upper(), true);
      double[] xs = grid(low, high, PROFILE_POINTS);
      double[] below = fit.profileBelowMaximum(name, mapped(xs, Math::log));
      figures.add(
          profile(
              "profile_effect_" + (figures.size() + 1),
              "Profile likelihood, " + Laws.word(fit.family()) + ": effect of " + name,
              Axis.log("Life times, " + name, "1"),
              xs,
              below,
              factor.wald()));
    }
    return figures;
  }

  /** Returns where to end a profile: somewhat beyond its interval, or Wald's where that is open. */
  private static double reach(double value, double profile, double wald, boolean log) {
    double end = Double.isFinite(profile) && (profile > 0 || !log) ? profile : wald;
    return log ? value * Math.pow(end / value, 1.4) : value + 1.4 * (end - value);
  }

  private Figure residuals() {
    Optional<AftFit> regression = study.regressions.stream().findFirst();
    LifeFamily family = regression.map(AftFit::family).orElseGet(() -> study.best().family());
    Curve of = regression.map(this::residualCurve).orElse(curve).thinned();
    double[] lives = of.timesH();
    if (regression.isEmpty()) {
      LifeFit fit = study.best();
      lives = mapped(lives, t -> within(Math.exp((Math.log(t) - fit.mu()) / fit.sigma())));
    }
    double[] ends = {family.standardQuantile(0.002), family.standardQuantile(0.998)};
    double[] xs = grid(Math.exp(ends[0]), Math.exp(ends[1]), POINTS);
    Axis.Scale scale = family == LifeFamily.LOGNORMAL ? Axis.Scale.NORMAL : Axis.Scale.WEIBULL;
    return new Figure(
        "residuals",
        "Residuals, " + Laws.word(family),
        "Each life over the one expected of it, to the power of 1/sigma, by what it shows of the law:"
            + " points along the line agree with it. Failures within intervals stand at their later"
            + " end.",
        Axis.log("Standardised life", "1"),
        List.of(
            new Panel(
                new Axis("Failed", "%", scale),
                List.of(
                    new Layer.Line(
                        "law",
                        xs,
                        mapped(xs, x -> 100 * (1 - family.standardSurvival(Math.log(x)))),
                        Layer.Style.REFERENCE),
                    new Layer.Points(
                        "residuals",
                        lives,
                        mapped(of.plottedShares(), p -> 100 * p),
                        Layer.Mark.EVENT)))));
  }

  /** Returns the survival of the standardised lives of a regression, of a part of very many. */
  private Curve residualCurve(AftFit fit) {
    int step = 1 + data.rows() / MOST_RESIDUALS;
    LifeData some = step == 1 ? data : data.where(i -> i % step == 0);
    double[] z = fit.standardisedResiduals(some);
    double[] upper = new double[z.length];
    double[] count = new double[z.length];
    for (int i = 0; i < z.length; i++) {
      z[i] = within(Math.exp(z[i]));
      upper[i] = some.failed(i) ? z[i] : Double.POSITIVE_INFINITY;
      count[i] = some.countAt(i);
    }
    return Curve.withoutBand(KaplanMeier.of(LifeData.ofColumns(z, upper, null, count)));
  }

  /** Keeps a life within what an age may be; a removal at age 0 says nothing. */
  private static double within(double life) {
    return Math.max(1e-300, Math.min(1e300, life));
  }

  private Optional<Figure> cleanliness(String column) {
    if (study.regressions.isEmpty()) {
      return Optional.empty();
    }
    AftFit fit = study.regressions.get(0);
    double[] codes = ((Covariate.Numeric) data.covariates().get(column)).values();
    double low = Arrays.stream(codes).min().orElseThrow();
    double high = Arrays.stream(codes).max().orElseThrow();
    double[] xs = new double[POINTS];
    Arrays.setAll(xs, i -> low + (high - low) * i / (POINTS - 1));
    double[] median = new double[POINTS];
    double[] lows = new double[POINTS];
    double[] highs = new double[POINTS];
    double[] b10 = new double[POINTS];
    Map<String, Object> at = new LinkedHashMap<>(study.typical());
    for (int i = 0; i < POINTS; i++) {
      at.put(column, xs[i]);
      Estimated e = fit.bLife(at, 0.5, Laws.CONFIDENCE);
      median[i] = e.value();
      lows[i] = e.wald().lower();
      highs[i] = e.wald().upper();
      b10[i] = fit.bLife(at, 0.1, Laws.CONFIDENCE).value();
    }
    return Optional.of(
        new Figure(
            "cleanliness",
            "Life against cleanliness",
            "Ages of the components over the oil they ran in. The line is the median life of the fit"
                + " at typical other covariates; components that had not failed pull it up.",
            Axis.linear("Cleanliness, code number at 6 µm(c)", "1"),
            List.of(
                new Panel(
                    Axis.log(study.ageLabel(), "h"),
                    List.of(
                        new Layer.Band("95 % confidence of the median", xs, lows, highs),
                        new Layer.Line("median life", xs, median, Layer.Style.MAIN),
                        new Layer.Line("B10 life", xs, b10, Layer.Style.REFERENCE),
                        points("failures", codes, true, Layer.Mark.EVENT),
                        points(
                            "taken out or still running", codes, false, Layer.Mark.CENSORED))))));
  }

  private Layer points(String label, double[] codes, boolean failed, Layer.Mark mark) {
    List<double[]> points = new ArrayList<>();
    int step = 1 + data.rows() / (4 * MOST_MARKS);
    for (int i = 0; i < data.rows(); i += step) {
      double t = data.failed(i) ? data.upperH(i) : data.lowerH(i);
      if (data.failed(i) == failed && t > 0) {
        points.add(new double[] {codes[i], t});
      }
    }
    return new Layer.Points(
        label,
        points.stream().mapToDouble(p -> p[0]).toArray(),
        points.stream().mapToDouble(p -> p[1]).toArray(),
        mark);
  }

  private Figure incidence(CumulativeIncidence c) {
    List<Layer> layers = new ArrayList<>();
    int n = c.timesH().length;
    double[] times = new double[n + 2];
    System.arraycopy(c.timesH(), 0, times, 1, n);
    times[n + 1] = longestH;
    for (int k = 0; k < c.modes().size(); k++) {
      double[] shares = new double[n + 2];
      for (int i = 0; i < n; i++) {
        shares[i + 1] = 100 * c.incidence()[k][i];
      }
      shares[n + 1] = shares[n];
      layers.add(new Layer.Steps(c.modes().get(k), times, shares, Layer.Style.COMPARED));
    }
    return new Figure(
        "incidence",
        "What each failure mode takes",
        "Share of components that a mode has taken by an age while the others are at work too.",
        Axis.linear(study.ageLabel(), "h"),
        List.of(new Panel(Axis.linear("Failed by the mode", "%"), layers)));
  }
}
