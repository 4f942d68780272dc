package siltwright.model.json;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import siltwright.model.Element;
import siltwright.model.InputException;
import siltwright.model.Loading;
import siltwright.model.LoadingLaw;
import siltwright.model.Machine;
import siltwright.model.Problem;

/** Elements of a file that name a loading law. */
class LawsTest {
  private static final Path DEMO = Path.of("..", "..", "demo-data", "three-pits.json");

  /** h = (1 + steepness m)^2: the blocking law of n = 1/2 by another name. */
  private record Square(boolean fails) implements LoadingLaw {
    @Override
    public String id() {
      return "square";
    }

    @Override
    public String meaning() {
      return "a law for this test";
    }

    @Override
    public List<Number> numbers() {
      return List.of(new Number("steepness", "1", 0.1, 9, 3, "how steep it is"));
    }

    @Override
    public Loading loading(Element element, Map<String, Double> numbers) {
      if (fails) {
        throw new IllegalStateException("asked to fail");
      }
      double s = numbers.get("steepness");
      if (s == 9) {
        throw new InputException(new Problem("square", "", "too steep", "less"));
      }
      return Loading.sampled(m -> (1 + s * m) * (1 + s * m));
    }
  }

  private static FleetFile read(String law, Laws laws) throws Exception {
    // only the element of the excavators and loaders, mat-m, is given one
    String text =
        Files.readString(DEMO)
            .replaceFirst("\"blockingExponent\": 0.65", "$0, \"loadingLaw\": " + law);
    assertEquals(Set.of(), FleetSchemas.errors(FleetSamples.tree(text)));
    return FleetReader.read(text.getBytes(StandardCharsets.UTF_8), "f", laws);
  }

  private static FleetFile read(String law) throws Exception {
    return read(law, Laws.of(() -> List.of(new Square(false))));
  }

  private static Element element(FleetFile file) {
    return file.fleet().machine("EX-11").orElseThrow().returnFilter().element();
  }

  @Test
  void aLawThatIsNamedHolds() throws Exception {
    FleetFile file = read("{\"law\": \"square\"}");
    assertEquals(List.of(), file.problems());
    assertEquals(Math.pow(1 + 3 * 0.5, 2), element(file).loading().dropRatio(0.5), 1e-3);
    FleetFile steep =
        read("{\"law\": \"square\", \"numbers\": [{\"name\": \"steepness\", \"value\": 1}]}");
    assertEquals(Math.pow(1 + 0.5, 2), element(steep).loading().dropRatio(0.5), 1e-3);
    // the other elements keep their own
    Machine truck = file.fleet().machine("HT-14").orElseThrow();
    assertTrue(truck.returnFilter().element().namedLoading().isEmpty());
  }

  @Test
  void theProductsOwnLawsCanBeNamed() throws Exception {
    Loading own = element(FleetReader.read(DEMO)).loading();
    assertEquals(own, element(read("{\"law\": \"blocking\"}")).loading());
    assertLeavesOut(
        read("{\"law\": \"measured\"}"),
        "/elements/mat-m/loadingLaw/law: found \"measured\"; expected a loadingCurve beside it");
  }

  private static void assertLeavesOut(FleetFile file, String why) {
    FleetFile all = FleetReader.read(DEMO);
    Set<String> with =
        all.fleet().machines().stream()
            .filter(
                m ->
                    m.returnFilter().element().id().equals("mat-m")
                        || m.alternatives().elements().stream()
                            .anyMatch(e -> e.id().equals("mat-m")))
            .map(Machine::id)
            .collect(Collectors.toSet());
    Set<String> read =
        file.fleet().machines().stream().map(Machine::id).collect(Collectors.toSet());
    assertEquals(all.fleet().machines().size() - with.size(), read.size());
    assertTrue(with.stream().noneMatch(read::contains));
    assertTrue(!with.isEmpty() && !read.isEmpty());
    assertEquals("f machine EX-11 " + why, file.problems().get(0).toString());
    assertEquals(with.size(), file.problems().size());
  }

  @Test
  void whatIsWrongWithALawLeavesItsMachinesOut() throws Exception {
    String law = "/elements/mat-m/loadingLaw/";
    assertLeavesOut(
        read("{\"law\": \"sqare\"}"),
        law
            + "law: found \"sqare\"; expected a loading law that is there: square (there is:"
            + " blocking, measured, square)");
    assertLeavesOut(
        read("{\"law\": \"square\", \"numbers\": [{\"name\": \"steep\", \"value\": 1}]}"),
        law + "numbers/0/name: found \"steep\"; expected a number of the law: steepness");
    assertLeavesOut(
        read("{\"law\": \"square\", \"numbers\": [{\"name\": \"steepness\", \"value\": 99}]}"),
        law + "numbers/0/value: found 99; expected a number from 0.1 to 9");
    assertLeavesOut(
        read("{\"law\": \"square\", \"numbers\": [{\"name\": \"steepness\", \"value\": 9}]}"),
        law + "law: found too steep; expected less");
    assertLeavesOut(
        read("{\"law\": \"square\"}", Laws.of(() -> List.of(new Square(true)))),
        law + "law: found \"square\"; expected a law that does not fail");
  }

  /** Who only wants to know the machines reads such files too, and cannot compute by mistake. */
  @Test
  void aFileIsReadWithoutLaws() throws Exception {
    FleetFile file = read("{\"law\": \"square\"}", Laws.UNASKED);
    assertEquals(List.of(), file.problems());
    assertThrows(IllegalStateException.class, () -> element(file).loading());
  }
}
