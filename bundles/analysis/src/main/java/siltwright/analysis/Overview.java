package siltwright.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Results of one analysis side by side, such as those of the machines of a fleet. */
public final class Overview {
  private Overview() {}

  /**
   * Returns a table for each group of values that all results have, a row a result.
   *
   * @param results results of one analysis
   */
  public static List<Entry.Table> of(List<Result> results) {
    List<Entry.Table> tables = new ArrayList<>();
    if (results.isEmpty()) {
      return tables;
    }
    for (Entry entry : results.get(0).entries()) {
      if (entry instanceof Entry.Group group
          && group.use() == Entry.Use.READ
          && results.stream().allMatch(r -> group(r, group.name()).isPresent())) {
        tables.add(table(results.stream().map(r -> group(r, group.name()).orElseThrow()).toList()));
      }
    }
    return tables;
  }

  private static Optional<Entry.Group> group(Result result, String name) {
    return result.entries().stream()
        .filter(e -> e instanceof Entry.Group && e.name().equals(name))
        .map(Entry.Group.class::cast)
        .findFirst();
  }

  private static Entry.Table table(List<Entry.Group> groups) {
    List<Entry.Column> columns = new ArrayList<>();
    List<List<Cell>> rows = new ArrayList<>();
    groups.forEach(g -> rows.add(new ArrayList<>()));
    for (Entry.Value value : groups.get(0).values()) {
      List<Optional<Entry.Value>> values = groups.stream().map(g -> find(g, value.name())).toList();
      if (values.stream().anyMatch(v -> v.isPresent() && v.get().cell().isLong())) {
        continue;
      }
      // Machines of several currencies: each with its own unit.
      boolean oneUnit =
          values.stream().flatMap(Optional::stream).allMatch(v -> v.unit().equals(value.unit()));
      columns.add(new Entry.Column(value.name(), value.label(), oneUnit ? value.unit() : ""));
      for (int i = 0; i < rows.size(); i++) {
        rows.get(i)
            .add(
                values.get(i).map(v -> oneUnit ? v.cell() : withUnit(v)).orElseGet(Cell.None::new));
      }
    }
    Entry.Group first = groups.get(0);
    return new Entry.Table(first.name(), first.label(), Entry.Use.READ, columns, rows).shown();
  }

  private static Cell withUnit(Entry.Value v) {
    String unit = v.unit();
    if (v.cell() instanceof Cell.Num n) {
      return Cell.of((Numbers.text(n.value(), unit) + " " + unit).strip());
    }
    if (v.cell() instanceof Cell.Range r) {
      String range = Numbers.text(r.low(), unit) + " to " + Numbers.text(r.high(), unit);
      return Cell.of((range + " " + unit).strip());
    }
    return v.cell();
  }

  private static Optional<Entry.Value> find(Entry.Group group, String name) {
    return group.values().stream().filter(v -> v.name().equals(name)).findFirst();
  }
}
