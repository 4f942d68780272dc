package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.BiFunction;
import java.util.function.Predicate;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Progress;
import siltwright.contamination.Simulation;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.Ingress;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.model.json.Edit;
import siltwright.model.json.Extensions;
import siltwright.model.json.Field;
import siltwright.model.json.FleetText;

/**
 * Laws that hold for any machine that a fleet file can describe, on machines made of the demo's
 * with a few of their numbers far off. {@code -Dsiltwright.fuzz.seconds} makes more of them.
 */
class MachineLawsTest {
  private static final int SECONDS = Integer.getInteger("siltwright.fuzz.seconds", 0);
  private static final long SEED = Long.getLong("siltwright.fuzz.seed", 1);
  private static final int MACHINES = 15;
  private static final Tuning.Settings NOMINAL = new Tuning.Settings(4000, 0, 1);

  private static FleetText demo;

  @BeforeAll
  static void read() throws IOException {
    demo = FleetText.read(Path.of("../../demo-data/three-pits.json"), Extensions.UNASKED);
  }

  /** Puts the numbers that stand in fields under their pointers. */
  private static void numbers(List<Field> fields, Map<String, Double> values) {
    for (Field f : fields) {
      if (f.kind() == Field.Kind.NUMBER) {
        f.value().ifPresent(v -> values.put(f.pointer(), Double.valueOf(v)));
      }
      numbers(f.parts(), values);
    }
  }

  /** The numbers of a machine, and those that machines share. */
  private static Map<String, Double> numbers(FleetText text, String id) {
    Map<String, Double> values = new TreeMap<>();
    numbers(text.fields(""), values);
    numbers(text.fields(text.pointer(id).orElseThrow()), values);
    return values;
  }

  /** What a law is held against. */
  private interface Law {
    void holds(FleetText text, String id) throws IOException;
  }

  /** Holds a law for machines some of whose numbers are up to a hundred times more or less. */
  private static void forMachines(Law law) throws IOException {
    SplittableRandom random = new SplittableRandom(SEED);
    long end = System.currentTimeMillis() + 1000L * SECONDS;
    for (int i = 0; SECONDS > 0 ? System.currentTimeMillis() < end : i < MACHINES; i++) {
      String id = demo.ids().get(random.nextInt(demo.ids().size()));
      List<String> changed = new ArrayList<>();
      FleetText text = demo;
      for (int k = random.nextInt(5); k >= 0; k--) {
        List<String> all = List.copyOf(numbers(text, id).keySet());
        String pointer = all.get(random.nextInt(all.size()));
        double factor = Math.pow(10, 4 * random.nextDouble() - 2);
        try {
          text = scaled(text, id, factor, pointer::equals);
          changed.add(pointer + " x " + factor);
        } catch (InputException e) {
          // the format does not allow it
        }
      }
      try {
        law.holds(text, id);
      } catch (InputException e) {
        // what only shows once the oil is computed with
        assertTrue(e.getMessage().contains("oil_degC"), e.getMessage());
      } catch (RuntimeException | AssertionError e) {
        throw new AssertionError(id + " with " + changed + ", seed " + SEED + ": " + e, e);
      }
    }
  }

  /** Scales numbers of a machine, or shared ones. */
  private static FleetText scaled(
      FleetText text, String id, double factor, Predicate<String> which) {
    List<Edit> edits = new ArrayList<>();
    numbers(text, id)
        .forEach(
            (pointer, v) -> {
              if (which.test(pointer)) {
                edits.add(Edit.number(pointer, v * factor));
              }
            });
    return text.edited(edits);
  }

  private static Machine machine(FleetText text, String id) {
    return text.fleet().machine(id).orElseThrow();
  }

  private static Tuning tune(FleetText text, String id) {
    return Tuning.of(machine(text, id), NOMINAL, Progress.NONE);
  }

  private static List<Best> best(FleetText text, String id) {
    return Tuning.asFitted(machine(text, id), NOMINAL.horizonH());
  }

  @Test
  void anyMachineHasAnAnswerOrAReason() throws IOException {
    forMachines(
        (text, id) -> {
          for (Tuning.ProcedureAnswer a : tune(text, id).procedures()) {
            Best best = a.best();
            assertTrue(best.interval().isPresent() != !best.reason().isEmpty(), best::toString);
            best.interval()
                .ifPresent(
                    i -> {
                      assertTrue(i.costPerH() > 0 && i.costPerH() < 1e15, i::toString);
                      assertTrue(i.hours() > 0 && i.hours() <= 4000 * (1 + 1e-9), i::toString);
                      assertTrue(i.within5pct()[0] <= i.within1pct()[0] * (1 + 1e-9));
                      assertTrue(i.within1pct()[0] <= i.hours() * (1 + 1e-9));
                      assertTrue(i.within1pct()[1] >= i.hours() * (1 - 1e-9));
                      assertTrue(i.within5pct()[1] >= i.within1pct()[1] * (1 - 1e-9));
                    });
          }
        });
  }

  /**
   * Another currency changes the name of the costs: the same intervals, each cost times the rate.
   */
  @Test
  void theUnitOfMoneyChangesNothingElse() throws IOException {
    forMachines(
        (text, id) -> {
          double rate = 7.25;
          FleetText other;
          try {
            other = scaled(text, id, rate, p -> p.contains("_money"));
          } catch (InputException e) {
            return; // a price beyond what the format allows
          }
          compare(text, other, id, (a, b) -> Math.abs(b.costPerH() / (rate * a.costPerH()) - 1));
        });
  }

  /** Costs that agree, and intervals that the flat bottom of the cost cannot tell apart. */
  private static void compare(
      FleetText one,
      FleetText two,
      String id,
      BiFunction<Best.Interval, Best.Interval, Double> off) {
    List<Best> a = best(one, id);
    List<Best> b = best(two, id);
    assertEquals(a.size(), b.size());
    for (int p = 0; p < a.size(); p++) {
      assertEquals(a.get(p).interval().isPresent(), b.get(p).interval().isPresent());
      if (a.get(p).interval().isPresent()) {
        Best.Interval i = a.get(p).interval().get();
        Best.Interval j = b.get(p).interval().get();
        assertTrue(off.apply(i, j) < 1e-6, () -> i + " against " + j);
        assertEquals(i.hours(), j.hours(), 0.01 * i.hours());
      }
    }
  }

  /** More dirt at the rods costs no less with any procedure, whatever the machine. */
  @Test
  void moreDirtNeverCostsLess() throws IOException {
    forMachines(
        (text, id) -> {
          String at = text.pointer(id).orElseThrow() + "/ingress/returnLine/0/rate_mg_per_h";
          FleetText dirty;
          try {
            dirty = scaled(text, id, 1.5, at::equals);
          } catch (InputException e) {
            return;
          }
          for (ChangeProcedure p : machine(text, id).procedures()) {
            double[] clean = Tuning.costPerH(machine(text, id), p, 100, 500, 2000);
            double[] more = Tuning.costPerH(machine(dirty, id), p, 100, 500, 2000);
            for (int i = 0; i < clean.length; i++) {
              assertTrue(clean[i] > 0 && more[i] > 0, p.id()); // endless where an element can't
              assertTrue(more[i] >= clean[i] * (1 - 1e-6), p.id() + ": " + more[i]);
            }
          }
        });
  }

  /**
   * Particles of a cycle: ingress and what is in the oil at its begin go into the element or stay
   * in the oil, and nowhere else where there is no other filter and nothing settles.
   */
  @Test
  void particlesAreConserved() throws IOException {
    forMachines(
        (text, id) -> {
          Machine m = machine(text, id);
          double t = 500;
          boolean elsewhere =
              m.offlineFilter().isPresent()
                  || m.pressureFilter().isPresent()
                  || !m.settlingPerH().equals(Bands.ZERO);
          Bands tank = Ingress.particlesPerH(m.ingress().reservoir());
          Bands line = Ingress.particlesPerH(m.ingress().returnLine());
          double volumeMl = 1000 * m.reservoir().volumeL();
          for (ChangeProcedure p : m.procedures()) {
            for (Simulation.ServiceCycle c :
                Simulation.of(m, p).run(t, 3, Progress.NONE).cycles()) {
              for (int j = 0; j < SizeBands.COUNT; j++) {
                double in = (tank.get(j) + line.get(j)) * t + volumeMl * c.startPerMl().get(j);
                double left = c.retained().get(j) + volumeMl * c.endPerMl().get(j);
                String where = p.id() + ", cycle " + c.number() + ", band " + j + ": ";
                assertTrue(left <= in * (1 + 1e-6) + 1, () -> where + left + " of " + in);
                assertTrue(
                    elsewhere || left >= in * (1 - 1e-6) - 1, () -> where + left + " of " + in);
              }
            }
          }
        });
  }
}
