package siltwright.model.json;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Supplier;
import siltwright.model.BasicLaw;
import siltwright.model.Element;
import siltwright.model.InputException;
import siltwright.model.Loading;
import siltwright.model.LoadingLaw;
import siltwright.model.NamedLoading;
import siltwright.model.Problem;

/**
 * The loading laws that files may name. A law that is not there or fails is a problem of each
 * machine with such an element, and of no other.
 */
public final class Laws {
  /** For those that compute nothing with elements: which laws there are does not matter. */
  public static final Laws UNASKED = new Laws(List::of, false);

  private final Supplier<? extends Collection<LoadingLaw>> found;
  private final boolean asked;

  private Laws(Supplier<? extends Collection<LoadingLaw>> found, boolean asked) {
    this.found = found;
    this.asked = asked;
  }

  /**
   * Returns laws beside the {@link BasicLaw}s.
   *
   * @param found gives those that there are now; asked only where a file names one
   */
  public static Laws of(Supplier<? extends Collection<LoadingLaw>> found) {
    return new Laws(found, true);
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
        numbers(item, BasicLaw.BLOCKING);
        return element.withoutCurve();
      }
      if (id.equals(BasicLaw.MEASURED.id())) {
        numbers(item, BasicLaw.MEASURED);
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
    Map<String, LoadingLaw> laws = new HashMap<>();
    found.get().forEach(law -> laws.putIfAbsent(law.id(), law));
    LoadingLaw law = laws.get(id);
    if (law == null) {
      TreeSet<String> known = new TreeSet<>(laws.keySet());
      for (BasicLaw basic : BasicLaw.values()) {
        known.add(basic.id());
      }
      throw refusal(
          item.at("law"),
          item.found("law"),
          "a loading law that is there: " + Words.choice(id, known));
    }
    return law.loading(element, numbers(item, law));
  }

  /** Returns a value for each number of a law. */
  private static Map<String, Double> numbers(Item item, LoadingLaw law) {
    Map<String, Double> given = new HashMap<>();
    Map<String, Item> places = new HashMap<>();
    for (Item number : item.items("numbers")) {
      String name = number.text("name");
      if (law.numbers().stream().noneMatch(n -> n.name().equals(name))) {
        throw refusal(
            number.at("name"),
            number.found("name"),
            law.numbers().isEmpty()
                ? "no numbers, since the law takes none"
                : "a number of the law: "
                    + Words.choice(
                        name, law.numbers().stream().map(LoadingLaw.Number::name).toList()));
      }
      if (given.put(name, number.number("value")) != null) {
        throw refusal(number.at("name"), number.found("name"), "each number once");
      }
      places.put(name, number);
    }
    for (LoadingLaw.Number n : law.numbers()) {
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
