package siltwright.model;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Size bands, their counts and the masses of dirts, by hand. */
class BandsTest {
  private static final int J = SizeBands.COUNT;
  private static final Bands SOME = Bands.of(1, 2, 3, 4, 5, 6);

  @Test
  void sixNumbersAddAndScaleOneByOne() {
    assertEquals(Bands.of(11, 22, 33, 44, 55, 66), SOME.plus(SOME.times(10)));
    assertEquals(SOME, SOME.plus(Bands.ZERO));
    assertEquals(Bands.ZERO, SOME.times(0));
    assertEquals(4, SOME.get(3));
    assertEquals("[1.0, 2.0, 3.0, 4.0, 5.0, 6.0]", SOME.toString());
  }

  @Test
  void theyNeverChange() {
    double[] given = {1, 2, 3, 4, 5, 6};
    Bands bands = Bands.of(given);
    given[0] = 9;
    bands.toArray()[1] = 9;
    assertEquals(SOME, bands);
    assertEquals(SOME.hashCode(), bands.hashCode());
    assertNotEquals(SOME, SOME.times(2));
    assertNotEquals(SOME.hashCode(), SOME.times(2).hashCode());
    assertNotEquals(SOME, "bands");
  }

  @Test
  void noMoreAndNoFewerThanSix() {
    assertThrows(IllegalArgumentException.class, () -> Bands.of(1, 2, 3, 4, 5));
    assertThrows(IllegalArgumentException.class, () -> Bands.of(1, 2, 3, 4, 5, 6, 7));
  }

  @Test
  void theEdgesAreTheSizesOfTheStandards() {
    // ISO 4406:2021 4, 6 and 14 µm(c); SAE AS4059 21, 38 and 70 µm(c) beside them
    assertArrayEquals(
        new int[] {4, 6, 14, 21, 38, 70, 100},
        IntStream.rangeClosed(0, J).map(SizeBands::edgeUmC).toArray());
    assertEquals(
        List.of("4-6", "6-14", "14-21", "21-38", "38-70", "70-100"),
        IntStream.range(0, J).mapToObj(SizeBands::label).toList());
    for (int j = 0; j < J; j++) {
      assertEquals(j, SizeBands.bandFrom(SizeBands.edgeUmC(j)));
      double mean = SizeBands.meanUmC(j);
      assertEquals((double) SizeBands.edgeUmC(j) * SizeBands.edgeUmC(j + 1), mean * mean, 1e-9);
    }
    assertEquals(-1, SizeBands.bandFrom(100));
    assertEquals(-1, SizeBands.bandFrom(5));
  }

  @Test
  void countsAboveASizeAreTheBandsFromItOn() {
    // Particles above each size in a mL, sample A of Hy-Pro, Understanding ISO codes: at 4, 6, 14,
    // 21, 38 and 68 (here 70) µm(c)
    double[] above = {151_773, 38_363, 3339, 1048, 112, 2};
    double[] between = {113_410, 35_024, 2291, 936, 110, 2};
    assertArrayEquals(between, SizeBands.toBands(above));
    assertArrayEquals(above, SizeBands.toCumulative(between));
    double[] bands = new Random(3).doubles(J).toArray();
    assertArrayEquals(bands, SizeBands.toBands(SizeBands.toCumulative(bands)), 1e-15);
  }

  @Test
  void aParticleIsASphereOfTestDust() {
    // First band: √(4·6) µm. π/6 · 24^1.5 µm³ = 61.562 µm³ at 2.65 g/cm³ (density of ISO 12103-1
    // dust in makers' data sheets) = 2.65e-12 g/µm³
    assertEquals(61.562 * 2.65e-12, SizeBands.particleG(0), 1e-5 * 1.6314e-10);
    // last band: π/6 · 7000^1.5 µm³ = 306 651 µm³
    assertEquals(306_651 * 2.65e-12, SizeBands.particleG(5), 1e-5 * 8.126e-7);
    double[] counts = {1e9, 0, 0, 0, 0, 1e5};
    assertEquals(0.16314 + 0.081263, SizeBands.massG(counts), 1e-5);
  }

  @Test
  void aGramOfDirtWeighsAGram() {
    Bands particles = Samples.DUST.particlesPerG();
    assertEquals(1, SizeBands.massG(particles.toArray()), 1e-12);
    for (int j = 0; j < J; j++) {
      double g = particles.get(j) * SizeBands.particleG(j);
      assertEquals(Samples.DUST.massShare().get(j), g, 1e-12);
    }
    // 5 % of a gram in the first band, 1.6314e-10 g each: 3.0649e8
    assertEquals(3.0649e8, particles.get(0), 1e4);
  }

  @Test
  void handlingLetsInItsMilligrams() {
    ChangeProcedure lift = Samples.procedure("lift", 0.01, 21);
    assertEquals(0.021, SizeBands.massG(lift.handlingParticles().toArray()), 1e-15);
    assertEquals(0.021 * 3.0649e8, lift.handlingParticles().get(0), 1e3);
  }

  @Test
  void sourcesOfDirtAddUp() {
    List<IngressSource> sources =
        List.of(
            new IngressSource("rod seals", 70, Samples.DUST),
            new IngressSource("fines", 14, new SizeDistribution("f", Bands.of(1, 0, 0, 0, 0, 0))));
    assertEquals(84, Ingress.rateMgPerH(sources));
    double[] perH = Ingress.particlesPerH(sources).toArray();
    assertEquals(0.084, SizeBands.massG(perH), 1e-15);
    // of which in the first band 0.05 · 70 + 14 mg
    assertEquals(0.0175, perH[0] * SizeBands.particleG(0), 1e-15);
    assertEquals(Bands.ZERO, Ingress.particlesPerH(List.of()));
    List<IngressSource> tenth = Ingress.scaled(sources, 0.1);
    assertEquals(8.4, Ingress.rateMgPerH(tenth), 1e-12);
    assertEquals("fines", tenth.get(1).source());
    assertEquals(sources.get(1).distribution(), tenth.get(1).distribution());
  }
}
