package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("Balance against SUNDIALS CVODE 6.4.1 (BDF, rtol 1e-12), 300 random machines")
class ReferenceBalanceTest {
  private static final double EXPOSURE = 1e-3;
  private static final double MASS = 1e-4;

  static List<ReferenceCase> cases() {
    return ReferenceCase.all();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void cyclesAgree(ReferenceCase r) {
    Circuit c = r.circuit();
    Balance balance = new Balance(c, r.wear());
    balance.counts(r.bands("start_#_per_mL"));
    double phi = r.get("back_flush_share");
    double[] handling = r.bands("handling_#");
    List<String> misses = new ArrayList<>();
    for (int i = 1; i <= (int) r.get("cycles"); i++) {
      balance.fresh();
      balance.runTo(r.get("interval_h"));
      compare("retained_g_" + i, balance.massG, r.get("retained_g_" + i), MASS, 1e-12, misses);
      double[] passing = r.bands("passing_#_" + i);
      double[] end = r.bands("end_#_per_mL_" + i);
      for (int j = 0; j < 6; j++) {
        compare(
            "passing " + j + " of " + i,
            c.meanFlowMlPerH * balance.dose[j],
            passing[j],
            EXPOSURE,
            1e-3,
            misses);
        compare("end " + j + " of " + i, balance.n[j], end[j], EXPOSURE, 1e-12, misses);
      }
      compare(
          "exposure of " + i, balance.exposureH[0], r.get("exposure_h_" + i), EXPOSURE, 0, misses);
      double[] drop = r.states("pressure_#_kPa_" + i);
      double[] bypass = r.states("bypass_#_" + i);
      for (int k = 0; k < drop.length; k++) {
        compare(
            "drop " + k + " of " + i, c.dropKPa(k, balance.massG), drop[k], EXPOSURE, 0, misses);
        compare(
            "bypass " + k + " of " + i,
            c.bypassShare(k, balance.massG),
            bypass[k],
            EXPOSURE,
            1e-4,
            misses);
      }
      for (int j = 0; j < 6; j++) {
        balance.release(j, phi * balance.retained[j] + handling[j]);
      }
    }
    assertTrue(misses.isEmpty(), () -> String.join("\n", misses));
  }

  private static void compare(
      String what,
      double got,
      double expected,
      double relative,
      double absolute,
      List<String> misses) {
    if (!(Math.abs(got - expected) <= relative * Math.abs(expected) + absolute)) {
      misses.add(
          what + ": " + got + " instead of " + expected + "  rel " + Math.abs(got / expected - 1));
    }
  }
}
