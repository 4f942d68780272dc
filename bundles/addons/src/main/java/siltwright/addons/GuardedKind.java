package siltwright.addons;

import java.util.List;
import java.util.function.Supplier;
import siltwright.model.NamedNumber;

/** What an add-on's law or term says of itself, asked once. */
abstract class GuardedKind {
  private final String id;
  private final String meaning;
  private final List<NamedNumber> numbers;

  GuardedKind(
      Guard.Call call,
      Supplier<String> id,
      Supplier<String> meaning,
      Supplier<List<NamedNumber>> numbers) {
    this.id = call.of(id);
    this.meaning = call.of(meaning);
    this.numbers = List.copyOf(call.of(numbers));
  }

  /** Returns the id by which a file names it. */
  public final String id() {
    return id;
  }

  /** Returns what it is, in a sentence. */
  public final String meaning() {
    return meaning;
  }

  /** Returns the numbers that a file may give it. */
  public final List<NamedNumber> numbers() {
    return numbers;
  }
}
