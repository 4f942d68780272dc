package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A fit by sums over parts against the fit of all rows in one place. */
class FitInPartsTest {
  private static List<LifeData> parts(int rows) {
    Random random = new Random(3);
    List<LifeData> parts = new ArrayList<>();
    for (int p = 0; p < 7; p++) {
      LifeData.Builder part = LifeData.builder();
      for (int i = 0; i < rows; i++) {
        double life = 9000 * Math.pow(-Math.log(1 - random.nextDouble()), 1 / 1.8);
        double end = 12_000 * random.nextDouble() + 1;
        double entry = i % 5 == 0 ? 0.3 * Math.min(life, end) : 0;
        if (life >= end) {
          part.runningAt(end);
        } else if (i % 7 == 0) {
          part.failedBetween(Math.floor(life / 500) * 500, Math.ceil(life / 500) * 500);
        } else {
          part.failedAt(life);
        }
        if (entry > 0 && i % 7 != 0) {
          part.enteredAt(entry);
        }
        part.times(1 + i % 3);
      }
      parts.add(part.build());
    }
    return parts;
  }

  private static LifeData whole(List<LifeData> parts) {
    int n = parts.stream().mapToInt(LifeData::rows).sum();
    double[][] c = new double[4][n];
    int at = 0;
    for (LifeData part : parts) {
      for (int i = 0; i < part.rows(); i++, at++) {
        c[0][at] = part.lowerH(i);
        c[1][at] = part.upperH(i);
        c[2][at] = part.entryH(i);
        c[3][at] = part.countAt(i);
      }
    }
    return LifeData.ofColumns(c[0], c[1], c[2], c[3]);
  }

  private static FitInParts fit(List<LifeData> parts, LifeFamily family, int every) {
    FitInParts fit = new FitInParts(family);
    parts.forEach(p -> fit.add(FitInParts.look(p, every)));
    for (Optional<double[]> at = fit.wanted(); at.isPresent(); at = fit.wanted()) {
      for (LifeData part : parts) {
        fit.add(FitInParts.sums(part, family, at.get()));
      }
      fit.step();
    }
    return fit;
  }

  @ParameterizedTest
  @EnumSource(LifeFamily.class)
  void partsGiveTheFitOfTheWhole(LifeFamily family) {
    List<LifeData> parts = parts(900);
    LifeFit in = fit(parts, family, 10).fit().get();
    LifeFit whole = LifeFitting.fit(whole(parts), family).get();
    assertEquals(whole.mu(), in.mu(), 1e-9 * whole.mu());
    assertEquals(whole.sigma(), in.sigma(), 1e-9);
    assertEquals(whole.logLikelihood(), in.logLikelihood(), 1e-11 * -whole.logLikelihood());
    assertEquals(whole.components(), in.components());
    assertEquals(whole.failures(), in.failures());
    for (int i = 0; i < in.covariance().length; i++) {
      assertEquals(whole.covariance()[i][i], in.covariance()[i][i], 1e-7 * in.covariance()[i][i]);
    }
  }

  @Test
  void whatHasNoFitIsRefusedAsInOnePlace() {
    LifeData none = LifeData.builder().runningAt(100).runningAt(200).build();
    FitInParts fit = fit(List.of(none, none), LifeFamily.WEIBULL, 1);
    assertFalse(fit.fit().exists());
    assertEquals(
        LifeFitting.fit(whole(List.of(none, none)), LifeFamily.WEIBULL).refusal(),
        fit.fit().refusal());
    LifeData one = LifeData.builder().failedAt(300).build();
    assertEquals(
        Reason.SINGLE_FAILURE_AT_LARGEST_TIME,
        fit(List.of(none, one), LifeFamily.WEIBULL, 1).fit().refusal().reason());
  }
}
