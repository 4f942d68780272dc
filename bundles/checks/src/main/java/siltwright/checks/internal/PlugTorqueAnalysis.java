package siltwright.checks.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
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
import siltwright.checks.PlugThread;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** How tight a plug with few engaged threads in aluminium may be drawn. */
@Component
@Capability(namespace = "siltwright.command", name = "plug-torque")
public final class PlugTorqueAnalysis implements Analysis {
  private static final NumberParameter DIAMETER = needed("diameter", 5, 60, "nominal diameter");
  private static final NumberParameter PITCH = needed("pitch", 0.5, 4, "pitch of the thread");
  private static final NumberParameter TURNS =
      new NumberParameter(
          "turns",
          "1",
          2,
          12,
          Optional.empty(),
          true,
          "full turns engaged, the run-out not counted");
  private static final NumberParameter TORQUE =
      NumberParameter.optional(
          "torque", "N m", 0.1, 2000, "a torque to check; without it only the highest is told");
  private static final NumberParameter PRESSURE =
      NumberParameter.of("pressure", "kPa", 0, 40_000, 0, "oil pressure that pushes the plug out");
  private static final NumberParameter SEALED =
      NumberParameter.optional(
          "sealed-diameter", "mm", 5, 100, "diameter that the oil presses on; else the thread's");
  private static final NumberParameter BORE =
      NumberParameter.of("bore-strength", "MPa", 80, 600, 210, "tensile strength of the aluminium");
  private static final NumberParameter PLUG =
      NumberParameter.of("plug-strength", "MPa", 200, 1300, 500, "tensile strength of the plug");
  private static final NumberParameter LOW =
      NumberParameter.of(
          "lowest-nut-factor", "1", 0.08, 0.4, 0.15, "nut factor at its slipperiest");
  private static final NumberParameter HIGH =
      NumberParameter.of("highest-nut-factor", "1", 0.08, 0.5, 0.3, "nut factor at its driest");
  private static final NumberParameter WRENCH =
      NumberParameter.of("wrench-error", "1", 0, 0.35, 0.06, "error of the torque wrench, ±");
  private static final NumberParameter MARGIN =
      NumberParameter.of("margin", "1", 1.2, 5, 2, "stripping load over the highest load");

  private static final Description DESCRIPTION =
      Description.of(
          "plug-torque",
          "Plug in aluminium: how tight?",
          "Tells the torque at which few engaged threads in aluminium keep a margin against"
              + " stripping.",
          Scope.NONE,
          DIAMETER,
          PITCH,
          TURNS,
          TORQUE,
          PRESSURE,
          SEALED,
          BORE,
          PLUG,
          LOW,
          HIGH,
          WRENCH,
          MARGIN);

  private static NumberParameter needed(String name, double low, double high, String meaning) {
    return new NumberParameter(name, "mm", low, high, Optional.empty(), true, meaning);
  }

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    PlugThread thread = thread(values);
    double low = values.get(LOW);
    if (low > values.get(HIGH)) {
      throw new InputException(
          new Problem(
              "option",
              "--lowest-nut-factor",
              Numbers.text(low),
              "at most the highest, " + Numbers.text(values.get(HIGH))));
    }
    double sealed = values.find(SEALED).orElse(values.get(DIAMETER));
    // kPa on mm² are millinewtons
    double pushedN = values.get(PRESSURE) / 1000 * Math.PI / 4 * sealed * sealed;
    double stripsN = thread.strippingN(values.get(PLUG), values.get(BORE));
    double allowedN = stripsN / values.get(MARGIN) - pushedN;
    double nmPerN = low * values.get(DIAMETER) / 1000 / (1 + values.get(WRENCH));
    Result.Builder result =
        Result.of(DESCRIPTION, "", values)
            .value("engaged_mm", "Engaged length", "mm", thread.lengthMm())
            .value("plugArea_mm2", "Shear area of the plug", "mm²", thread.externalAreaMm2())
            .value("boreArea_mm2", "Shear area of the bore", "mm²", thread.internalAreaMm2())
            .value("strips_N", "Strips at", "N", stripsN)
            .value("pushed_N", "Pushed by the oil", "N", pushedN)
            .value("highestTorque_Nm", "Highest torque with the margin", "N m", allowedN * nmPerN);
    values.find(TORQUE).ifPresent(t -> check(result, thread, values, t, pushedN, stripsN));
    result.add(figure(thread, values, stripsN, pushedN));
    if (allowedN <= 0) {
      result.finding(
          WARNING,
          "Oil pressure alone uses up the margin: this thread must not hold this plug.",
          "pressure");
    }
    if (thread.lengthMm() < values.get(DIAMETER)) {
      result.finding(
          CAUTION,
          "Engaged over "
              + Numbers.text(thread.lengthMm() / values.get(DIAMETER))
              + " diameters; 2 are usual for steel in aluminium (common practice).",
          "turns");
    }
    result.finding(
        NOTE,
        "The shear areas are those of an undamaged thread, 6g in 6H. A drawn, corroded or repaired"
            + " one holds less: count only turns that are whole.",
        "turns");
    result.finding(CAUTION, Cautions.PRESSURE, "");
    result.finding(NOTE, Cautions.MANUAL, "");
    return result.build();
  }

  private static PlugThread thread(Values values) {
    try {
      return new PlugThread(values.get(DIAMETER), values.get(PITCH), values.get(TURNS));
    } catch (IllegalArgumentException e) {
      throw new InputException(
          new Problem(
              "option", "--pitch", Numbers.text(values.get(PITCH)) + " mm", e.getMessage()));
    }
  }

  private static void check(
      Result.Builder result,
      PlugThread thread,
      Values values,
      double torque,
      double pushedN,
      double stripsN) {
    double error = values.get(WRENCH);
    double least = thread.preloadN(torque * (1 - error), values.get(HIGH));
    double most = thread.preloadN(torque * (1 + error), values.get(LOW));
    double margin = stripsN / (most + pushedN);
    result
        .add(
            new Entry.Value(
                "preload_N", "Load that the torque makes", "N", new Cell.Range(least, most)))
        .value("margin", "Margin against stripping at worst", "1", margin);
    if (margin < 1) {
      result.finding(WARNING, "At this torque the thread may strip.", "torque");
    } else if (margin < values.get(MARGIN)) {
      result.finding(
          WARNING,
          "At this torque the margin may be as small as " + Numbers.text(margin) + ".",
          "torque");
    }
    if (least < pushedN) {
      result.finding(
          WARNING,
          "With dry threads the plug is held by less than the oil pushes: it may leak or loosen.",
          "torque");
    }
  }

  private static Figure figure(PlugThread thread, Values values, double strips, double pushed) {
    double most = strips * values.get(LOW) * values.get(DIAMETER) / 1000 * 1.2;
    int n = 41;
    double[] torque = new double[n];
    double[] least = new double[n];
    double[] highest = new double[n];
    for (int i = 0; i < n; i++) {
      torque[i] = most * i / (n - 1);
      least[i] = pushed + thread.preloadN(torque[i] * (1 - values.get(WRENCH)), values.get(HIGH));
      highest[i] = pushed + thread.preloadN(torque[i] * (1 + values.get(WRENCH)), values.get(LOW));
    }
    return new Figure(
        "load",
        "Load on the thread against torque",
        "The band is what friction and wrench leave open; above the line the thread strips.",
        Axis.linear("Torque", "N m"),
        List.of(
            new Panel(
                Axis.linear("Load", "N"),
                List.of(
                    new Layer.Band("load", torque, least, highest),
                    new Layer.Level("strips", strips),
                    new Layer.Level("with the margin", strips / values.get(MARGIN))))));
  }
}
