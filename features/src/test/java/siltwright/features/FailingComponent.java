package siltwright.features;

/** A component that cannot be made. */
public final class FailingComponent implements Runnable {

  public FailingComponent() {
    throw new IllegalStateException("made to fail");
  }

  @Override
  public void run() {
    // never made, never run
  }
}
