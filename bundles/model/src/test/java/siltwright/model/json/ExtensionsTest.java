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
import siltwright.model.ChangeProcedure;
import siltwright.model.Component;
import siltwright.model.ComponentLife;
import siltwright.model.CostTerm;
import siltwright.model.Element;
import siltwright.model.InputException;
import siltwright.model.LifeLaw;
import siltwright.model.Loading;
import siltwright.model.LoadingLaw;
import siltwright.model.Machine;
import siltwright.model.MachineParameter;
import siltwright.model.NamedNumber;
import siltwright.model.Problem;
import siltwright.model.Survival;

/** Loading laws and terms of the cost that a file names. */
class ExtensionsTest {
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
    public List<NamedNumber> numbers() {
      return List.of(new NamedNumber("steepness", "1", 0.1, 9, 3, "how steep it is"));
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

  private static FleetFile read(String law, Extensions extensions) throws Exception {
    // only the element of the excavators and loaders, mat-m, is given one
    String text =
        Files.readString(DEMO)
            .replaceFirst("\"blockingExponent\": 0.65", "$0, \"loadingLaw\": " + law);
    assertEquals(Set.of(), FleetSchemas.errors(FleetSamples.tree(text)));
    return FleetReader.read(text.getBytes(StandardCharsets.UTF_8), "f", extensions);
  }

  private static FleetFile read(String law) throws Exception {
    return read(law, Extensions.of(() -> List.of(new Square(false)), List::of, List::of));
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
        law + "numbers/0/name: found \"steep\"; expected a number that is taken: steepness");
    assertLeavesOut(
        read("{\"law\": \"square\", \"numbers\": [{\"name\": \"steepness\", \"value\": 99}]}"),
        law + "numbers/0/value: found 99; expected a number from 0.1 to 9");
    assertLeavesOut(
        read("{\"law\": \"square\", \"numbers\": [{\"name\": \"steepness\", \"value\": 9}]}"),
        law + "law: found too steep; expected less");
    assertLeavesOut(
        read(
            "{\"law\": \"square\"}",
            Extensions.of(() -> List.of(new Square(true)), List::of, List::of)),
        law + "law: found \"square\"; expected a law that does not fail");
  }

  /** Twice the labour of a procedure, at a price of its own; may be made to fail. */
  private record Helper(double factor) implements CostTerm {
    @Override
    public String id() {
      return "helper";
    }

    @Override
    public String meaning() {
      return "a second pair of hands";
    }

    @Override
    public List<NamedNumber> numbers() {
      return List.of(new NamedNumber("rate", "money/h", 0, 100, 20, "an hour of it"));
    }

    @Override
    public double perChangeMoney(Machine m, ChangeProcedure p, Map<String, Double> numbers) {
      if (factor > 9) {
        throw new IllegalStateException("asked to fail");
      }
      return factor * p.labourH() * numbers.get("rate");
    }
  }

  private static FleetFile costing(String terms, Extensions extensions) throws Exception {
    String text =
        Files.readString(DEMO)
            .replaceFirst("\"oil_money_per_L\": [0-9.]+", "$0, \"terms\": " + terms);
    assertEquals(Set.of(), FleetSchemas.errors(FleetSamples.tree(text)));
    return FleetReader.read(text.getBytes(StandardCharsets.UTF_8), "f", extensions);
  }

  private static FleetFile costing(String terms, double factor) throws Exception {
    return costing(terms, Extensions.of(List::of, () -> List.of(new Helper(factor)), List::of));
  }

  @Test
  void termsOfTheCostAddToEveryChange() throws Exception {
    Machine plain = FleetReader.read(DEMO).fleet().machines().get(0);
    Machine helped = costing("[{\"term\": \"helper\"}]", 2).fleet().machines().get(0);
    Machine dear =
        costing("[{\"term\": \"helper\", \"numbers\": [{\"name\": \"rate\", \"value\": 50}]}]", 2)
            .fleet()
            .machines()
            .get(0);
    assertTrue(plain.procedures().size() > 1);
    for (ChangeProcedure p : plain.procedures()) {
      // by hand, in the order of the file's prices
      double basic =
          p.sealsMoney()
              + p.labourH() * plain.costs().labourMoneyPerH()
              + p.downtimeH() * plain.costs().downtimeMoneyPerH()
              + p.oilLostL() * plain.costs().oilMoneyPerL();
      assertEquals(basic, plain.serviceMoney(p));
      assertEquals(basic + 2 * p.labourH() * 20, helped.serviceMoney(p), 1e-9);
      assertEquals(basic + 2 * p.labourH() * 50, dear.serviceMoney(p), 1e-9);
      // a dearer standstill leaves what the term gave
      Machine standing = helped.withCosts(helped.costs().withDowntimeMoneyPerH(0));
      assertEquals(
          helped.serviceMoney(p) - p.downtimeH() * plain.costs().downtimeMoneyPerH(),
          standing.serviceMoney(p),
          1e-9);
    }
  }

  @Test
  void whatIsWrongWithATermLeavesItsMachineOut() throws Exception {
    String place = "f machine EX-11 /machines/0/costs/terms/0/";
    for (Map.Entry<FleetFile, String> wrong :
        Map.of(
                costing("[{\"term\": \"helpr\"}]", 1),
                "term: found \"helpr\"; expected a term of the cost that is there: helper",
                costing("[{\"term\": \"labour\"}]", 1),
                "term: found \"labour\"; expected a term that does not count already",
                costing("[{\"term\": \"helper\"}]", -1),
                "term: found -",
                costing("[{\"term\": \"helper\"}]", 10),
                "term: found \"helper\"; expected a term that does not fail")
            .entrySet()) {
      assertEquals(1, wrong.getKey().problems().size());
      String told = wrong.getKey().problems().get(0).toString();
      assertTrue(told.startsWith(place + wrong.getValue()), told);
      assertTrue(wrong.getKey().fleet().machine("EX-12").isPresent());
    }
  }

  /** Nothing fails before a share of the scale, then at random; fails itself at 0.9. */
  private static final class Grace implements LifeLaw {
    @Override
    public String id() {
      return "grace";
    }

    @Override
    public String meaning() {
      return "a law for this test";
    }

    @Override
    public List<NamedNumber> numbers() {
      return List.of(new NamedNumber("from", "1", 0, 0.9, 0.5, "where it begins"));
    }

    @Override
    public Survival life(Component component, Map<String, Double> numbers) {
      if (numbers.get("from") == 0.9) {
        throw new IllegalStateException("asked to fail");
      }
      return Survival.sampled(u -> Math.max(0, u - numbers.get("from")));
    }
  }

  /** The first machine of the demo fleet, whose first component lives by a law; it is EX-11. */
  private static FleetFile living(String law, Extensions extensions) throws Exception {
    String text =
        Files.readString(DEMO).replaceFirst("\"life\": \\{[^}]*\\}", "$0, \"lifeLaw\": " + law);
    assertEquals(Set.of(), FleetSchemas.errors(FleetSamples.tree(text)));
    return FleetReader.read(text.getBytes(StandardCharsets.UTF_8), "f", extensions);
  }

  private static FleetFile living(String law) throws Exception {
    return living(law, Extensions.of(List::of, List::of, () -> List.of(new Grace())));
  }

  private static ComponentLife life(FleetFile file) {
    assertEquals(List.of(), file.problems());
    return file.fleet().machine("EX-11").orElseThrow().components().get(0).life();
  }

  @Test
  void aLifeLawThatIsNamedHolds() throws Exception {
    ComponentLife plain = life(FleetReader.read(DEMO));
    assertEquals(plain.survival(), life(living("{\"law\": \"weibull\"}")).survival());
    ComponentLife median = life(living("{\"law\": \"lognormal\"}", Extensions.UNASKED));
    assertEquals(Math.log(2), median.survival().cumulativeHazard(1), 1e-3);
    Machine graced = living("{\"law\": \"grace\"}").fleet().machines().get(0);
    Survival survival = graced.components().get(0).life().survival();
    assertEquals(0, survival.cumulativeHazard(0.49), 1e-3);
    assertEquals(0.7, survival.cumulativeHazard(1.2), 1e-3);
    // an uncertain scale is one of every law, an uncertain shape of the product's alone
    String path = "components/" + graced.components().get(0).id() + "/life/";
    MachineParameter scale = MachineParameter.parse(path + "scale_h").orElseThrow();
    ComponentLife longer = scale.with(graced, 40_000).components().get(0).life();
    assertEquals(40_000, longer.scaleH());
    assertEquals(survival, longer.survival());
    assertTrue(MachineParameter.parse(path + "shape").orElseThrow().get(graced).isEmpty());
    assertThrows(
        IllegalStateException.class,
        () -> life(living("{\"law\": \"grace\"}", Extensions.UNASKED)).survival());
  }

  @Test
  void whatIsWrongWithALifeLawLeavesItsMachineOut() throws Exception {
    String place = "f machine EX-11 /machines/0/components/0/lifeLaw/";
    for (Map.Entry<String, String> wrong :
        Map.of(
                "{\"law\": \"grce\"}",
                "law: found \"grce\"; expected a life law that is there: grace (there is: weibull,"
                    + " lognormal, grace)",
                "{\"law\": \"lognormal\", \"numbers\": [{\"name\": \"a\", \"value\": 1}]}",
                "numbers/0/name: found \"a\"; expected no numbers, since none are taken",
                "{\"law\": \"grace\", \"numbers\": [{\"name\": \"from\", \"value\": 0.9}]}",
                "law: found \"grace\"; expected a law that does not fail")
            .entrySet()) {
      FleetFile file = living(wrong.getKey());
      assertEquals(place + wrong.getValue(), file.problems().get(0).toString());
      assertEquals(1, file.problems().size());
      assertTrue(file.fleet().machine("EX-12").isPresent());
    }
  }

  @Test
  void aFileThatNamesTermsIsReadWithoutThem() throws Exception {
    FleetFile file = costing("[{\"term\": \"helper\"}]", Extensions.UNASKED);
    assertEquals(List.of(), file.problems());
    Machine m = file.fleet().machines().get(0);
    assertThrows(IllegalStateException.class, () -> m.serviceMoney(m.procedures().get(0)));
  }

  /** Who only wants to know the machines reads such files too, and cannot compute by mistake. */
  @Test
  void aFileIsReadWithoutLaws() throws Exception {
    FleetFile file = read("{\"law\": \"square\"}", Extensions.UNASKED);
    assertEquals(List.of(), file.problems());
    assertThrows(IllegalStateException.class, () -> element(file).loading());
  }
}
