package siltwright.model.json;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import siltwright.model.AddedCost;
import siltwright.model.BasicCost;
import siltwright.model.BasicLaw;
import siltwright.model.BasicLife;
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
import siltwright.model.NamedLife;
import siltwright.model.NamedLoading;
import siltwright.model.NamedNumber;
import siltwright.model.Problem;
import siltwright.model.Survival;

/**
 * The loading laws, terms of the cost and life laws that files may name. One that is not there or
 * fails is a problem of each machine that hangs on it, and of no other.
 */
public final class Extensions {
  /**
   * For those that compute with neither elements nor cost nor life: which there are does not
   * matter.
   */
  public static final Extensions UNASKED = new Extensions(List::of, List::of, List::of, false);

  private static final double MOST_MONEY = 1e9;

  private final Supplier<? extends Collection<LoadingLaw>> laws;
  private final Supplier<? extends Collection<CostTerm>> terms;
  private final Supplier<? extends Collection<LifeLaw>> lives;
  private final boolean asked;

  private Extensions(
      Supplier<? extends Collection<LoadingLaw>> laws,
      Supplier<? extends Collection<CostTerm>> terms,
      Supplier<? extends Collection<LifeLaw>> lives,
      boolean asked) {
    this.laws = laws;
    this.terms = terms;
    this.lives = lives;
    this.asked = asked;
  }

  /**
   * Returns what there is beside the {@link BasicLaw}s, {@link BasicCost}s and {@link BasicLife}s.
   *
   * @param laws gives the loading laws that there are now; asked only where a file names one
   * @param terms the same of terms of the cost
   * @param lives the same of life laws
   */
  public static Extensions of(
      Supplier<? extends Collection<LoadingLaw>> laws,
      Supplier<? extends Collection<CostTerm>> terms,
      Supplier<? extends Collection<LifeLaw>> lives) {
    return new Extensions(laws, terms, lives, true);
  }

  /**
   * What is wrong with the law of an element.
   *
   * @param pointer where
   * @param found what stands there
   * @param expected what was expected
   */
  record Fault(String pointer, String found, String expected) {}

  /**
   * Returns an element with the loading that its law gives.
   *
   * @param item the file's {@code loadingLaw}
   * @param faults takes what is wrong, by the element's id
   */
  Element applied(Element element, Item item, Map<String, Fault> faults) {
    String id = item.text("law");
    try {
      if (id.equals(BasicLaw.BLOCKING.id())) {
        numbers(item, BasicLaw.BLOCKING.numbers());
        return element.withoutCurve();
      }
      if (id.equals(BasicLaw.MEASURED.id())) {
        numbers(item, BasicLaw.MEASURED.numbers());
        if (element.loadingCurve().isEmpty()) {
          throw refusal(item.at("law"), item.found("law"), "a loadingCurve beside it");
        }
        return element;
      }
      Optional<Loading> loading =
          asked ? Optional.of(loading(element, item, id)) : Optional.empty();
      return element.withLoading(new NamedLoading(id, loading));
    } catch (InputException e) {
      Problem p = e.problems().get(0);
      String pointer = p.place().isEmpty() ? item.at("law") : p.place();
      faults.put(element.id(), new Fault(pointer, p.value(), p.expected()));
    } catch (RuntimeException e) { // of whoever brought it, who is told of it elsewhere
      faults.put(
          element.id(), new Fault(item.at("law"), item.found("law"), "a law that does not fail"));
    }
    return element;
  }

  private Loading loading(Element element, Item item, String id) {
    Set<String> known = ids(BasicLaw.values(), BasicLaw::id);
    LoadingLaw law =
        named(id, laws.get(), LoadingLaw::id, known)
            .orElseThrow(() -> missing(item, "law", "a loading law", id, known));
    return law.loading(element, numbers(item, law.numbers()));
  }

  /**
   * Returns the one of a name.
   *
   * @param known receives the names that were passed over
   */
  private static <T> Optional<T> named(
      String id, Collection<? extends T> all, Function<T, String> idOf, Set<String> known) {
    for (T one : all) {
      if (idOf.apply(one).equals(id)) {
        return Optional.of(one);
      }
      known.add(idOf.apply(one));
    }
    return Optional.empty();
  }

  private static InputException missing(
      Item item, String key, String what, String id, Set<String> known) {
    return refusal(
        item.at(key), item.found(key), what + " that is there: " + Words.choice(id, known));
  }

  /** Complains of what was thrown; where an add-on threw it, that is told elsewhere too. */
  private static void complain(
      RuntimeException thrown, Item item, String key, Complaints complaints) {
    if (thrown instanceof InputException refused) {
      Problem p = refused.problems().get(0);
      complaints.add(p.place().isEmpty() ? item.at(key) : p.place(), p.value(), p.expected());
    } else {
      complaints.add(item.at(key), item.found(key), "a " + key + " that does not fail");
    }
  }

  private static <T> Set<String> ids(T[] basic, Function<T, String> id) {
    return Arrays.stream(basic).map(id).collect(Collectors.toCollection(TreeSet::new));
  }

  /**
   * Returns what the terms that a machine's file names add to the cost of its procedures.
   *
   * @param machine the machine without them
   * @param items the file's {@code terms}
   * @param complaints takes what is wrong
   */
  List<AddedCost> added(Machine machine, List<Item> items, Complaints complaints) {
    if (items.isEmpty()) {
      return List.of();
    }
    List<AddedCost> added = new ArrayList<>();
    Set<String> before = ids(BasicCost.values(), BasicCost::id);
    for (Item item : items) {
      String id = item.text("term");
      try {
        if (!before.add(id)) {
          throw refusal(item.at("term"), item.found("term"), "a term that does not count already");
        }
        Optional<CostTerm> term = asked ? Optional.of(term(item, id)) : Optional.empty();
        Map<String, Double> numbers =
            term.isEmpty() ? Map.of() : numbers(item, term.get().numbers());
        for (ChangeProcedure p : machine.procedures()) {
          double money = Double.NaN;
          if (term.isPresent()) {
            money = term.get().perChangeMoney(machine, p, numbers);
            if (!(money >= 0 && money <= MOST_MONEY)) {
              throw refusal(item.at("term"), "" + money, "a term that gives 0 or more money");
            }
          }
          added.add(new AddedCost(id, p.id(), money));
        }
      } catch (RuntimeException e) { // some of whoever brought it
        complain(e, item, "term", complaints);
      }
    }
    return added;
  }

  private CostTerm term(Item item, String id) {
    Set<String> known = new TreeSet<>();
    return named(id, terms.get(), CostTerm::id, known)
        .orElseThrow(() -> missing(item, "term", "a term of the cost", id, known));
  }

  /**
   * Returns the life of a component by the law that it names.
   *
   * @param component the component without it
   * @param item the file's {@code lifeLaw}
   * @param complaints takes what is wrong
   */
  ComponentLife lived(Component component, Item item, Complaints complaints) {
    String id = item.text("law");
    try {
      Set<String> known = new LinkedHashSet<>();
      Optional<LifeLaw> law = named(id, List.<LifeLaw>of(BasicLife.values()), LifeLaw::id, known);
      if (law.isEmpty() && asked) {
        law = named(id, lives.get(), LifeLaw::id, known);
        if (law.isEmpty()) {
          throw missing(item, "law", "a life law", id, known);
        }
      }
      Optional<Survival> survival =
          law.map(l -> Objects.requireNonNull(l.life(component, numbers(item, l.numbers()))));
      return component.life().withLaw(new NamedLife(id, survival));
    } catch (RuntimeException e) { // some of whoever brought it
      complain(e, item, "law", complaints);
    }
    return component.life();
  }

  /** Returns a value for each number that a law or term takes. */
  private static Map<String, Double> numbers(Item item, List<NamedNumber> taken) {
    Map<String, Double> given = new HashMap<>();
    Map<String, Item> places = new HashMap<>();
    for (Item number : item.items("numbers")) {
      String name = number.text("name");
      if (taken.stream().noneMatch(n -> n.name().equals(name))) {
        throw refusal(
            number.at("name"),
            number.found("name"),
            taken.isEmpty()
                ? "no numbers, since none are taken"
                : "a number that is taken: "
                    + Words.choice(name, taken.stream().map(NamedNumber::name).toList()));
      }
      if (given.put(name, number.number("value")) != null) {
        throw refusal(number.at("name"), number.found("name"), "each number once");
      }
      places.put(name, number);
    }
    for (NamedNumber n : taken) {
      double value = given.computeIfAbsent(n.name(), name -> n.standard());
      if (!(value >= n.least() && value <= n.most())) {
        Item place = places.get(n.name());
        String unit = n.unit().equals("1") ? "" : n.unit();
        throw refusal(
            place.at("value"),
            place.found("value"),
            new Shape.Num(n.least(), n.most(), unit).expected());
      }
    }
    return Map.copyOf(given);
  }

  private static InputException refusal(String pointer, String found, String expected) {
    return new InputException(new Problem("", pointer, found, expected));
  }
}
