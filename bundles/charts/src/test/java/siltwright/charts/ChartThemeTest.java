package siltwright.charts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The colours against WCAG 2.1 and against a model of colour-blind sight. */
class ChartThemeTest {
  // Machado, Oliveira, Fernandes: A physiologically-based model for simulation of color vision
  // deficiency, IEEE TVCG 15 (2009), severity 1.0, linear RGB; figures from memory, see
  // everyRowOfTheModelKeepsWhite.
  private static final double[][] SAME = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  private static final double[][] PROTAN = {
    {0.152286, 1.052583, -0.204868},
    {0.114503, 0.786281, 0.099216},
    {-0.003882, -0.048116, 1.051998}
  };
  private static final double[][] DEUTAN = {
    {0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}
  };

  static List<ChartTheme> themes() {
    return List.of(ChartTheme.LIGHT, ChartTheme.DARK);
  }

  @Test
  void everyRowOfTheModelKeepsWhite() {
    for (double[][] model : List.of(PROTAN, DEUTAN)) {
      for (double[] row : model) {
        assertEquals(1, row[0] + row[1] + row[2], 2e-6);
      }
    }
  }

  @Test
  void contrastIsThatOfTheGuidelines() {
    // WCAG 2.1, definition of contrast ratio: black on white 21:1. #767676 on white is the usual
    // example of the lightest grey that passes 4.5:1 (common practice, no source).
    assertEquals(21, contrast(Color.BLACK, Color.WHITE), 1e-9);
    assertEquals(4.54, contrast(new Color(0x767676), Color.WHITE), 0.005);
  }

  @ParameterizedTest
  @MethodSource("themes")
  void linesAndTextsStandOutFromThePaper(ChartTheme theme) {
    for (Color line : theme.lines()) {
      assertTrue(contrast(line, theme.paper()) >= 3, () -> "line " + line);
    }
    assertTrue(contrast(theme.reference(), theme.paper()) >= 3);
    assertTrue(contrast(theme.limit(), theme.paper()) >= 3);
    assertTrue(contrast(theme.quiet(), theme.paper()) >= 4.5);
    Color shaded = over(theme.span(), over(theme.span(), theme.paper()));
    assertTrue(contrast(theme.ink(), shaded) >= 4.5);
    assertTrue(contrast(theme.lines().get(0), over(theme.band(), shaded)) >= 3);
  }

  @ParameterizedTest
  @MethodSource("themes")
  void comparedLinesStayApartForEveryEye(ChartTheme theme) {
    for (double[][] eye : List.of(SAME, PROTAN, DEUTAN)) {
      for (int i = 0; i < theme.lines().size(); i++) {
        for (int j = 0; j < i; j++) {
          double apart = distance(lab(eye, theme.line(i)), lab(eye, theme.line(j)));
          // CIE 1976 difference; 2.3 is just noticeable (Mahy et al. 1994, from memory): ten times.
          String pair = i + " and " + j;
          assertTrue(apart >= 23, () -> pair + ": " + apart);
        }
      }
    }
  }

  private static Color over(Color top, Color ground) {
    double a = top.getAlpha() / 255.0;
    return new Color(
        (int) Math.round(a * top.getRed() + (1 - a) * ground.getRed()),
        (int) Math.round(a * top.getGreen() + (1 - a) * ground.getGreen()),
        (int) Math.round(a * top.getBlue() + (1 - a) * ground.getBlue()));
  }

  private static double contrast(Color a, Color b) {
    double x = luminance(a);
    double y = luminance(b);
    return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
  }

  private static double luminance(Color c) {
    double[] rgb = linear(c);
    return 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
  }

  private static double[] linear(Color c) {
    double[] rgb = {c.getRed() / 255.0, c.getGreen() / 255.0, c.getBlue() / 255.0};
    for (int i = 0; i < 3; i++) {
      rgb[i] = rgb[i] <= 0.04045 ? rgb[i] / 12.92 : Math.pow((rgb[i] + 0.055) / 1.055, 2.4);
    }
    return rgb;
  }

  /** CIE L*a*b* of a colour as an eye sees it; IEC 61966-2-1 primaries, D65. */
  private static double[] lab(double[][] eye, Color c) {
    double[] seen = times(eye, linear(c));
    for (int i = 0; i < 3; i++) {
      seen[i] = Math.max(0, Math.min(1, seen[i]));
    }
    double[] xyz =
        times(
            new double[][] {
              {0.4124564, 0.3575761, 0.1804375},
              {0.2126729, 0.7151522, 0.0721750},
              {0.0193339, 0.1191920, 0.9503041}
            },
            seen);
    double fx = f(xyz[0] / 0.95047);
    double fy = f(xyz[1]);
    double fz = f(xyz[2] / 1.08883);
    return new double[] {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
  }

  private static double f(double t) {
    return t > 216.0 / 24389 ? Math.cbrt(t) : (24389.0 / 27 * t + 16) / 116;
  }

  private static double[] times(double[][] m, double[] v) {
    double[] out = new double[3];
    for (int i = 0; i < 3; i++) {
      out[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
    }
    return out;
  }

  private static double distance(double[] a, double[] b) {
    return Math.sqrt(
        Math.pow(a[0] - b[0], 2) + Math.pow(a[1] - b[1], 2) + Math.pow(a[2] - b[2], 2));
  }
}
