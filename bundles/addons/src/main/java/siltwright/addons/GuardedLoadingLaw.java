package siltwright.addons;

import java.util.Map;
import siltwright.model.Element;
import siltwright.model.Loading;
import siltwright.model.LoadingLaw;

/** An add-on's loading law. What it gives is data: nothing of the add-on runs in a balance. */
final class GuardedLoadingLaw extends GuardedKind implements LoadingLaw {
  private final LoadingLaw law;
  private final Guard.Call call;

  GuardedLoadingLaw(LoadingLaw law, Guard.Call call) {
    super(call, law::id, law::meaning, law::numbers);
    this.law = law;
    this.call = call;
  }

  @Override
  public Loading loading(Element element, Map<String, Double> given) {
    return call.of(() -> law.loading(element, given));
  }
}
