package siltwright.transfer.internal;

import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Action;
import siltwright.analysis.Cell;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.store.Journal;
import siltwright.store.Store;
import siltwright.store.StoreOptions;

/** Prints what was done to a store. */
@Component
@Capability(namespace = "siltwright.command", name = "journal")
public final class JournalAction implements Action {
  private static final int ROWS = 200;

  private static final TextParameter ACTION =
      TextParameter.optional(
          "action", "a number", "shows each row of this action, as it was and as it became");
  private static final WholeParameter LAST =
      new WholeParameter("last", 1, 1_000_000, 50, "how many actions are listed, the latest first");

  private static final Description DESCRIPTION =
      Description.of(
          "journal",
          "Journal",
          "What was done to a store, by whom and when, and what was there before.",
          Scope.NONE,
          StoreOptions.STORE,
          ACTION,
          LAST);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    try (Store store = Store.openExisting(values.get(StoreOptions.STORE), Clock.systemUTC())) {
      Journal journal = store.journal();
      Optional<String> one = values.find(ACTION);
      List<siltwright.store.Action> actions =
          one.isPresent()
              ? List.of(find(journal, one.get()))
              : journal.last(Math.toIntExact(values.get(LAST)));
      List<List<Cell>> rows = new ArrayList<>();
      for (siltwright.store.Action a : actions) {
        rows.add(
            List.of(
                Cell.of(a.number()),
                Cell.of(a.at().toString().substring(0, 16).replace('T', ' ')),
                Cell.of(a.who()),
                Cell.of(a.verb() + " " + a.detail()),
                Cell.of(a.made()),
                Cell.of(a.ended()),
                number(a.undoneBy())));
      }
      result.add(
          new Entry.Table(
              "actions",
              "Actions",
              Entry.Use.READ,
              List.of(
                  new Entry.Column("action", "Action", "1"),
                  new Entry.Column("at", "When (UTC)", ""),
                  new Entry.Column("who", "Who", ""),
                  new Entry.Column("what", "What", ""),
                  new Entry.Column("made", "Made", "1"),
                  new Entry.Column("ended", "Ended", "1"),
                  new Entry.Column("undoneBy", "Undone by", "1")),
              rows));
      if (one.isPresent()) {
        rows(journal.rows(actions.get(0).number(), ROWS), result);
      }
    }
    return result.build();
  }

  private static Cell number(OptionalLong number) {
    return number.isPresent() ? Cell.of(number.getAsLong()) : new Cell.None();
  }

  private static siltwright.store.Action find(Journal journal, String text) {
    Optional<siltwright.store.Action> found = journal.find(StoreOptions.number("--action", text));
    return found.orElseThrow(
        () ->
            new InputException(new Problem("option", "--action", text, "a number in the journal")));
  }

  private static void rows(List<Journal.Row> rows, Result.Builder result) {
    List<List<Cell>> cells = new ArrayList<>();
    for (Journal.Row row : rows) {
      String values =
          row.values().entrySet().stream()
              .map(e -> e.getKey() + " " + e.getValue())
              .collect(Collectors.joining(", "));
      cells.add(
          List.of(
              Cell.of(row.table()),
              Cell.of(row.number()),
              Cell.of(row.made() ? "made" : "ended"),
              Cell.of(values)));
    }
    result.add(
        new Entry.Table(
            "rows",
            "Its rows, the first " + ROWS + " of each table",
            Entry.Use.READ,
            List.of(
                new Entry.Column("table", "Table", ""),
                new Entry.Column("number", "Number", "1"),
                new Entry.Column("fate", "Fate", ""),
                new Entry.Column("values", "What it says", "")),
            cells));
  }
}
