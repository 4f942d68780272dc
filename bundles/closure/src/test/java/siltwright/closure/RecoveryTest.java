package siltwright.closure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Progress;
import siltwright.model.Machine;
import siltwright.samples.CountError;

/** Numbers that were put in are found again; 500 machines stand in docs/closure-study.md. */
class RecoveryTest {
  @Test
  void fortyMachinesAreFoundAgain() {
    Errors e = Errors.STANDARD;
    Recovery r = Recovery.of(MadeMachines.machine("EX-12"), 8, 5, e, e, 0.2, 71);
    assertTrue(r.error(0) <= 0.10, "all ingress " + r.error(0));
    assertTrue(r.error(1) <= 0.10, "field efficiency " + r.error(1));
    assertTrue(r.error(3) <= 0.10, "into the return line " + r.error(3));
    assertTrue(r.cover(0) > 0.75 && r.cover(1) > 0.75, r.cover(0) + " and " + r.cover(1));
    assertTrue(r.rHat() < 1.05, "R-hat " + r.rHat());
  }

  /** Own derivation: with the file's own numbers the model is the file's machine. */
  @Test
  void nothingOffIsTheFileItself() {
    Machine m = MadeMachines.machine("HT-14");
    ClosureModel model = new ClosureModel(m, List.of());
    double[] none = new double[ClosureModel.UNKNOWNS];
    assertEquals(m.returnFilter().fieldEfficiency(), model.efficiency(none), 1e-12);
    Machine same = model.with(none);
    for (int i = 0; i < m.ingress().returnLine().size(); i++) {
      assertEquals(
          m.ingress().returnLine().get(i).rateMgPerH(),
          same.ingress().returnLine().get(i).rateMgPerH(),
          1e-9);
    }
  }

  /** Exact records of many elements leave little open, whatever the file says. */
  @Test
  void exactRecordsOverruleTheFile() {
    Errors exact = new Errors(new CountError(0, 0.01, 0.01, 2500), 0.01, 0.1, 0);
    MadeMachines made = MadeMachines.of(MadeMachines.machine("EX-12"), 3, exact, 0.6, 0.1, 5);
    ClassFit fit = ClassFit.of(made.models, exact, 1, Progress.NONE);
    for (int i = 0; i < 3; i++) {
      double in = made.models.get(i).ingressMgPerH(made.truth.get(i));
      double f = made.models.get(i).efficiency(made.truth.get(i));
      assertEquals(in, fit.told(i, ClosureModel::ingressMgPerH).median(), 0.03 * in);
      assertEquals(f, fit.told(i, ClosureModel::efficiency).median(), 0.03 * f);
    }
  }

  /** Elements alone tell what comes in, and nothing of how well the element works. */
  @Test
  void withoutSamplesTheEfficiencyStaysOpen() {
    MadeMachines made =
        MadeMachines.of(MadeMachines.machine("EX-12"), 1, Errors.STANDARD, 0.1, 0.1, 9);
    ClosureModel m = made.models.get(0);
    List<ElementLife> lives =
        m.lives().stream()
            .map(
                l ->
                    new ElementLife(
                        l.endH(),
                        l.changed(),
                        l.indicatorH(),
                        l.backFlush(),
                        l.handlingMg(),
                        List.of(),
                        List.of()))
            .toList();
    ClassFit fit =
        ClassFit.of(
            List.of(new ClosureModel(m.machine(), lives)), Errors.STANDARD, 1, Progress.NONE);
    assertTrue(fit.narrowed(0, 0) < 0.2, "ingress " + fit.narrowed(0, 0));
    assertTrue(fit.narrowed(0, 2) > 0.8, "efficiency " + fit.narrowed(0, 2));
  }
}
