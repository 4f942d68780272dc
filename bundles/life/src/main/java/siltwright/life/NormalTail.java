package siltwright.life;

/**
 * The normal distribution's tails to full double precision, also where the tail itself underflows.
 *
 * <p>Rational approximations of W. J. Cody, Mathematics of Computation 23 (1969) 631-637
 * (coefficients from memory, checked against Commons Math and 50-digit values in the tests).
 * Commons Math's own erfc has neither the scaled form, which the hazard needs, nor the speed that a
 * likelihood needs.
 */
final class NormalTail {
  static final double LOG_SQRT_2PI = 0.5 * Math.log(2 * Math.PI);
  private static final double SQRT_HALF = Math.sqrt(0.5);
  private static final double ONE_OVER_SQRT_PI = 1 / Math.sqrt(Math.PI);
  private static final double SQRT_2_OVER_PI = Math.sqrt(2 / Math.PI);

  private static final double[] A = {
    3.16112374387056560e00,
    1.13864154151050156e02,
    3.77485237685302021e02,
    3.20937758913846947e03,
    1.85777706184603153e-1
  };
  private static final double[] B = {
    2.36012909523441209e01, 2.44024637934444173e02, 1.28261652607737228e03, 2.84423683343917062e03
  };
  private static final double[] C = {
    5.64188496988670089e-1, 8.88314979438837594e00, 6.61191906371416295e01, 2.98635138197400131e02,
    8.81952221241769090e02, 1.71204761263407058e03, 2.05107837782607147e03, 1.23033935479799725e03,
    2.15311535474403846e-8
  };
  private static final double[] D = {
    1.57449261107098347e01, 1.17693950891312499e02, 5.37181101862009858e02, 1.62138957456669019e03,
    3.29079923573345963e03, 4.36261909014324716e03, 3.43936767414372164e03, 1.23033935480374942e03
  };
  private static final double[] P = {
    3.05326634961232344e-1,
    3.60344899949804439e-1,
    1.25781726111229246e-1,
    1.60837851487422766e-2,
    6.58749161529837803e-4,
    1.63153871373020978e-2
  };
  private static final double[] Q = {
    2.56852019228982242e00,
    1.87295284992346725e00,
    5.27905102951428412e-1,
    6.05183413124413191e-2,
    2.33520497626869185e-3
  };

  private NormalTail() {}

  /** Returns P(Z > z). */
  static double upper(double z) {
    double x = z * SQRT_HALF;
    if (x < -0.46875) {
      return 1 - 0.5 * Math.exp(-x * x) * scaled(-x);
    }
    return x < 0.46875 ? 0.5 * (1 - erfSmall(x)) : 0.5 * Math.exp(-x * x) * scaled(x);
  }

  /** Returns ln P(Z > z), finite for every finite z. */
  static double logUpper(double z) {
    double x = z * SQRT_HALF;
    if (x < -0.46875) {
      return Math.log1p(-0.5 * Math.exp(-x * x) * scaled(-x));
    }
    return x < 0.46875 ? Math.log(0.5 * (1 - erfSmall(x))) : -x * x + Math.log(0.5 * scaled(x));
  }

  /** Returns the hazard, density at z over P(Z > z). */
  static double hazard(double z) {
    double x = z * SQRT_HALF;
    if (x >= 0.46875) {
      return SQRT_2_OVER_PI / scaled(x);
    }
    return Math.exp(-0.5 * z * z - LOG_SQRT_2PI) / upper(z);
  }

  private static double erfSmall(double x) {
    double y = x * x;
    double num = A[4] * y;
    double den = y;
    for (int i = 0; i < 3; i++) {
      num = (num + A[i]) * y;
      den = (den + B[i]) * y;
    }
    return x * (num + A[3]) / (den + B[3]);
  }

  /** Returns exp(x²) erfc(x) for x of at least 0.46875. */
  private static double scaled(double x) {
    if (x <= 4) {
      double num = C[8] * x;
      double den = x;
      for (int i = 0; i < 7; i++) {
        num = (num + C[i]) * x;
        den = (den + D[i]) * x;
      }
      return (num + C[7]) / (den + D[7]);
    }
    double y = 1 / (x * x);
    double num = P[5] * y;
    double den = y;
    for (int i = 0; i < 4; i++) {
      num = (num + P[i]) * y;
      den = (den + Q[i]) * y;
    }
    return (ONE_OVER_SQRT_PI - y * (num + P[4]) / (den + Q[4])) / x;
  }
}
