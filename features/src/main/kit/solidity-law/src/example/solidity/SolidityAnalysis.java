package example.solidity;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
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
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.Element;
import siltwright.model.Loading;
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
    double solidity = values.get(SOLIDITY);
    Loading law = new SolidityLaw().loading(element, Map.of("solidity", solidity));
    Loading file = element.loading();
    double cracking = machine.returnFilter().bypassCrackingKPa() / element.cleanDropKPa();
    double opens = law.massShareAt(cracking);
    double opensByFile = file.massShareAt(cracking);
    double full =
        SolidityLaw.fullSolidity(solidity, element.terminalDropKPa() / element.cleanDropKPa());
    Result.Builder result = Result.of(ABOUT, machine, values);
    result.value("opens_g", "Bypass opens at", "g", opens * element.capacityG());
    result.value("opensByFile_g", "By the file's law", "g", opensByFile * element.capacityG());
    result.value("ratio", "The one, of the other", "1", opens / opensByFile);
    result.value("fullSolidity", "Solidity at the capacity", "1", full);
    List<List<Cell>> rows = new ArrayList<>();
    double[] shares = IntStream.rangeClosed(0, 50).mapToDouble(i -> i / 50.0).toArray();
    for (int i = 0; i <= 50; i += 10) {
      rows.add(
          List.of(
              Cell.of(shares[i] * element.capacityG()),
              Cell.of(law.dropRatio(shares[i]) * element.cleanDropKPa()),
              Cell.of(file.dropRatio(shares[i]) * element.cleanDropKPa())));
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
                        curve("the file's law", shares, file::dropRatio, Layer.Style.REFERENCE),
                        new Layer.Level("bypass opens", cracking))))));
    return result.build();
  }

  private static Layer curve(
      String label, double[] shares, DoubleUnaryOperator law, Layer.Style style) {
    return new Layer.Line(label, shares, Arrays.stream(shares).map(law).toArray(), style);
  }
}
