package siltwright.addons;

/** An add-on did something it must not and is set aside; the message says which, and what. */
public final class AddOnFault extends RuntimeException {
  private static final long serialVersionUID = 1L;

  AddOnFault(String message) {
    super(message);
  }

  /** Returns the fault of an add-on that is behind a failure; null if none is. */
  public static AddOnFault behind(Throwable failure) {
    for (Throwable t = failure; t != null; t = t.getCause()) {
      if (t instanceof AddOnFault fault) {
        return fault;
      }
    }
    return null;
  }
}
