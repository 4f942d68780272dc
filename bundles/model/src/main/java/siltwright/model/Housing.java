package siltwright.model;

/** How an element sits in its housing, which decides what a change can spill into the tank. */
public enum Housing {
  /** A canister that seals off when it is turned and is lifted out whole. */
  SEALING_CANISTER("sealing-canister"),
  /** An element that stands in an open bowl above the tank. */
  OPEN_BOWL("open-bowl");

  private final String word;

  Housing(String word) {
    this.word = word;
  }

  /** Returns the word that files use. */
  public String word() {
    return word;
  }
}
