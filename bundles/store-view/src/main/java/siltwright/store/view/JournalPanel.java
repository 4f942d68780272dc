package siltwright.store.view;

import java.awt.BorderLayout;
import java.time.Clock;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSplitPane;
import net.miginfocom.swing.MigLayout;
import siltwright.store.Action;
import siltwright.store.Journal;
import siltwright.store.Store;
import siltwright.workbench.Desk;

/** What was done to a store, the latest first; what an action changed; taking it back. */
final class JournalPanel {
  private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm");
  private static final int ROWS = 200;

  private final Desk desk;
  private final Runnable changed;
  private final JPanel component = new JPanel(new BorderLayout());
  private final Grid actions = new Grid("store.actions");
  private final Grid rows = new Grid("store.rows");
  private final Message fault = new Message("store.undo.fault");
  private final JButton undo = RecordsPane.button("undo", this::undo);
  private String where;
  private List<Action> shown = List.of();

  JournalPanel(Desk desk, Runnable changed) {
    this.desk = desk;
    this.changed = changed;
    JPanel bar = new JPanel(new MigLayout("insets 8, fillx, hidemode 3", "[][grow]"));
    undo.setToolTipText(Words.of("undo.tip"));
    undo.setEnabled(false);
    bar.add(undo);
    bar.add(fault.component(), "growx, wmin 0");
    JSplitPane split =
        new JSplitPane(JSplitPane.VERTICAL_SPLIT, new JScrollPane(actions), new JScrollPane(rows));
    split.setResizeWeight(0.6);
    component.add(bar, BorderLayout.NORTH);
    component.add(split, BorderLayout.CENTER);
    actions.getSelectionModel().addListSelectionListener(e -> select());
  }

  JComponent component() {
    return component;
  }

  void show(String store, List<Action> now) {
    where = store;
    shown = List.copyOf(now);
    List<List<String>> lines = new ArrayList<>();
    for (Action a : shown) {
      lines.add(
          List.of(
              Long.toString(a.number()),
              TIME.format(a.at().atZone(ZoneId.systemDefault())),
              a.who(),
              a.verb(),
              a.detail(),
              Long.toString(a.made()),
              Long.toString(a.ended()),
              a.undoneBy().isPresent() ? Long.toString(a.undoneBy().getAsLong()) : ""));
    }
    actions.show(
        List.of(
            Words.of("number"),
            Words.of("when"),
            Words.of("who"),
            Words.of("what"),
            Words.of("of"),
            Words.of("made"),
            Words.of("ended"),
            Words.of("undoneBy")),
        lines);
    select();
  }

  private Action selected() {
    int row = actions.getSelectedRow();
    return row < 0 || row >= shown.size() ? null : shown.get(row);
  }

  private void select() {
    Action action = selected();
    undo.setEnabled(action != null && action.undoneBy().isEmpty());
    fault.clear();
    if (action == null) {
      rows.show(List.of(), List.of());
      return;
    }
    String store = where;
    desk.compute(
        "rows",
        Words.of("looking"),
        progress -> {
          try (Store s = Store.openExisting(store, Clock.systemUTC())) {
            return s.journal().rows(action.number(), ROWS);
          }
        },
        this::showRows,
        fault::tell);
  }

  private void showRows(List<Journal.Row> changes) {
    rows.show(
        List.of(Words.of("table"), Words.of("row"), Words.of("how"), Words.of("values")),
        changes.stream()
            .map(
                r ->
                    List.of(
                        r.table(),
                        Long.toString(r.number()),
                        Words.of(r.made() ? "isMade" : "isEnded"),
                        r.values().entrySet().stream()
                            .map(v -> v.getKey() + " " + v.getValue())
                            .collect(Collectors.joining(", "))))
            .toList());
  }

  private void undo() {
    Action action = selected();
    String store = where;
    desk.compute(
        "undo",
        Words.of("undoing", action.number()),
        progress -> {
          try (Store s = Store.openExisting(store, Clock.systemUTC())) {
            return s.undo(action.number(), System.getProperty("user.name", "somebody"));
          }
        },
        undone -> {
          desk.status(Words.of("undone", Long.toString(undone.number())));
          changed.run();
        },
        fault::tell);
  }
}
