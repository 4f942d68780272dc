package siltwright.model.json;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.model.Distribution;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.MachineParameter;
import siltwright.model.Revision;
import siltwright.model.Uncertainty;

class FleetRevisionTest {
  private static final MachineParameter SHAPE = parameter("components/pump/life/shape");
  private static final MachineParameter SCALE = parameter("components/pump/life/scale_h");
  private static final MachineParameter EXPONENT = parameter("components/pump/exponent");
  private static final double[][] COVARIANCE = {
    {0.01, 0.002, 0}, {0.002, 0.02, 0.001}, {0, 0.001, 0.03}
  };

  private final String full = read();

  @Test
  void onlyTheNumbersNamedChange() {
    String now = revised(full, revision("EX-01", Optional.empty()));
    String expected =
        full.replaceFirst("\"exponent\": 0.8,", "\"exponent\": 0.375,")
            .replaceFirst(
                "\"shape\": 2.2, \"scale_h\": 12000",
                "\"shape\": 1.987654321, \"scale_h\": 8765.4321");
    assertEquals(expected, now);
  }

  @Test
  void anEntryOfTheSameNumbersIsReplacedInPlace() {
    String now = revised(full, revision("EX-01", Optional.of(joint())));
    assertTrue(
        now.contains(
            "{\"parameters\": [\"components/pump/life/shape\", \"components/pump/life/scale_h\", \"components/pump/exponent\"], \"distribution\": \"joint-lognormal\", \"logCovariance\": [[0.01, 0.002, 0], [0.002, 0.02, 0.001], [0, 0.001, 0.03]]}"),
        now);
    // everything before the component and everything after the machine's uncertainty is untouched
    assertEquals(before(full, "\"exponent\": 0.8"), before(now, "\"exponent\": 0.375"));
    assertEquals(after(full, "\"id\": \"EX-02\""), after(now, "\"id\": \"EX-02\""));
    assertEquals(4, machine(now, "EX-01").uncertainty().size());
    // doing it again changes nothing more
    assertEquals(now, revised(now, revision("EX-01", Optional.of(joint()))));
  }

  /** By hand: three times the sum is three times each source. */
  @Test
  void ingressIsSharedAmongItsSources() {
    MachineParameter returnLine = parameter("ingress/returnLine");
    double before = returnLine.get(machine(full, "EX-01")).orElseThrow();
    List<Double> rates =
        machine(full, "EX-01").ingress().returnLine().stream()
            .map(s -> 3 * s.rateMgPerH())
            .toList();
    String now =
        revised(
            full,
            new Revision(
                "EX-01", List.of(new Revision.Value(returnLine, 3 * before)), Optional.empty()));
    assertEquals(
        rates,
        machine(now, "EX-01").ingress().returnLine().stream().map(s -> s.rateMgPerH()).toList());
  }

  @Test
  void singleEntriesOfTheNumbersGiveWay() {
    String single =
        full.replace(
            "{\"parameter\": \"ingress/reservoir\", \"distribution\": \"lognormal\", \"factor95\": 2},",
            "{\"parameter\": \"components/pump/exponent\", \"distribution\": \"lognormal\", \"factor95\": 2},");
    List<Uncertainty> all =
        machine(revised(single, revision("EX-01", Optional.of(joint()))), "EX-01").uncertainty();
    assertEquals(3, all.size());
    assertEquals(List.of(SHAPE, SCALE, EXPONENT), all.get(0).parameters());
  }

  @Test
  void aMachineThatSaidNothingGetsItsFirstEntry() {
    String silent = full.replaceFirst("(?s),\\s*\"uncertainty\": \\[.*?\n      \\]", "");
    assertEquals(0, machine(silent, "EX-01").uncertainty().size());
    String now = revised(silent, revision("EX-01", Optional.of(joint())));
    assertTrue(now.contains(",\n      \"uncertainty\": [{\"parameters\""), now);
    Machine m = machine(now, "EX-01");
    assertEquals(1, m.uncertainty().size());
    Distribution.JointLogNormal d =
        (Distribution.JointLogNormal) m.uncertainty().get(0).distribution();
    assertArrayEquals(COVARIANCE[1], d.logCovariance()[1], 0);
    assertEquals(8765.4321, SCALE.get(m).orElseThrow());
  }

  @Test
  void byteOrderMarkLineEndsAndOtherLettersStay() {
    String odd =
        "\uFEFF" + full.replace("\n", "\r\n").replace("Test fleet", "Zkušební \\u00e9 漢字 🚜 fleet");
    String now = revised(odd, revision("EX-01", Optional.empty()));
    assertEquals(
        odd.replaceFirst("\"exponent\": 0.8,", "\"exponent\": 0.375,")
            .replaceFirst(
                "\"shape\": 2.2, \"scale_h\": 12000",
                "\"shape\": 1.987654321, \"scale_h\": 8765.4321"),
        now);
  }

  @Test
  void whatWouldNotBeReadBackIsRefused() {
    assertThrows(
        InputException.class,
        () ->
            revised(
                full,
                new Revision("EX-01", List.of(new Revision.Value(SHAPE, -1)), Optional.empty())));
    assertThrows(InputException.class, () -> revised(full, revision("EX-99", Optional.empty())));
    Uncertainty part = new Uncertainty(List.of(SCALE), new Distribution.LogNormal(1.5));
    InputException e =
        assertThrows(
            InputException.class, () -> revised(full, revision("EX-01", Optional.of(part))));
    assertTrue(
        e.getMessage().contains("components/pump/life/scale_h with other num"), e.getMessage());
  }

  private static Revision revision(String machine, Optional<Uncertainty> uncertainty) {
    return new Revision(
        machine,
        List.of(
            new Revision.Value(SHAPE, 1.9876543210987),
            new Revision.Value(SCALE, 8765.4321),
            new Revision.Value(EXPONENT, 0.375)),
        uncertainty);
  }

  private static Uncertainty joint() {
    return new Uncertainty(
        List.of(SHAPE, SCALE, EXPONENT), new Distribution.JointLogNormal(COVARIANCE));
  }

  private static String revised(String json, Revision revision) {
    return new String(
        FleetRevision.revised(json.getBytes(StandardCharsets.UTF_8), "f.json", List.of(revision)),
        StandardCharsets.UTF_8);
  }

  private static Machine machine(String json, String id) {
    Fleet fleet = FleetReader.read(json.getBytes(StandardCharsets.UTF_8), "f.json").fleet();
    return fleet.machine(id).orElseThrow();
  }

  private static String before(String text, String mark) {
    return text.substring(0, text.indexOf(mark));
  }

  private static String after(String text, String mark) {
    return text.substring(text.indexOf(mark));
  }

  private static MachineParameter parameter(String path) {
    return MachineParameter.parse(path).orElseThrow();
  }

  private static String read() {
    try (InputStream in = FleetRevisionTest.class.getResourceAsStream("full.json")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }
}
