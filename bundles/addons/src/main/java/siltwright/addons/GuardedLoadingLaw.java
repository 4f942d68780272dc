package siltwright.addons;

import java.util.List;
import java.util.Map;
import siltwright.model.Element;
import siltwright.model.Loading;
import siltwright.model.LoadingLaw;
import siltwright.model.NamedNumber;

/** An add-on's loading law. What it gives is data: nothing of the add-on runs in a balance. */
final class GuardedLoadingLaw implements LoadingLaw {
  private final LoadingLaw law;
  private final Guard.Call call;
  private final String id;
  private final String meaning;
  private final List<NamedNumber> numbers;

  GuardedLoadingLaw(LoadingLaw law, Guard.Call call) {
    this.law = law;
    this.call = call;
    this.id = call.of(law::id);
    this.meaning = call.of(law::meaning);
    this.numbers = List.copyOf(call.<List<NamedNumber>>of(law::numbers));
  }

  @Override
  public String id() {
    return id;
  }

  @Override
  public String meaning() {
    return meaning;
  }

  @Override
  public List<NamedNumber> numbers() {
    return numbers;
  }

  @Override
  public Loading loading(Element element, Map<String, Double> given) {
    return call.of(() -> law.loading(element, given));
  }
}
