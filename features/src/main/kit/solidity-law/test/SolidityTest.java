package example.solidity;

import java.nio.file.Path;
import siltwright.analysis.Context;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.model.Element;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.json.FleetReader;

/** Run by {@code build} with the program's folder as argument. */
class SolidityTest {
  public static void main(String[] arguments) {
    // by hand: 64 · 0.1^1.5 = 2.02386, times 1.056
    check(Math.abs(SolidityLaw.resistance(0.1) - 2.13719) < 1e-4, "F(0.1)");
    Fleet fleet = FleetReader.read(Path.of(arguments[0], "demo-data", "three-pits.json")).fleet();
    for (Machine machine : fleet.machines()) {
      Element element = machine.returnFilter().element();
      double full = element.terminalDropKPa() / element.cleanDropKPa();
      SolidityLaw law = new SolidityLaw(0.06, full);
      check(Math.abs(law.dropRatio(0) - 1) < 1e-12, "clean");
      check(Math.abs(law.dropRatio(1) / full - 1) < 1e-9, "full");
      if (element.loadingCurve().isEmpty()) {
        check(Math.abs(SolidityAnalysis.ofFile(element, 1) / full - 1) < 1e-9, "full by the file");
      }
      new SolidityAnalysis()
          .run(Context.of(fleet, machine), Values.standard(SolidityAnalysis.ABOUT), Progress.NONE);
    }
    System.out.println("solidity-law: all checks passed");
  }

  private static void check(boolean holds, String what) {
    if (!holds) {
      throw new AssertionError(what);
    }
  }
}
