package siltwright.checks.internal;

import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.List;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.checks.TankVent;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** How long a pressurised tank takes to vent. */
@Component
@Capability(namespace = "siltwright.command", name = "vent-time")
public final class VentTimeAnalysis implements Analysis {
  private static final NumberParameter AIR =
      new NumberParameter(
          "air",
          "L",
          1,
          20_000,
          Optional.empty(),
          true,
          "air volume above the oil, cylinders as they are");
  private static final NumberParameter BORE =
      new NumberParameter(
          "vent-bore",
          "mm",
          0.3,
          100,
          Optional.empty(),
          true,
          "narrowest bore that the air leaves by");
  private static final NumberParameter FROM =
      NumberParameter.of("pressure", "kPa", 1, 1000, 50, "gauge pressure in the tank");
  private static final NumberParameter TO =
      NumberParameter.of("safe-pressure", "kPa", 0.1, 100, 1, "gauge pressure to come down to");
  private static final NumberParameter LEAST_C =
      NumberParameter.of(
          "lowest-coefficient", "1", 0.1, 1, 0.5, "flow coefficient of the vent at its worst");
  private static final NumberParameter MOST_C =
      NumberParameter.of(
          "highest-coefficient", "1", 0.1, 1, 0.8, "flow coefficient of the vent at its best");
  private static final NumberParameter AIR_TEMPERATURE =
      NumberParameter.of("air-temperature", "°C", -40, 120, 50, "temperature of the air");
  private static final NumberParameter OUTSIDE =
      NumberParameter.of("outside-pressure", "kPa", 50, 110, 101.325, "pressure outside, absolute");

  private static final Description DESCRIPTION =
      Description.of(
          "vent-time",
          "Pressurised tank: time to vent",
          "Tells how long the vent of a pressurised tank must stand open for its pressure to be"
              + " gone; the gauge decides.",
          Scope.NONE,
          AIR,
          BORE,
          FROM,
          TO,
          LEAST_C,
          MOST_C,
          AIR_TEMPERATURE,
          OUTSIDE);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    double from = values.get(FROM);
    double to = values.get(TO);
    below(TO, to, FROM, from);
    below(LEAST_C, values.get(LEAST_C), MOST_C, values.get(MOST_C));
    TankVent slow = vent(values, values.get(LEAST_C));
    TankVent fast = vent(values, values.get(MOST_C));
    return Result.of(DESCRIPTION, "", values)
        .add(
            new Entry.Value(
                "time_s",
                "Time to vent",
                "s",
                new Cell.Range(fast.timeS(from, to), slow.timeS(from, to))))
        .value(
            "airAtFirst_g_per_s",
            "Air that leaves at first, at most",
            "g/s",
            1000 * fast.flowKgPerS(from))
        .add(figure(slow, fast, from, to))
        .finding(
            WARNING,
            "A time is no proof: open nothing until a gauge on the tank reads zero and the vent no"
                + " longer blows. A vent may be blocked by paint, ice or dirt.",
            "vent-bore")
        .finding(WARNING, Cautions.PRESSURE, "")
        .finding(
            NOTE,
            "Air dissolved in the oil and cylinders that sink press on afterwards: leave the vent"
                + " open while you work.",
            "air")
        .finding(NOTE, Cautions.MANUAL, "")
        .build();
  }

  private static void below(NumberParameter low, double l, NumberParameter high, double h) {
    if (l > h) {
      throw new InputException(
          new Problem(
              "option",
              "--" + low.name(),
              Numbers.text(l),
              "at most --" + high.name() + ", " + Numbers.text(h)));
    }
  }

  private static TankVent vent(Values values, double coefficient) {
    return new TankVent(
        values.get(AIR),
        values.get(BORE),
        coefficient,
        values.get(AIR_TEMPERATURE),
        values.get(OUTSIDE));
  }

  private static Figure figure(TankVent slow, TankVent fast, double from, double to) {
    int n = 41;
    double[] pressure = new double[n];
    double[] late = new double[n];
    double[] early = new double[n];
    for (int i = 0; i < n; i++) {
      pressure[i] = from + (to - from) * i / (n - 1);
      late[i] = slow.timeS(from, pressure[i]);
      early[i] = fast.timeS(from, pressure[i]);
    }
    return new Figure(
        "pressure",
        "Pressure in the tank",
        "The slow and the fast vent of the range given.",
        Axis.linear("Time", "s"),
        List.of(
            new Panel(
                Axis.linear("Gauge pressure", "kPa"),
                List.of(
                    new Layer.Line("vent at its worst", late, pressure, Layer.Style.MAIN),
                    new Layer.Line("vent at its best", early, pressure, Layer.Style.COMPARED),
                    new Layer.Level("to come down to", to)))));
  }
}
