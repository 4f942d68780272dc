package siltwright.model.json;

import java.util.ArrayList;
import java.util.List;
import siltwright.model.Problem;

/** Collects what is wrong with a file, or with one machine of it. */
final class Complaints {
  private final String source;
  private final String owner;
  private final List<Problem> problems = new ArrayList<>();

  /**
   * Begins an empty collection.
   *
   * @param source name of the file
   * @param owner whose part of the file it is, such as {@code machine EX-03}; empty for the file
   */
  Complaints(String source, String owner) {
    this.source = source;
    this.owner = owner;
  }

  void add(String pointer, String found, String expected) {
    String place = owner.isEmpty() || pointer.isEmpty() ? owner + pointer : owner + " " + pointer;
    problems.add(new Problem(source, place, found, expected));
  }

  boolean isEmpty() {
    return problems.isEmpty();
  }

  List<Problem> problems() {
    return problems;
  }
}
