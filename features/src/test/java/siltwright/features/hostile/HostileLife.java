package siltwright.features.hostile;

import java.util.Map;
import siltwright.model.Component;
import siltwright.model.LifeLaw;
import siltwright.model.Survival;

/** Life laws that do what a law must not; the mild one is for comparison. */
public abstract class HostileLife implements LifeLaw {
  @Override
  public String id() {
    return getClass().getSimpleName();
  }

  @Override
  public String meaning() {
    return "does what it must not";
  }

  /** Does nothing wrong: as Weibull, of half the life. */
  public static final class MildLife extends HostileLife {
    @Override
    public Survival life(Component component, Map<String, Double> numbers) {
      return Survival.sampled(u -> Math.pow(2 * u, component.life().shape()));
    }
  }

  /** Fails when it is asked. */
  public static final class ThrowingLife extends HostileLife {
    @Override
    public Survival life(Component component, Map<String, Double> numbers) {
      throw new IllegalStateException("asked to fail");
    }
  }
}
