package siltwright.card.view;

import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.Rectangle;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTable;
import javax.swing.JTextArea;
import javax.swing.ListSelectionModel;
import javax.swing.Scrollable;
import javax.swing.UIManager;
import javax.swing.table.AbstractTableModel;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.card.CardRecords;
import siltwright.card.CardRecords.Fault;
import siltwright.card.CardRecords.Filled;
import siltwright.card.CardRecords.Remark;
import siltwright.card.FilledCards;
import siltwright.card.store.CardKeeping;
import siltwright.exchange.RecordsReader;
import siltwright.model.Problem;
import siltwright.store.StoreInUse;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.parts.Bar;
import siltwright.workbench.parts.RecordsFile;
import siltwright.workbench.parts.ThemeColors;
import siltwright.workbench.parts.Wrapped;

/** Filled cards: those of a table or typed in here, the form of one, and the store to keep them. */
final class CardsPane implements Pane {
  private static final String STORE = "store";
  private static final String TYPED = "typed";
  private static final int MOST_TYPED = 100;
  private static final int SHOWN_ROWS = 5;

  private final Desk desk;
  private final StoreInUse inUse;
  private final Runnable follow = this::storeChanged;
  private final JPanel component = new JPanel(new BorderLayout());
  private final Model model = new Model();
  private final JTable table = new JTable(model);
  private final JScrollPane list = new JScrollPane(table);
  private final CardForm form;
  private final RecordsFile file =
      new RecordsFile(
          component, "card.table", Words.of("table"), Words.of("table.kind"), this::open);
  private final JLabel store = new JLabel();
  private final JTextArea message = Wrapped.area("");
  private final JLabel summary = new JLabel();
  private final JButton keep = new JButton(Words.of("keep"));
  private final JButton keepAll = new JButton(Words.of("keepAll"));
  private final List<Draft> drafts = new ArrayList<>();
  private List<Remark> remarks = List.of();
  private String source = Words.of("source");
  private boolean filling;

  CardsPane(Desk desk, StoreInUse inUse) {
    this.desk = desk;
    this.inUse = inUse;
    component.setName("card.pane");
    form = new CardForm(desk, this::check, text -> tell(text, true));
    recallTyped();
    component.add(top(), BorderLayout.NORTH);
    JScrollPane scroll = new JScrollPane(new Page(form.component()));
    scroll.setBorder(null);
    scroll.getVerticalScrollBar().setUnitIncrement(16);
    component.add(scroll, BorderLayout.CENTER);
    component.add(bottom(), BorderLayout.SOUTH);
    inUse.listen(follow);
    storeChanged();
    if (inUse.where().isEmpty()) {
      desk.recall(STORE).ifPresent(inUse::use);
    }
  }

  /** As wide as there is room, so that only heights are scrolled. */
  private static final class Page extends JPanel implements Scrollable {
    private static final long serialVersionUID = 1;

    Page(JComponent content) {
      super(new BorderLayout());
      add(content, BorderLayout.NORTH);
    }

    @Override
    public Dimension getPreferredScrollableViewportSize() {
      return getPreferredSize();
    }

    @Override
    public int getScrollableUnitIncrement(Rectangle seen, int orientation, int direction) {
      return 16;
    }

    @Override
    public int getScrollableBlockIncrement(Rectangle seen, int orientation, int direction) {
      return seen.height;
    }

    @Override
    public boolean getScrollableTracksViewportWidth() {
      return true;
    }

    @Override
    public boolean getScrollableTracksViewportHeight() {
      return false;
    }
  }

  /** The cards, a row each. */
  private final class Model extends AbstractTableModel {
    private static final long serialVersionUID = 1;
    private static final List<String> COLUMNS = List.of("row", "card", "date", "state");

    @Override
    public int getRowCount() {
      return drafts.size();
    }

    @Override
    public int getColumnCount() {
      return COLUMNS.size();
    }

    @Override
    public String getColumnName(int column) {
      return Words.of(COLUMNS.get(column));
    }

    @Override
    public Object getValueAt(int row, int column) {
      Draft d = drafts.get(row);
      return switch (column) {
        case 0 -> d.line();
        case 1 -> d.card();
        case 2 -> d.date();
        default -> Words.of("state." + state(d));
      };
    }
  }

  private String state(Draft d) {
    if (d.state() != Draft.State.OPEN) {
      return d.state() == Draft.State.KEPT ? "kept" : "refused";
    }
    List<Fault> faults =
        remarks.stream().filter(r -> r.line() == d.line()).map(Remark::fault).toList();
    return faults.contains(Fault.CONTRADICTION)
        ? "contradiction"
        : faults.contains(Fault.MISSING) ? "missing" : faults.isEmpty() ? "sound" : "alarm";
  }

  private JPanel top() {
    JPanel top = new JPanel(new MigLayout("insets 8 8 0 8, fillx, hidemode 3, wrap 1", "[grow]"));
    Bar bar = Bar.flush();
    JButton another = new JButton(Words.of("new"));
    another.setName("card.new");
    another.addActionListener(e -> another());
    bar.add(another);
    bar.add(file.button());
    bar.add(file.label());
    JButton open = new JButton(Words.of("store"));
    open.setName("card.store");
    open.setToolTipText(Words.of("store.tip"));
    open.addActionListener(e -> chooseStore());
    store.setName("card.store.name");
    bar.addTogether(open, store);
    top.add(bar, "growx, wmin 0");
    table.setName("card.list");
    table.getAccessibleContext().setAccessibleName(Words.of("title"));
    table.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    table.getTableHeader().setReorderingAllowed(false);
    int[] widths = {40, 300, 90, 110};
    for (int i = 0; i < widths.length; i++) {
      table.getColumnModel().getColumn(i).setPreferredWidth(widths[i]);
    }
    table.getSelectionModel().addListSelectionListener(e -> chosen());
    list.setVisible(false);
    top.add(list, "growx, wmin 0");
    message.setName("card.message");
    message.setVisible(false);
    top.add(message, "growx, wmin 0");
    return top;
  }

  private JPanel bottom() {
    JPanel bottom = new JPanel(new MigLayout("insets 6 8 8 8, fillx, hidemode 3", "[grow][][]"));
    summary.setName("card.summary");
    keep.setName("card.keep");
    keepAll.setName("card.keepAll");
    keep.addActionListener(e -> keep(List.of(now())));
    keepAll.addActionListener(e -> keep(List.copyOf(drafts)));
    bottom.add(summary, "wmin 0");
    bottom.add(keep);
    bottom.add(keepAll);
    return bottom;
  }

  private Draft now() {
    int row = table.getSelectedRow();
    return drafts.get(Math.max(0, Math.min(row, drafts.size() - 1)));
  }

  private void chosen() {
    if (!filling) {
      showForm();
      check();
    }
  }

  private void showForm() {
    Scenario s = desk.scenario();
    form.show(now(), s.fleet(), s.machine(), s.units());
  }

  /** Shows other cards and selects one. */
  private void fill(int selected) {
    filling = true;
    model.fireTableDataChanged();
    table.setRowSelectionInterval(selected, selected);
    filling = false;
    int rows = Math.min(SHOWN_ROWS, drafts.size());
    list.setVisible(drafts.size() > 1);
    table.setPreferredScrollableViewportSize(new Dimension(400, rows * table.getRowHeight()));
    keepAll.setVisible(drafts.size() > 1);
    component.revalidate();
    chosen();
  }

  private int nextLine() {
    return drafts.isEmpty() ? 1 : drafts.get(drafts.size() - 1).line() + 1;
  }

  private void recallTyped() {
    for (String text : desk.recall(TYPED).orElse("").split("\n\n")) {
      drafts.add(Draft.of(nextLine(), text));
    }
  }

  private void keepTyped() {
    List<String> texts =
        drafts.stream().filter(Draft::isOnlyHere).limit(MOST_TYPED).map(Draft::asText).toList();
    desk.keep(TYPED, String.join("\n", texts));
  }

  private void another() {
    if (!drafts.get(drafts.size() - 1).isEmpty()) {
      drafts.add(new Draft(nextLine()));
    }
    fill(drafts.size() - 1);
  }

  /** Opens a table of filled cards; what was typed in and is not kept stays behind them. */
  void open(Path path) {
    desk.compute(
        "table",
        Words.of("opening", path.getFileName()),
        progress -> RecordsReader.read(path, FilledCards.columns()),
        records -> show(path, records),
        text -> tell(text, true));
  }

  private void show(Path path, Records records) {
    file.show(path);
    source = path.toString();
    List<Draft> typed = drafts.stream().filter(Draft::isOnlyHere).toList();
    drafts.clear();
    FilledCards.of(records).forEach(f -> drafts.add(new Draft(f)));
    typed.forEach(d -> drafts.add(new Draft(nextLine(), d)));
    if (drafts.isEmpty()) {
      drafts.add(new Draft(1));
    }
    List<Problem> refused = records.refusals().listed();
    if (refused.isEmpty()) {
      tell("", false);
    } else {
      tell(
          Words.of(
              "refusedRows",
              records.refusals().count(),
              String.join("\n", refused.stream().map(Problem::toString).toList())),
          true);
    }
    fill(0);
  }

  private void tell(String text, boolean wrong) {
    message.setForeground(UIManager.getColor(wrong ? ThemeColors.FAULT : "Label.foreground"));
    message.setText(text);
    message.setVisible(!text.isEmpty());
  }

  /** Checks all cards, since they are held against each other, and marks the one that is shown. */
  private void check() {
    List<Remark> all =
        new ArrayList<>(new CardRecords(desk.scenario().fleet()).check(filled(drafts)));
    for (Draft d : drafts) {
      d.faults()
          .forEach(
              (field, why) -> {
                all.removeIf(r -> r.line() == d.line() && r.column().equals(field.column()));
                all.add(new Remark(d.line(), field.column(), Fault.CONTRADICTION, why));
              });
    }
    remarks = List.copyOf(all);
    Draft shown = now();
    List<Remark> of = remarks.stream().filter(r -> r.line() == shown.line()).toList();
    form.mark(shown.isEmpty() ? List.of() : of);
    summary.setText(summary(shown, of));
    int row = drafts.indexOf(shown);
    model.fireTableRowsUpdated(row, row);
    keepTyped();
    enable();
  }

  private static List<Filled> filled(List<Draft> of) {
    return of.stream().map(Draft::filled).toList();
  }

  private static String summary(Draft shown, List<Remark> of) {
    if (shown.isEmpty()) {
      return Words.of("summary.empty");
    }
    long[] counts = new long[Fault.values().length];
    of.forEach(r -> counts[r.fault().ordinal()]++);
    return of.isEmpty()
        ? Words.of("summary.sound")
        : Words.of("summary", counts[0], counts[1], counts[2]);
  }

  private void enable() {
    boolean open = inUse.where().isPresent();
    Draft shown = now();
    keep.setEnabled(
        open
            && !shown.isEmpty()
            && remarks.stream().noneMatch(r -> r.line() == shown.line() && CardKeeping.refuses(r)));
    keepAll.setEnabled(open);
  }

  private void chooseStore() {
    JFileChooser chooser = new JFileChooser();
    chooser.setDialogTitle(Words.of("store"));
    if (chooser.showOpenDialog(component) == JFileChooser.APPROVE_OPTION) {
      inUse.use(chooser.getSelectedFile().toPath().toAbsolutePath().toString());
    }
  }

  private void storeChanged() {
    inUse.where().ifPresent(w -> desk.keep(STORE, w));
    store.setText(
        inUse.where().map(w -> Words.of("store.is", shortName(w))).orElse(Words.of("store.none")));
    store.setToolTipText(inUse.where().orElse(null));
    enable();
  }

  private static String shortName(String where) {
    return where.startsWith("jdbc:") ? where : Path.of(where).getFileName().toString();
  }

  /** What became of cards that were to be kept. */
  private record Outcome(CardKeeping.Kept kept, Refusals refusals) {}

  private void keep(List<Draft> of) {
    String where = inUse.where().orElseThrow();
    List<Draft> wanted = of.stream().filter(d -> !d.isEmpty()).toList();
    List<Filled> cards = filled(wanted);
    List<Remark> wrong =
        remarks.stream().filter(r -> wanted.stream().anyMatch(d -> d.line() == r.line())).toList();
    String from = source;
    keep.setEnabled(false);
    keepAll.setEnabled(false);
    desk.compute(
        "keep",
        Words.of("keeping", shortName(where)),
        progress -> keep(where, from, cards, wrong, progress),
        outcome -> done(wanted, where, outcome),
        text -> {
          tell(text, true);
          enable();
        });
  }

  private static Outcome keep(
      String where, String from, List<Filled> cards, List<Remark> wrong, Progress progress) {
    Refusals refusals = new Refusals(from);
    String who = System.getProperty("user.name", "somebody");
    return new Outcome(
        CardKeeping.keep(where, who, from, cards, wrong, refusals, progress), refusals);
  }

  private void done(List<Draft> wanted, String where, Outcome outcome) {
    wanted.forEach(
        d ->
            d.become(
                outcome.refusals().refused(d.line()) ? Draft.State.REFUSED : Draft.State.KEPT));
    CardKeeping.Kept kept = outcome.kept();
    int refused = outcome.refusals().count();
    String text = Words.of("kept", kept.added(), kept.known(), refused);
    desk.status(text);
    List<String> lines = new ArrayList<>(List.of(text));
    outcome
        .refusals()
        .listed()
        .forEach(p -> lines.add(Words.of("refusedRow", p.place(), p.expected())));
    tell(String.join("\n", lines), refused > 0);
    model.fireTableRowsUpdated(0, drafts.size() - 1);
    keepTyped();
    enable();
    inUse.use(where);
  }

  @Override
  public JComponent component() {
    return component;
  }

  @Override
  public void show(Scenario scenario) {
    if (table.getSelectedRow() < 0) {
      fill(0);
    } else {
      showForm();
      check();
    }
  }

  @Override
  public void close() {
    inUse.forget(follow);
  }
}
