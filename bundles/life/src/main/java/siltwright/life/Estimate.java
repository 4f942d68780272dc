package siltwright.life;

/**
 * An estimate or the refusal of one.
 *
 * @param <T> what was to be estimated
 */
public sealed interface Estimate<T> {
  /**
   * Returns what was found.
   *
   * @throws IllegalStateException with the reason if nothing was found
   */
  T get();

  /** Returns why nothing was found, or null if something was. */
  Refusal refusal();

  /** Returns whether there is an estimate. */
  default boolean exists() {
    return refusal() == null;
  }

  /**
   * An estimate.
   *
   * @param get the estimate
   */
  record Found<T>(T get) implements Estimate<T> {
    @Override
    public Refusal refusal() {
      return null;
    }
  }

  /**
   * No estimate.
   *
   * @param refusal why
   */
  record Refused<T>(Refusal refusal) implements Estimate<T> {
    @Override
    public T get() {
      throw new IllegalStateException(refusal.toString());
    }
  }

  /** Returns an estimate. */
  static <T> Estimate<T> found(T value) {
    return new Found<>(value);
  }

  /** Returns a refusal. */
  static <T> Estimate<T> refused(Reason reason, String why, String instead) {
    return new Refused<>(new Refusal(reason, why, instead));
  }
}
