package siltwright.workbench.internal;

import java.awt.BorderLayout;
import java.awt.Font;
import java.awt.Rectangle;
import java.awt.event.HierarchyEvent;
import java.awt.event.HierarchyListener;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import javax.swing.BorderFactory;
import javax.swing.ButtonGroup;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JRadioButton;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.SwingUtilities;
import javax.swing.UIManager;
import javax.swing.filechooser.FileNameExtensionFilter;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.Analysis;
import siltwright.analysis.Description;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.EachMachine;
import siltwright.analysis.Entry;
import siltwright.analysis.Overview;
import siltwright.analysis.Parameter;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.Units;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.parts.Sides;
import siltwright.workbench.parts.ThemeColors;
import siltwright.workbench.parts.Wrapped;

/**
 * A pane of any analysis: its parameters on the left, its result on the right. It computes again
 * whenever machine or parameters change, while it can be seen.
 */
final class AnalysisPane implements Pane {
  private static final Pattern OPTION = Pattern.compile("--([a-z][A-Za-z-]*)");
  private static final int LIVE_MACHINES = 50;
  private static final double FORM_SHARE = 0.38;
  private static final String FILE = "records";
  private static final String EVERY = "every";

  private final Analysis analysis;
  private final Description description;
  private final Desk desk;
  private final ParameterForm form;
  private final ResultPage page;
  private final JPanel panel = new JPanel(new BorderLayout());
  private final JLabel note = new JLabel(" ");
  private final JTextArea fault = Wrapped.area("");
  private final JLabel file = new JLabel();
  private final JRadioButton one = new JRadioButton(Texts.of("analysis.one"), true);
  private final JRadioButton every = new JRadioButton(Texts.of("analysis.every"));
  private final JCheckBox live = new JCheckBox(Texts.of("analysis.live"), true);
  private final JButton compute = new JButton(Texts.of("analysis.compute"));
  private final JButton report = new JButton(Texts.of("analysis.report"));
  private final JButton write = new JButton();
  private final DocumentButtons documents;
  private final HierarchyListener seen = this::hierarchyChanged;
  private Optional<Path> records = Optional.empty();
  private List<Result> results = List.of();
  private List<Machine> machines = List.of();
  private boolean ofEvery;
  private Object computedOf;
  private Units units = Units.SI;
  private boolean dark;
  private boolean closed;

  AnalysisPane(Analysis analysis, List<DocumentWriter> writers, Desk desk) {
    this.analysis = analysis;
    this.description = analysis.description();
    this.desk = desk;
    this.form = new ParameterForm(description, desk, this::changed);
    this.page = new ResultPage(desk::reveal);
    this.documents = new DocumentButtons(writers, desk, this::tell);
    records = desk.recall(FILE).map(Path::of);
    boolean all = desk.recall(EVERY).isPresent();
    one.setSelected(!all);
    every.setSelected(all);
    JScrollPane left = new JScrollPane(side());
    left.setBorder(null);
    left.getVerticalScrollBar().setUnitIncrement(16);
    JScrollPane right = new JScrollPane(page);
    right.setBorder(null);
    right.setName("result." + description.id());
    JPanel shown = new JPanel(new BorderLayout());
    note.setName("state." + description.id());
    note.setOpaque(true);
    note.setBorder(BorderFactory.createEmptyBorder(4, 14, 4, 14));
    shown.add(note, BorderLayout.NORTH);
    shown.add(right, BorderLayout.CENTER);
    panel.add(new Sides(left, shown, FORM_SHARE), BorderLayout.CENTER);
    panel.addHierarchyListener(seen);
  }

  private JComponent side() {
    Page side =
        new Page(new MigLayout("insets 12, wrap 1, hidemode 3, fillx", "[grow, fill]", "[]6[]"));
    JTextArea title = Wrapped.area(description.title());
    title.setFont(title.getFont().deriveFont(Font.BOLD));
    side.add(title, "wmin 0, growx");
    JTextArea summary = Wrapped.area(description.summary());
    summary.setForeground(UIManager.getColor(ThemeColors.QUIET));
    side.add(summary, "wmin 0, growx");
    if (description.scope() == Scope.MACHINE) {
      ButtonGroup group = new ButtonGroup();
      for (JRadioButton button : List.of(one, every)) {
        group.add(button);
        side.add(button, "gaptop " + (button == one ? 6 : 0));
        button.addActionListener(
            e -> {
              desk.keep(EVERY, every.isSelected() ? "yes" : "");
              changed();
            });
      }
      every.setName("every." + description.id());
    }
    if (description.scope() == Scope.RECORDS) {
      JButton choose = new JButton(Texts.of("analysis.file"));
      choose.addActionListener(e -> chooseRecords());
      side.add(choose, "gaptop 6");
      side.add(file, "wmin 0");
      showFile();
    }
    if (!form.isEmpty()) {
      side.add(form.component(), "gaptop 8, wmin 0, growx");
    }
    fault.setForeground(UIManager.getColor(ThemeColors.FAULT));
    fault.setName("fault." + description.id());
    fault.setVisible(false);
    side.add(fault, "wmin 0, growx");
    live.addActionListener(e -> changed());
    compute.setName("compute." + description.id());
    compute.addActionListener(e -> compute());
    report.setName("report." + description.id());
    report.addActionListener(e -> desk.report(reportTitle(), results));
    report.setEnabled(false);
    write.setVisible(false);
    write.addActionListener(e -> writeBack());
    side.add(live, "gaptop 10");
    side.add(compute);
    side.add(write);
    side.add(report);
    documents.buttons().forEach(b -> side.add(b, "wmin 0"));
    return side;
  }

  private String reportTitle() {
    String of = results.size() == 1 ? results.get(0).subject() : fleetName();
    return of.isEmpty() ? description.title() : description.title() + ": " + of;
  }

  private String fleetName() {
    return desk.scenario().fleet().map(Fleet::name).orElse("");
  }

  private void chooseRecords() {
    JFileChooser chooser =
        new JFileChooser(records.map(Path::getParent).map(Path::toFile).orElse(null));
    chooser.setDialogTitle(Texts.of("records.title"));
    chooser.setFileFilter(new FileNameExtensionFilter(Texts.of("files.csv") + " (*.csv)", "csv"));
    if (chooser.showOpenDialog(panel) == JFileChooser.APPROVE_OPTION) {
      setRecords(chooser.getSelectedFile().toPath());
    }
  }

  /** Takes a table of records and computes. */
  void setRecords(Path path) {
    records = Optional.of(path);
    desk.keep(FILE, path.toAbsolutePath().toString());
    showFile();
    changed();
  }

  private void showFile() {
    file.setText(records.map(r -> r.getFileName().toString()).orElse(Texts.of("analysis.noFile")));
    file.setToolTipText(records.map(Path::toString).orElse(null));
  }

  @Override
  public JComponent component() {
    return panel;
  }

  private void hierarchyChanged(HierarchyEvent e) {
    if ((e.getChangeFlags() & HierarchyEvent.SHOWING_CHANGED) != 0 && panel.isShowing()) {
      show(desk.scenario());
    }
  }

  @Override
  public void show(Scenario scenario) {
    form.show(scenario.units());
    note.setForeground(UIManager.getColor("Label.foreground"));
    fault.setForeground(UIManager.getColor(ThemeColors.FAULT));
    boolean otherLook = scenario.units() != units || scenario.dark() != dark;
    units = scenario.units();
    dark = scenario.dark();
    if (otherLook && !results.isEmpty()) {
      showResults();
    }
    changed();
  }

  /** What a result depends on; machines are compared by identity, since a change makes another. */
  private Object key() {
    Scenario now = desk.scenario();
    Object of =
        switch (description.scope()) {
          case NONE -> "";
          case MACHINE -> every.isSelected() ? now.fleet() : now.machine();
          case FLEET -> now.fleet();
          case RECORDS, HISTORY -> records;
        };
    return List.of(new Same(of instanceof Optional<?> o ? o.orElse(null) : of), form.texts());
  }

  private record Same(Object it) {
    @Override
    public boolean equals(Object o) {
      return o instanceof Same s && (s.it == it || it instanceof Path p && p.equals(s.it));
    }

    @Override
    public int hashCode() {
      return 0;
    }
  }

  /** Computes again where something changed that the result depends on and can be seen. */
  private void changed() {
    if (closed) {
      return;
    }
    Optional<String> lacking = lacking();
    compute.setEnabled(lacking.isEmpty());
    if (lacking.isPresent()) {
      computedOf = null;
      results = List.of();
      report.setEnabled(false);
      documents.offer(List.of(), null);
      write.setVisible(false);
      desk.publish(List.of());
      page.empty(lacking.get());
      state("", false);
      return;
    }
    if (key().equals(computedOf)) {
      return;
    }
    boolean many =
        every.isSelected()
            && desk.scenario().fleet().map(f -> f.machines().size()).orElse(0) > LIVE_MACHINES;
    if (!live.isSelected() || many) {
      state(Texts.of("analysis.stale"), true);
    } else if (panel.isShowing()) {
      compute();
    }
  }

  private Optional<String> lacking() {
    Scenario now = desk.scenario();
    List<String> faults = form.faults();
    return switch (description.scope()) {
      case MACHINE ->
          now.fleet().isEmpty()
              ? Optional.of(Texts.of("analysis.noFleet"))
              : now.machine().isEmpty() && !every.isSelected()
                  ? Optional.of(Texts.of("analysis.noMachine"))
                  : first(faults);
      case FLEET ->
          now.fleet().isEmpty() ? Optional.of(Texts.of("analysis.noFleet")) : first(faults);
      case RECORDS, HISTORY ->
          records.isEmpty() ? Optional.of(Texts.of("analysis.noRecords")) : first(faults);
      case NONE -> first(faults).or(this::untouched);
    };
  }

  /**
   * Asks for values where no scope gives the analysis anything and nothing is filled in: it could
   * only refuse.
   */
  private Optional<String> untouched() {
    List<Parameter<?>> open =
        description.parameters().stream().filter(p -> p.standard().isEmpty()).toList();
    Set<String> set = form.texts().keySet();
    return open.isEmpty() || open.stream().anyMatch(p -> set.contains(p.name()))
        ? Optional.empty()
        : Optional.of(
            Texts.of("analysis.fillIn")
                + "\n"
                + open.stream()
                    .map(p -> Texts.words(p.name()) + ": " + p.meaning())
                    .collect(Collectors.joining("\n")));
  }

  private static Optional<String> first(List<String> faults) {
    return faults.isEmpty()
        ? Optional.empty()
        : Optional.of(Texts.of("analysis.fill") + "\n" + String.join("\n", faults));
  }

  private void state(String text, boolean stale) {
    note.setText(text.isEmpty() ? " " : text);
    note.setBackground(
        stale ? UIManager.getColor(ThemeColors.STALE) : UIManager.getColor("Panel.background"));
    page.setStale(stale);
  }

  private void compute() {
    computedOf = key();
    Values values;
    try {
      values = Values.of(description, form.texts());
    } catch (InputException e) {
      failed(e.getMessage());
      return;
    }
    Scenario now = desk.scenario();
    state(Texts.of("analysis.computing"), true);
    String of =
        description.scope() == Scope.MACHINE && !every.isSelected()
            ? now.machine().map(Machine::id).orElse("")
            : "";
    boolean many = every.isSelected() && description.scope() == Scope.MACHINE;
    desk.compute(
        "result",
        (description.title() + " " + of).strip(),
        many
            ? AnalysisWork.ofEvery(analysis, now.fleet().orElseThrow(), values)
            : AnalysisWork.of(analysis, now, records, values),
        answer -> done(answer, values, many),
        this::failed);
  }

  private void done(AnalysisWork.Answer answer, Values values, boolean many) {
    fault.setVisible(false);
    List<Result> all = new ArrayList<>();
    List<Machine> theirs = new ArrayList<>();
    List<Problem> refused = new ArrayList<>();
    for (EachMachine.Outcome outcome : answer.outcomes()) {
      outcome
          .result()
          .ifPresent(
              r -> {
                all.add(r);
                theirs.add(outcome.machine());
                if (outcome.machine() != null && desk instanceof PaneDesk own) {
                  own.publish(outcome.machine(), r.findings());
                }
              });
      refused.addAll(outcome.problems());
    }
    results = List.copyOf(all);
    machines = theirs;
    ofEvery = many;
    if (description.scope() != Scope.MACHINE && !results.isEmpty()) {
      desk.publish(results.get(0).findings());
    }
    if (!refused.isEmpty()) {
      tell(Texts.of("analysis.refused", refused.size(), refused.get(0).toString()));
    }
    documents.offer(answer.ranOn(), values);
    report.setEnabled(!results.isEmpty() && (!(desk instanceof PaneDesk own) || own.hasReport()));
    int numbers = results.stream().mapToInt(r -> r.revisions().size()).sum();
    write.setVisible(numbers > 0);
    write.setText(Texts.of("analysis.write", numbers));
    showResults();
    state("", false);
    changed();
  }

  private void showResults() {
    boolean first = page.getComponentCount() < 2;
    if (ofEvery) {
      List<Entry.Table> tables =
          Overview.of(results).stream().map(t -> MachineRows.named(t, machines)).toList();
      page.show(
          tables,
          desk.scenario().units(),
          table -> MachineRows.follow(table, row -> desk.select(machines.get(row).id())));
    } else {
      page.show(results.get(0), desk.scenario().units());
    }
    if (first) {
      SwingUtilities.invokeLater(() -> page.scrollRectToVisible(new Rectangle(1, 1)));
    }
  }

  /** Says in the form's words what is said in those of the command line. */
  private static String plain(String why) {
    return OPTION
        .matcher(why.replaceFirst("^option ", ""))
        .replaceAll(m -> Texts.words(m.group(1)));
  }

  private void failed(String fault) {
    String why = plain(fault);
    if (results.isEmpty()) {
      this.fault.setVisible(false);
      page.empty(why);
      state("", false);
    } else {
      tell(why);
      state(Texts.of("analysis.failed"), true);
    }
  }

  private void tell(String text) {
    this.fault.setText(text);
    this.fault.setVisible(true);
  }

  private void writeBack() {
    List<Problem> problems =
        desk.revise(
            Texts.of("analysis.wrote", description.title()),
            results.stream().flatMap(r -> r.revisions().stream()).toList());
    if (problems.isEmpty()) {
      desk.status(Texts.of("analysis.wrote", description.title()));
    } else {
      tell(problems.get(0).toString());
    }
  }

  @Override
  public void close() {
    closed = true;
    panel.removeHierarchyListener(seen);
    results = List.of();
    page.removeAll();
  }
}
