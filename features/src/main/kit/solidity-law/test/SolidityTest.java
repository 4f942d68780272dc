package example.solidity;

import java.nio.file.Path;
import java.util.Map;
import siltwright.analysis.Context;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.model.Element;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Loading;
import siltwright.model.Machine;
import siltwright.model.json.FleetReader;

/** Run by {@code build} with the program's folder as argument. */
class SolidityTest {
  public static void main(String[] arguments) {
    // by hand: 64 · 0.1^1.5 = 2.02386, times 1.056
    check(Math.abs(SolidityLaw.resistance(0.1) - 2.13719) < 1e-4, "F(0.1)");
    Fleet fleet = FleetReader.read(Path.of(arguments[0], "demo-data", "three-pits.json")).fleet();
    SolidityLaw law = new SolidityLaw();
    for (Machine machine : fleet.machines()) {
      Element element = machine.returnFilter().element();
      double full = element.terminalDropKPa() / element.cleanDropKPa();
      Loading loading = law.loading(element, Map.of("solidity", 0.06));
      check(loading.dropRatio(0) == 1, "clean");
      check(Math.abs(loading.dropRatio(1) / full - 1) < 1e-3, "full");
      new SolidityAnalysis()
          .run(Context.of(fleet, machine), Values.standard(SolidityAnalysis.ABOUT), Progress.NONE);
    }
    try {
      law.loading(fleet.machines().get(0).returnFilter().element(), Map.of("solidity", 0.2));
      check(false, "a mat denser than the law was fitted for is refused");
    } catch (InputException e) {
      check(e.getMessage().contains("0.3"), e.getMessage());
    }
    System.out.println("solidity-law: all checks passed");
  }

  private static void check(boolean holds, String what) {
    if (!holds) {
      throw new AssertionError(what);
    }
  }
}
