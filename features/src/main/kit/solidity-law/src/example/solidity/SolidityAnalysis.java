package example.solidity;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Entry.Table;
import siltwright.analysis.Entry.Use;
import siltwright.analysis.Figure;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.Element;
import siltwright.model.LoadingPoint;
import siltwright.model.Machine;

/** The element of a machine under another loading law: how much the choice of the law matters. */
public final class SolidityAnalysis implements Analysis {
  static final NumberParameter SOLIDITY =
      NumberParameter.of("solidity", "1", 0.01, 0.2, 0.06, "share of the clean mat that is fibre");
  static final Description ABOUT =
      Description.of(
          "solidity-law",
          "Solidity law",
          "When would the bypass open if the element loaded like a mat that grows denser?",
          Scope.MACHINE,
          SOLIDITY);

  @Override
  public Description description() {
    return ABOUT;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Machine machine = context.machine();
    Element element = machine.returnFilter().element();
    SolidityLaw law =
        new SolidityLaw(values.get(SOLIDITY), element.terminalDropKPa() / element.cleanDropKPa());
    DoubleUnaryOperator file = share -> ofFile(element, share);
    double cracking = machine.returnFilter().bypassCrackingKPa() / element.cleanDropKPa();
    double opensByFile = share(file, cracking);
    double opens = share(law::dropRatio, cracking);
    Result.Builder result = Result.of(ABOUT, machine, values);
    result.value("opens_g", "Bypass opens at", "g", opens * element.capacityG());
    result.value("opensByFile_g", "By the file's law", "g", opensByFile * element.capacityG());
    result.value("ratio", "The one, of the other", "1", opens / opensByFile);
    result.value("fullSolidity", "Solidity at the capacity", "1", law.fullSolidity());
    List<List<Cell>> rows = new ArrayList<>();
    double[] shares = IntStream.rangeClosed(0, 50).mapToDouble(i -> i / 50.0).toArray();
    for (int i = 0; i <= 50; i += 10) {
      rows.add(
          List.of(
              Cell.of(shares[i] * element.capacityG()),
              Cell.of(law.dropRatio(shares[i]) * element.cleanDropKPa()),
              Cell.of(file.applyAsDouble(shares[i]) * element.cleanDropKPa())));
    }
    result.add(
        new Table(
            "loading",
            "Pressure drop at rated flow and viscosity",
            Use.READ,
            List.of(
                new Column("retained_g", "Retained", "g"),
                new Column("drop_kPa", "Solidity law", "kPa"),
                new Column("dropByFile_kPa", "The file's law", "kPa")),
            rows));
    result.add(
        new Figure(
            "loading",
            "Pressure drop over the load",
            "Both laws meet at the clean and at the full element; the way between decides.",
            Axis.linear("Retained, of the capacity", "1"),
            List.of(
                new Panel(
                    Axis.linear("Drop, of the clean one's", "1"),
                    List.of(
                        curve("solidity law", shares, law::dropRatio, Layer.Style.MAIN),
                        curve("the file's law", shares, file, Layer.Style.REFERENCE),
                        new Layer.Level("bypass opens", cracking))))));
    if (law.fullSolidity() > SolidityLaw.DENSEST) {
      result.finding(
          Severity.CAUTION, "The full mat is denser than the law was fitted for.", "returnFilter");
    }
    return result.build();
  }

  private static Layer curve(
      String label, double[] shares, DoubleUnaryOperator law, Layer.Style style) {
    return new Layer.Line(label, shares, Arrays.stream(shares).map(law).toArray(), style);
  }

  /** Returns the share of the capacity at which a rising law reaches a ratio; at most 1. */
  private static double share(DoubleUnaryOperator law, double ratio) {
    double low = 0;
    double high = 1;
    for (int i = 0; i < 60; i++) {
      double middle = (low + high) / 2;
      if (law.applyAsDouble(middle) < ratio) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }

  /** The law of the fleet file: a measured curve, or Hermia's blocking laws by their exponent. */
  static double ofFile(Element element, double share) {
    List<LoadingPoint> curve = element.loadingCurve();
    for (int i = 1; i < curve.size(); i++) {
      LoadingPoint a = curve.get(i - 1);
      LoadingPoint b = curve.get(i);
      if (share <= b.massShare() || i == curve.size() - 1) {
        double part = (share - a.massShare()) / (b.massShare() - a.massShare());
        return a.dropRatio() + part * (b.dropRatio() - a.dropRatio());
      }
    }
    double n = element.blockingExponent();
    double r = element.terminalDropKPa() / element.cleanDropKPa();
    return Math.abs(n - 1) < 1e-9
        ? Math.pow(r, share)
        : Math.pow(1 + (Math.pow(r, 1 - n) - 1) * share, 1 / (1 - n));
  }
}
