package siltwright.model.json;

import java.util.ArrayList;
import java.util.List;
import siltwright.model.Problem;

/** Collects what is wrong with a file, or with one machine of it. */
public final class Complaints {
  private final String source;
  private final String owner;
  private final List<Problem> problems = new ArrayList<>();

  /**
   * Begins an empty collection.
   *
   * @param source name of the file
   * @param owner whose part of the file it is, such as {@code machine EX-03}; empty for the file
   */
  public Complaints(String source, String owner) {
    this.source = source;
    this.owner = owner;
  }

  /** Adds what is wrong with the value at a pointer. */
  public void add(String pointer, String found, String expected) {
    String place = owner.isEmpty() || pointer.isEmpty() ? owner + pointer : owner + " " + pointer;
    problems.add(new Problem(source, place, found, expected));
  }

  /** Returns whether nothing is wrong. */
  public boolean isEmpty() {
    return problems.isEmpty();
  }

  /** Returns all that is wrong. */
  public List<Problem> problems() {
    return problems;
  }
}
