package siltwright.addons;

import java.util.Map;
import siltwright.model.Component;
import siltwright.model.LifeLaw;
import siltwright.model.Survival;

/** An add-on's life law. What it gives is data: nothing of the add-on runs in a search. */
final class GuardedLifeLaw extends GuardedKind implements LifeLaw {
  private final LifeLaw law;
  private final Guard.Call call;

  GuardedLifeLaw(LifeLaw law, Guard.Call call) {
    super(call, law::id, law::meaning, law::numbers);
    this.law = law;
    this.call = call;
  }

  @Override
  public Survival life(Component component, Map<String, Double> given) {
    return call.of(() -> law.life(component, given));
  }
}
