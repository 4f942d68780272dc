package siltwright.element;

import java.util.Locale;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import siltwright.cleanliness.ViscosityLine;

/** Invented logs of elements that follow a blocking law. */
final class MadeLogs {
  static final ViscosityLine OIL = ViscosityLine.through(40, 46, 100, 6.8);
  static final double[] NONE = {};

  private MadeLogs() {}

  /** A log without flow and temperature, a row an hour. */
  static DropLog of(String name, int rows, DoubleUnaryOperator dropKPa) {
    double[] t = new double[rows];
    double[] p = new double[rows];
    for (int i = 0; i < rows; i++) {
      t[i] = i + 1;
      p[i] = dropKPa.applyAsDouble(t[i]);
    }
    return new DropLog(name, t, p, NONE, NONE, NONE);
  }

  /** Hermia's law: dh/dm = k h^n from a clean drop. */
  static double law(double cleanKPa, double k, double n, double m) {
    return n == 1
        ? cleanKPa * Math.exp(k * m)
        : cleanKPa * Math.pow(1 + (1 - n) * k * m, 1 / (1 - n));
  }

  /**
   * The table of demo-data: 20 weeks of an invented excavator, with one change of the element,
   * readings at changing flow and temperature. Same seed, same bytes.
   */
  static String demo() {
    Random random = new Random(20_261_128);
    StringBuilder text = new StringBuilder("time,deltaP_kPa,flow_L_per_min,oil_degC\n");
    double mass = 0;
    for (int day = 1; day <= 140; day++) {
      double hours = 8 * day;
      if (day == 71) {
        mass = 0;
      }
      mass += 8 * 0.19 * (0.8 + 0.4 * random.nextDouble());
      double flow = 150 + 30 * random.nextDouble();
      double degC = 45 + 25 * random.nextDouble();
      double clean = 22 * (flow / 165) * (OIL.mm2PerS(degC) / OIL.mm2PerS(60));
      double drop = law(clean, 0.0154, 0.8, mass) * (1 + 0.02 * random.nextGaussian());
      text.append(String.format(Locale.ROOT, "%.0f,%.1f,%.0f,%.0f%n", hours, drop, flow, degC));
    }
    return text.toString().replace(System.lineSeparator(), "\n");
  }
}
