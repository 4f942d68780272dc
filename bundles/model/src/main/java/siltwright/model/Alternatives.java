package siltwright.model;

import java.util.List;

/**
 * What could be fitted instead.
 *
 * @param elements other elements that fit the housing
 * @param breathers other breathers
 * @param offlineFilters offline filters that could be added or exchanged
 */
public record Alternatives(
    List<Element> elements, List<Breather> breathers, List<OfflineFilter> offlineFilters) {
  /** Nothing else. */
  public static final Alternatives NONE = new Alternatives(List.of(), List.of(), List.of());

  public Alternatives {
    elements = List.copyOf(elements);
    breathers = List.copyOf(breathers);
    offlineFilters = List.copyOf(offlineFilters);
  }
}
