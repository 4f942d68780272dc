package example.coldstart;

import java.nio.file.Path;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.model.Fleet;
import siltwright.model.Fluid;
import siltwright.model.Machine;
import siltwright.model.json.FleetReader;

/** Run by {@code build} with the program's folder as argument. */
class ColdStartTest {
  public static void main(String[] arguments) {
    Fleet fleet = FleetReader.read(Path.of(arguments[0], "demo-data", "three-pits.json")).fleet();
    for (Machine machine : fleet.machines()) {
      Result result =
          new ColdStart().run(Context.of(fleet, machine), Values.standard(ColdStart.ABOUT), Progress.NONE);
      Entry.Table elements = (Entry.Table) result.entries().get(0);
      check(elements.rows().size() == 3 && result.figures().size() == 1, machine.id());
      // colder oil and a fuller element never send less past it
      for (double ratio = 1; ratio < 16; ratio += 1) {
        for (double degC = -30; degC < 60; degC += 5) {
          double here = ColdOil.past(machine, ratio, degC);
          check(here >= 0 && here < 1, "a share");
          check(here >= ColdOil.past(machine, ratio, degC + 5), "colder");
          check(here <= ColdOil.past(machine, ratio + 1, degC), "fuller");
        }
      }
    }
    // the two points that define the line
    Fluid oil = new Fluid("oil", "ISO VG 46", 40, 46, 100, 6.8, 870);
    check(Math.abs(ColdOil.viscosity(oil, 40) - 46) < 1e-9, "40 °C");
    check(Math.abs(ColdOil.viscosity(oil, 100) - 6.8) < 1e-9, "100 °C");
    // by hand: lg lg 46.7 = 0.22254, lg lg 7.5 = -0.05796, lg T = 2.49575, 2.57188, 2.43640 at 0 °C;
    // slope -3.6844, so lg lg (v + 0.7) = 0.44121 and v = 577
    check(Math.abs(ColdOil.viscosity(oil, 0) / 577 - 1) < 0.002, "0 °C");
    System.out.println("cold-start: all checks passed");
  }

  private static void check(boolean holds, String what) {
    if (!holds) {
      throw new AssertionError(what);
    }
  }
}
