package siltwright.restart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class RankingTest {
  /**
   * Published example: the eight schools of D. B. Rubin, Estimation in parallel randomized
   * experiments, J. Educational Statistics 6 (1981) 377: effects 28, 8, -3, 7, -1, 1, 18, 12 with
   * standard errors 15, 10, 16, 11, 9, 11, 10, 18 (values from memory). Their moment estimate of
   * the variance between schools is 0, so all are drawn to the common mean, 7.69.
   */
  @Test
  void eightSchoolsAreAllAlike() {
    double[] y = {28, 8, -3, 7, -1, 1, 18, 12};
    double[] e = {15, 10, 16, 11, 9, 11, 10, 18};
    List<String> names = new ArrayList<>();
    List<Double> values = new ArrayList<>();
    List<Double> errors = new ArrayList<>();
    // Two equal results of sqrt(2) times the error each make one of the published error.
    for (int i = 0; i < y.length; i++) {
      for (int k = 0; k < 2; k++) {
        names.add("school " + i);
        values.add(y[i]);
        errors.add(e[i] * Math.sqrt(2));
      }
    }
    Ranking r =
        Ranking.of(
            names,
            values.stream().mapToDouble(v -> v).toArray(),
            errors.stream().mapToDouble(v -> v).toArray(),
            2);
    assertEquals(0, r.between());
    assertEquals(7.69, r.mean(), 0.01);
    r.groups().forEach(g -> assertEquals(r.mean(), g.shrunken(), 1e-9));
  }

  @Test
  void threeBadSamplesCondemnNobody() {
    List<String> names = new ArrayList<>();
    List<Double> y = new ArrayList<>();
    SplittableRandom random = new SplittableRandom(4);
    for (int g = 0; g < 6; g++) {
      for (int i = 0; i < 12; i++) {
        names.add("crew " + g);
        y.add(0.7 * random.nextGaussian());
      }
    }
    for (int i = 0; i < 3; i++) {
      names.add("new");
      y.add(1.5);
    }
    double[] errors = new double[y.size()];
    Arrays.fill(errors, 0.2);
    Ranking r = Ranking.of(names, y.stream().mapToDouble(v -> v).toArray(), errors, 5);
    Ranking.Group g =
        r.groups().stream().filter(x -> x.name().equals("new")).findFirst().orElseThrow();
    assertFalse(g.enough());
    assertTrue(g.shrunken() < g.own());
    assertFalse(g.above(r.mean()));
  }

  /** One group in six truly three times worse: found mostly; the others seldom blamed. */
  @Test
  void intervalsHoldWhatTheySay() {
    int found = 0;
    int blamed = 0;
    int covered = 0;
    int all = 0;
    for (int trial = 0; trial < 200; trial++) {
      SplittableRandom random = new SplittableRandom(trial);
      List<String> names = new ArrayList<>();
      List<Double> y = new ArrayList<>();
      double[] truth = new double[6];
      for (int g = 0; g < 6; g++) {
        truth[g] = 0.4 * random.nextGaussian() + (g == 0 ? Math.log(3) : 0);
        for (int i = 0; i < 10; i++) {
          names.add("g" + g);
          y.add(truth[g] + 0.6 * random.nextGaussian());
        }
      }
      double[] errors = new double[y.size()];
      Arrays.fill(errors, 0.15);
      Ranking r = Ranking.of(names, y.stream().mapToDouble(v -> v).toArray(), errors, 5);
      for (Ranking.Group g : r.groups()) {
        int index = g.name().charAt(1) - '0';
        covered += g.low() <= truth[index] && truth[index] <= g.high() ? 1 : 0;
        all++;
        found += index == 0 && g.above(r.mean()) ? 1 : 0;
        blamed += truth[index] < r.mean() - 0.05 && g.above(r.mean()) ? 1 : 0;
      }
    }
    assertEquals(0.90, covered / (double) all, 0.04);
    assertTrue(found > 140, found + " of 200 found");
    assertTrue(blamed <= 5, blamed + " blamed wrongly");
  }
}
