package siltwright.features.hostile;

import java.util.Map;
import siltwright.model.Element;
import siltwright.model.Loading;
import siltwright.model.LoadingLaw;

/** Loading laws that do what a law must not. */
public abstract class HostileLaw implements LoadingLaw {
  @Override
  public String id() {
    return getClass().getSimpleName();
  }

  @Override
  public String meaning() {
    return "does what it must not";
  }

  /** Fails when it is asked. */
  public static final class ThrowingLaw extends HostileLaw {
    @Override
    public Loading loading(Element element, Map<String, Double> numbers) {
      throw new IllegalStateException("asked to fail");
    }
  }

  /** Gives what is no loading at all. */
  public static final class FallingLaw extends HostileLaw {
    @Override
    public Loading loading(Element element, Map<String, Double> numbers) {
      return Loading.sampled(m -> 1 - m);
    }
  }

  /** Never comes back. */
  public static final class LoopingLaw extends HostileLaw {
    @Override
    public Loading loading(Element element, Map<String, Double> numbers) {
      return Loading.sampled(
          m -> {
            while (m < 99) {
              Thread.onSpinWait();
            }
            return m;
          });
    }
  }
}
