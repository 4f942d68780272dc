package siltwright.life;

/**
 * Why there is no estimate, and what can be said instead.
 *
 * @param reason the kind
 * @param why what in the records causes it, in a sentence
 * @param instead what the records do carry, in a sentence
 */
public record Refusal(Reason reason, String why, String instead) {
  @Override
  public String toString() {
    return why + " " + instead;
  }
}
