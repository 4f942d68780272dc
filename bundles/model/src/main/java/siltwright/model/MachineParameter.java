package siltwright.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;

/**
 * A number of the machine model that can be uncertain, named by a path such as {@code
 * components/pump/life/scale_h}.
 *
 * <p>Paths: {@code ingress/reservoir} and {@code ingress/returnLine} (the sum of the sources,
 * mg/h), {@code returnFilter/fieldEfficiency}, {@code element/capacity_g}, {@code
 * element/blockingExponent}, {@code components/ID/exponent}, {@code components/ID/life/shape},
 * {@code components/ID/life/scale_h}, {@code components/ID/acute/hazardPerParticle}, {@code
 * components/ID/renewal_money}, {@code components/ID/consequence_money}, {@code
 * procedures/ID/backFlushShare}, {@code procedures/ID/handlingDirt_mg}, {@code
 * costs/downtime_money_per_h}.
 *
 * @param group first part of the path
 * @param id id of the component or procedure; empty elsewhere
 * @param number rest of the path
 */
public record MachineParameter(Group group, String id, String number) {
  /** Highest back-flush share: at 1 the dirt would never leave the machine. */
  public static final double HIGHEST_BACK_FLUSH = 0.95;

  /** First part of a path. */
  public enum Group {
    /** Ingress to reservoir or return line. */
    INGRESS("ingress", false, List.of("reservoir", "returnLine")),
    /** Return filter. */
    RETURN_FILTER("returnFilter", false, List.of("fieldEfficiency")),
    /** Element fitted, and its alternatives in proportion. */
    ELEMENT("element", false, List.of("capacity_g", "blockingExponent")),
    /** One component. */
    COMPONENT(
        "components",
        true,
        List.of(
            "exponent",
            "life/shape",
            "life/scale_h",
            "acute/hazardPerParticle",
            "renewal_money",
            "consequence_money")),
    /** One change procedure. */
    PROCEDURE("procedures", true, List.of("backFlushShare", "handlingDirt_mg")),
    /** Cost rates. */
    COSTS("costs", false, List.of("downtime_money_per_h"));

    private final String word;
    private final boolean named;
    private final List<String> numbers;

    Group(String word, boolean named, List<String> numbers) {
      this.word = word;
      this.named = named;
      this.numbers = numbers;
    }
  }

  /** Returns every form of path that {@link #parse} takes. */
  public static List<String> forms() {
    List<String> forms = new ArrayList<>();
    for (Group g : Group.values()) {
      for (String n : g.numbers) {
        forms.add(g.word + (g.named ? "/ID/" : "/") + n);
      }
    }
    return forms;
  }

  /** Returns the parameter with a path, or nothing if the path has none of the forms. */
  public static Optional<MachineParameter> parse(String path) {
    for (Group g : Group.values()) {
      if (path.startsWith(g.word + "/")) {
        String rest = path.substring(g.word.length() + 1);
        String id = "";
        if (g.named) {
          int slash = rest.indexOf('/');
          if (slash <= 0) {
            return Optional.empty();
          }
          id = rest.substring(0, slash);
          rest = rest.substring(slash + 1);
        }
        return g.numbers.contains(rest)
            ? Optional.of(new MachineParameter(g, id, rest))
            : Optional.empty();
      }
    }
    return Optional.empty();
  }

  /** Returns the path. */
  @Override
  public String toString() {
    return group.word + "/" + (group.named ? id + "/" : "") + number;
  }

  /**
   * Returns the number in a machine, or nothing if the machine has no such component or procedure.
   */
  public Optional<Double> get(Machine m) {
    return switch (group) {
      case INGRESS ->
          Optional.of(
              Ingress.rateMgPerH(
                  number.equals("reservoir") ? m.ingress().reservoir() : m.ingress().returnLine()));
      case RETURN_FILTER -> Optional.of(m.returnFilter().fieldEfficiency());
      case ELEMENT -> {
        Element e = m.returnFilter().element();
        yield Optional.of(number.equals("capacity_g") ? e.capacityG() : e.blockingExponent());
      }
      case COMPONENT -> component(m).flatMap(this::of);
      case PROCEDURE ->
          m.procedure(id)
              .map(p -> number.equals("backFlushShare") ? p.backFlushShare() : p.handlingDirtMg());
      case COSTS -> Optional.of(m.costs().downtimeMoneyPerH());
    };
  }

  private Optional<Component> component(Machine m) {
    for (Component c : m.components()) {
      if (c.id().equals(id)) {
        return Optional.of(c);
      }
    }
    return Optional.empty();
  }

  private Optional<Double> of(Component c) {
    return switch (number) {
      case "exponent" -> Optional.of(c.exponent());
      case "life/shape" ->
          Optional.of(c.life()).filter(ComponentLife::followsShape).map(ComponentLife::shape);
      case "life/scale_h" -> Optional.of(c.life().scaleH());
      case "acute/hazardPerParticle" -> c.acute().map(Acute::hazardPerParticle);
      case "renewal_money" -> Optional.of(c.renewalMoney());
      default -> Optional.of(c.consequenceMoney());
    };
  }

  /**
   * Returns a machine in which the number has another value. Shares and efficiencies are kept
   * within what is possible (0 to 1).
   */
  public Machine with(Machine m, double value) {
    return switch (group) {
      case INGRESS -> {
        double now = get(m).orElse(0.0);
        double factor = now > 0 ? value / now : 1;
        Ingress in = m.ingress();
        yield m.withIngress(
            number.equals("reservoir")
                ? new Ingress(Ingress.scaled(in.reservoir(), factor), in.returnLine())
                : new Ingress(in.reservoir(), Ingress.scaled(in.returnLine(), factor)));
      }
      case RETURN_FILTER -> m.withFieldEfficiency(Math.min(1, value));
      case ELEMENT -> m.withElement(changed(m.returnFilter().element(), value));
      case COMPONENT ->
          m.withComponents(mapped(m.components(), c -> c.id().equals(id) ? changed(c, value) : c));
      case PROCEDURE ->
          m.withProcedures(mapped(m.procedures(), p -> p.id().equals(id) ? changed(p, value) : p));
      case COSTS -> m.withCosts(m.costs().withDowntimeMoneyPerH(value));
    };
  }

  private static <T> List<T> mapped(List<T> list, UnaryOperator<T> change) {
    List<T> changed = new ArrayList<>(list.size());
    for (T item : list) {
      changed.add(change.apply(item));
    }
    return List.copyOf(changed);
  }

  private Element changed(Element e, double value) {
    return number.equals("capacity_g") ? e.withCapacityG(value) : e.withBlockingExponent(value);
  }

  private Component changed(Component c, double value) {
    return switch (number) {
      case "exponent" -> c.withExponent(value);
      case "life/shape" -> c.withLife(c.life().withShape(value));
      case "life/scale_h" -> c.withLife(c.life().withScaleH(value));
      case "acute/hazardPerParticle" ->
          c.acute().map(a -> c.withAcute(new Acute(a.sizeUmC(), value))).orElse(c);
      case "renewal_money" -> c.withCosts(value, c.consequenceMoney());
      default -> c.withCosts(c.renewalMoney(), value);
    };
  }

  private ChangeProcedure changed(ChangeProcedure p, double value) {
    return number.equals("backFlushShare")
        ? p.withRelease(Math.min(HIGHEST_BACK_FLUSH, value), p.handlingDirtMg())
        : p.withRelease(p.backFlushShare(), value);
  }
}
