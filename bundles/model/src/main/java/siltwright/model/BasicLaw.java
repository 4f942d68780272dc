package siltwright.model;

import java.util.Map;

/** The loading laws that are always there; one of them holds where a file names none. */
public enum BasicLaw implements LoadingLaw {
  /** The element's own curve. */
  MEASURED(
      "measured", "the element's loadingCurve, ln of the pressure drop linear between points") {
    @Override
    public Loading loading(Element element, Map<String, Double> numbers) {
      return Loading.measured(element.loadingCurve());
    }
  },
  /** Hermia's blocking laws. */
  BLOCKING("blocking", "dh/dm = k h^n with the element's blockingExponent n (Hermia)") {
    @Override
    public Loading loading(Element element, Map<String, Double> numbers) {
      return Loading.blocking(
          element.blockingExponent(), element.terminalDropKPa() / element.cleanDropKPa());
    }
  };

  private final String id;
  private final String meaning;

  BasicLaw(String id, String meaning) {
    this.id = id;
    this.meaning = meaning;
  }

  /** Returns the law of an element whose file names none: its curve where it has one. */
  static BasicLaw of(Element element) {
    return element.loadingCurve().isEmpty() ? BLOCKING : MEASURED;
  }

  @Override
  public String id() {
    return id;
  }

  @Override
  public String meaning() {
    return meaning;
  }
}
