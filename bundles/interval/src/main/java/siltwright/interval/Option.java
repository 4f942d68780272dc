package siltwright.interval;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import siltwright.model.Breather;
import siltwright.model.Element;
import siltwright.model.Ingress;
import siltwright.model.IngressSource;
import siltwright.model.Machine;
import siltwright.model.OfflineFilter;

/**
 * What is fitted to a machine: element, breather and offline filter.
 *
 * @param element the element; empty for the one fitted today
 * @param breather another breather; empty for the one fitted today
 * @param offlineFilter another offline filter; empty for what is there today
 */
public record Option(
    Optional<Element> element, Optional<Breather> breather, Optional<OfflineFilter> offlineFilter) {
  /** All as it is today. */
  public static final Option TODAY =
      new Option(Optional.empty(), Optional.empty(), Optional.empty());

  /** Returns every combination of what could be fitted, today's first. */
  public static List<Option> of(Machine machine) {
    List<Option> options = new ArrayList<>();
    for (Optional<Element> e : choices(machine.alternatives().elements())) {
      for (Optional<Breather> b : choices(machine.alternatives().breathers())) {
        for (Optional<OfflineFilter> o : choices(machine.alternatives().offlineFilters())) {
          options.add(new Option(e, b, o));
        }
      }
    }
    return options;
  }

  private static <T> List<Optional<T>> choices(List<T> others) {
    List<Optional<T>> all = new ArrayList<>();
    all.add(Optional.empty());
    others.forEach(o -> all.add(Optional.of(o)));
    return all;
  }

  /** Returns the machine with this fitted. */
  public Machine fitted(Machine machine) {
    Machine m = machine;
    if (element.isPresent()) {
      m = m.withElement(element.get());
    }
    if (offlineFilter.isPresent()) {
      m = m.withOfflineFilter(offlineFilter);
    }
    if (breather.isPresent()) {
      double factor = breather.get().ingressFactor();
      List<IngressSource> reservoir =
          m.ingress().reservoir().stream()
              .map(
                  s ->
                      s.source().equals(IngressSource.BREATHER)
                          ? new IngressSource(s.source(), s.rateMgPerH() * factor, s.distribution())
                          : s)
              .toList();
      m = m.withIngress(new Ingress(reservoir, m.ingress().returnLine()));
    }
    return m;
  }

  /** Returns the id of the element fitted. */
  public String elementId(Machine machine) {
    return element.orElse(machine.returnFilter().element()).id();
  }

  /** Returns what breather and offline filter cost per hour. */
  double equipmentMoneyPerH(Machine machine) {
    return breather.map(Breather::costMoneyPerH).orElse(0.0)
        + offlineFilter.or(machine::offlineFilter).map(OfflineFilter::costMoneyPerH).orElse(0.0);
  }
}
