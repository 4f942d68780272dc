package siltwright.store;

import java.util.Optional;
import org.osgi.annotation.versioning.ProviderType;

/**
 * The store that a user works on now, one for all that shows or changes it in a window. Called on
 * one thread only.
 */
@ProviderType
public interface StoreInUse {
  /** Returns which it is, if any: a file, or an address on a server. */
  Optional<String> where();

  /** Takes another one; a store that is there. */
  void use(String where);

  /**
   * Has something done whenever another one is taken, or the same once more.
   *
   * @param action what; {@link #forget} it when it is no longer needed
   */
  void listen(Runnable action);

  /** Has it done no more. */
  void forget(Runnable action);
}
