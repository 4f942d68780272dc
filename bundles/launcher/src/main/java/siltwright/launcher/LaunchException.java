package siltwright.launcher;

/** The product cannot start; the message says why, in lines meant for its user. */
public final class LaunchException extends Exception {

  private static final long serialVersionUID = 1L;

  LaunchException(String message) {
    super(message);
  }

  LaunchException(String message, Throwable cause) {
    super(message, cause);
  }
}
