package siltwright.life.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Figure;
import siltwright.analysis.FlagParameter;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.life.RollingBearing;
import siltwright.life.RollingBearing.Filtration;
import siltwright.life.RollingBearing.Type;
import siltwright.model.CleanlinessCode;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Life of a rolling bearing by ISO 281:2007, to stand beside the user's own records. */
@Component
@Capability(namespace = "siltwright.command", name = "bearing")
public final class BearingAnalysis implements Analysis {
  private static final TextParameter CODE =
      TextParameter.required("code", "such as 18/16/13", "cleanliness of the oil by ISO 4406");
  private static final ChoiceParameter TYPE =
      new ChoiceParameter(
          "type",
          List.of("radial-ball", "radial-roller", "thrust-ball", "thrust-roller"),
          "radial-ball",
          "type of bearing");
  private static final ChoiceParameter FILTRATION =
      new ChoiceParameter(
          "filtration",
          List.of("in-line", "off-line"),
          "in-line",
          "whether all oil passes a filter before the bearing, or there is a bath or a filter beside"
              + " the circuit");
  private static final NumberParameter PITCH =
      needed(
          "pitch-diameter",
          "mm",
          1,
          10_000,
          "pitch diameter; (bore + outside diameter)/2 may stand for it");
  private static final NumberParameter RATING =
      needed("dynamic-rating", "kN", 0.01, 1e5, "basic dynamic load rating C");
  private static final NumberParameter LOAD =
      needed("load", "kN", 0.001, 1e5, "equivalent dynamic load P");
  private static final NumberParameter FATIGUE =
      needed("fatigue-limit", "kN", 0.0001, 1e5, "fatigue load limit C_u");
  private static final NumberParameter SPEED = needed("speed", "r/min", 0.1, 1e5, "speed");
  private static final NumberParameter VISCOSITY =
      needed("viscosity", "mm²/s", 0.1, 1e5, "viscosity of the oil at operating temperature");
  private static final NumberParameter RELIABILITY =
      NumberParameter.of("reliability", "1", 0.9, 0.99, 0.9, "share that is to reach the life");
  private static final FlagParameter ADDITIVE =
      new FlagParameter("additive", "counts a proven extreme-pressure additive");
  private static final Description DESCRIPTION =
      Description.of(
          "bearing",
          "Bearing life",
          "Tells the life of a rolling bearing of a pump or motor in oil of a cleanliness (ISO 281).",
          Scope.NONE,
          CODE,
          TYPE,
          FILTRATION,
          PITCH,
          RATING,
          LOAD,
          FATIGUE,
          SPEED,
          VISCOSITY,
          RELIABILITY,
          ADDITIVE);

  private static final int CLEANEST_AT_6 = 10;
  private static final int DIRTIEST_AT_6 = 23;

  private static NumberParameter needed(
      String name, String unit, double low, double high, String meaning) {
    return new NumberParameter(name, unit, low, high, Optional.empty(), true, meaning);
  }

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    CleanlinessCode code = code(values.get(CODE));
    Type type = Type.valueOf(values.get(TYPE).replace('-', '_').toUpperCase(Locale.ROOT));
    double speed = values.get(SPEED);
    double pitch = values.get(PITCH);
    double reference = RollingBearing.referenceViscosityMm2PerS(speed, pitch);
    double kappa = values.get(VISCOSITY) / reference;
    if (kappa < RollingBearing.LOWEST_KAPPA) {
      throw new InputException(
          new Problem(
              "option",
              "--viscosity",
              Say.number(values.get(VISCOSITY)),
              "at least "
                  + Say.number(RollingBearing.LOWEST_KAPPA * reference)
                  + " mm²/s: the standard has no factor for oil that thin at this speed"));
    }
    double contamination = contamination(values, code, kappa);
    double factor = factor(values, type, kappa, contamination);
    double a1 = RollingBearing.reliabilityFactor(values.get(RELIABILITY));
    double basic = RollingBearing.basicLifeMrev(type, values.get(RATING), values.get(LOAD));
    Result.Builder result =
        Result.of(DESCRIPTION, "", values)
            .value("referenceViscosity_mm2_per_s", "Reference viscosity", "mm²/s", reference)
            .value("kappa", "Viscosity ratio kappa", "1", kappa)
            .value("contaminationFactor", "Contamination factor e_C", "1", contamination)
            .value(
                "loadRatio",
                "e_C C_u/P",
                "1",
                contamination * values.get(FATIGUE) / values.get(LOAD))
            .value("lifeFactor", "Life modification factor a_ISO", "1", factor)
            .value("reliabilityFactor", "Reliability factor a_1", "1", a1)
            .value("basicLife_Mrev", "Basic life L_10", "million revolutions", basic)
            .value("basicLife_h", "Basic life L_10h", "h", RollingBearing.hoursH(basic, speed))
            .value(
                "life_h", "Life, modified", "h", RollingBearing.hoursH(a1 * factor * basic, speed));
    result.add(figure(values, type, kappa, a1 * basic));
    findings(result, type, kappa, contamination, code);
    return result.build();
  }

  private static CleanlinessCode code(String text) {
    try {
      return CleanlinessCode.parse(text);
    } catch (IllegalArgumentException e) {
      throw new InputException(new Problem("option", "--code", text, e.getMessage()));
    }
  }

  private static double contamination(Values values, CleanlinessCode code, double kappa) {
    Filtration filtration =
        values.get(FILTRATION).equals("in-line") ? Filtration.IN_LINE : Filtration.OFF_LINE;
    return RollingBearing.contaminationFactor(code, filtration, kappa, values.get(PITCH));
  }

  private static double factor(Values values, Type type, double kappa, double contamination) {
    double ratio = values.get(FATIGUE) / values.get(LOAD);
    return values.get(ADDITIVE)
        ? RollingBearing.lifeFactorWithAdditive(type, kappa, contamination, ratio)
        : RollingBearing.lifeFactor(type, kappa, contamination * ratio);
  }

  private Figure figure(Values values, Type type, double kappa, double lifeMrev) {
    int n = DIRTIEST_AT_6 - CLEANEST_AT_6 + 1;
    double[] xs = new double[n];
    double[] ys = new double[n];
    for (int i = 0; i < n; i++) {
      int at6 = CLEANEST_AT_6 + i;
      CleanlinessCode code = new CleanlinessCode(at6 + 2, at6, at6 - 3);
      double factor = factor(values, type, kappa, contamination(values, code, kappa));
      xs[i] = at6;
      ys[i] = RollingBearing.hoursH(factor * lifeMrev, values.get(SPEED));
    }
    List<Layer> layers = new ArrayList<>();
    layers.add(new Layer.Steps("life", xs, ys, Layer.Style.MAIN));
    layers.add(new Layer.At("this oil", code(values.get(CODE)).at6(), Layer.Style.REFERENCE));
    return new Figure(
        "life",
        "Bearing life against cleanliness",
        "Life in oils whose code falls by 2 and 3 from 4 to 6 and 14 µm(c). The standard knows"
            + " classes, so it falls in steps.",
        Axis.linear("Code number at 6 µm(c)", "1"),
        List.of(new Panel(Axis.log("Life", "h"), layers)));
  }

  private static void findings(
      Result.Builder result, Type type, double kappa, double contamination, CleanlinessCode code) {
    result.finding(
        NOTE,
        "A standard's life, not one of your records: compare, do not average. e_C is that of the"
            + " standard's next dirtier class.",
        "");
    if (!type.formulaSeen()) {
      result.finding(
          CAUTION,
          "The coefficients of thrust bearings are from memory; check them.",
          "lifeFactor");
    }
    if (contamination == 0) {
      result.finding(
          CAUTION,
          "Oil of code "
              + code
              + " is dirtier than the standard's last class: it counts as very"
              + " severe contamination.",
          "contaminationFactor");
    }
    if (kappa < 0.4) {
      result.finding(
          CAUTION, "The film is thin (kappa below 0.4): expect wear besides fatigue.", "kappa");
    }
  }
}
