package siltwright.life.view;

import java.awt.BorderLayout;
import java.awt.CardLayout;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import javax.swing.DefaultComboBoxModel;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cells;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.charts.ChartTheme;
import siltwright.charts.screen.FigurePanel;
import siltwright.exchange.RecordsReader;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.parts.Bar;
import siltwright.workbench.parts.RecordsFile;
import siltwright.workbench.parts.Sides;
import siltwright.workbench.parts.Wrapped;

/** Records, fits and pictures of component lives. */
final class LifePane implements Pane {
  private static final String FILE = "file";
  private static final String HOURS = "hours";
  private static final double NEAR = 0.02;
  private static final double PICTURE_SHARE = 0.66;

  private final Desk desk;
  private final Supplier<Optional<Analysis>> life;
  private final CardLayout cards = new CardLayout();
  private final JPanel component = new JPanel(cards);
  private final RecordsFile file =
      new RecordsFile(component, "life.open", Words.of("open"), Words.of("csv"), this::open);
  private final FitChoices choices = new FitChoices(this::refit);
  private final JComboBox<String> picture = FitChoices.box("picture");
  private final FigurePanel figure = new FigurePanel();
  private final JPanel best =
      new JPanel(new MigLayout("insets 4 8 4 8, wrap 4", "[][right]12[shrink 200][right]"));
  private final JTextArea counts = Wrapped.area(" ");
  private final RecordsTable table = new RecordsTable();
  private final JButton exclude = button("exclude", this::exclude);
  private final JButton include = button("include", this::include);
  private final JButton report = button("report", this::report);
  private boolean filling;
  private boolean closed;
  private Scenario scenario;
  private Path path;
  private Records records;
  private Exclusions exclusions;
  private Result result;

  LifePane(Desk desk, Supplier<Optional<Analysis>> life) {
    this.desk = desk;
    this.life = life;
    component.setName("life.pane");
    component.add(file.invitation(Words.of("empty")), "empty");
    component.add(full(), "full");
    figure.setName("life.figure");
    figure.setPick(this::pick);
    picture.addActionListener(e -> draw());
    table.component().getSelectionModel().addListSelectionListener(e -> draw());
    desk.recall(FILE).map(Path::of).ifPresent(this::open);
  }

  private static JButton button(String key, Runnable action) {
    JButton button = new JButton(Words.of(key));
    button.setName("life." + key);
    button.addActionListener(e -> action.run());
    return button;
  }

  private JPanel full() {
    Bar bar = new Bar();
    bar.addTogether(file.button(), file.label());
    bar.add(report);
    choices.addTo(bar);
    Bar which = new Bar();
    which.addLabelled(Words.of("picture"), picture);
    JPanel pictures = new JPanel(new BorderLayout());
    pictures.add(which, BorderLayout.NORTH);
    pictures.add(figure, BorderLayout.CENTER);
    pictures.add(best, BorderLayout.SOUTH);
    Bar buttons = new Bar();
    exclude.setToolTipText(Words.of("exclude.tip"));
    include.setToolTipText(Words.of("include.tip"));
    report.setToolTipText(Words.of("report.tip"));
    buttons.add(exclude);
    buttons.add(include);
    JPanel over = new JPanel(new BorderLayout());
    over.add(buttons, BorderLayout.NORTH);
    JPanel counted = new JPanel(new MigLayout("insets 0 8 4 8, fillx", "[grow, fill]"));
    counted.add(counts, "wmin 0, growx");
    over.add(counted, BorderLayout.CENTER);
    JPanel lives = new JPanel(new BorderLayout());
    lives.add(over, BorderLayout.NORTH);
    lives.add(new JScrollPane(table.component()), BorderLayout.CENTER);
    JPanel all = new JPanel(new BorderLayout());
    all.add(bar, BorderLayout.NORTH);
    all.add(new Sides(pictures, lives, PICTURE_SHARE), BorderLayout.CENTER);
    return all;
  }

  @Override
  public JComponent component() {
    return component;
  }

  @Override
  public void show(Scenario now) {
    boolean sameLook = scenario != null && scenario.dark() == now.dark();
    scenario = now;
    if (!sameLook) {
      draw();
    }
  }

  /** A table with what is left out of it. */
  private record Opened(Path path, Records records, Exclusions exclusions) {}

  /** Opens a table of records. */
  void open(Path chosen) {
    desk.compute(
        FILE,
        Words.of("title") + ": " + chosen.getFileName(),
        progress -> {
          List<RecordColumn> columns =
              RecordsReader.columnNames(chosen).stream()
                  .map(name -> RecordColumn.either(name, name))
                  .toList();
          Records read = RecordsReader.read(chosen, columns);
          try {
            return new Opened(chosen, read, Exclusions.read(chosen, read));
          } catch (IOException e) {
            throw new InputException(
                new Problem(
                    Exclusions.beside(chosen).toString(), "", e.toString(), "a readable table"));
          }
        },
        this::opened,
        problem -> desk.status(Words.of("failed", problem)));
  }

  private void opened(Opened o) {
    path = o.path();
    records = o.records();
    exclusions = o.exclusions();
    result = null;
    desk.keep(FILE, path.toString());
    file.show(path);
    choices.fill(records);
    if (exclusions.gone() > 0) {
      desk.status(Words.of("gone", exclusions.gone()));
    }
    table.show(records, exclusions);
    cards.show(component, "full");
    refit();
  }

  private void refit() {
    if (records == null) {
      return;
    }
    Optional<Analysis> analysis = life.get();
    if (analysis.isEmpty()) {
      desk.status(Words.of("noAnalysis"));
      return;
    }
    figure.setStale(true);
    Map<String, String> options = choices.options();
    Set<Integer> out = Set.copyOf(exclusions.reasons().keySet());
    Path from = path;
    desk.compute(
        "fit",
        Words.of("title") + ": " + from.getFileName(),
        progress -> fit(analysis.get(), from, options, out, progress),
        this::fitted,
        problem -> {
          figure.setStale(false);
          desk.status(Words.of("failed", problem));
        });
  }

  private static Result fit(
      Analysis analysis,
      Path from,
      Map<String, String> options,
      Set<Integer> out,
      Progress progress) {
    Values values = Values.of(analysis.description(), options);
    Records all = RecordsReader.read(from, analysis.columns(values));
    Records kept = all.where(i -> !out.contains(all.line(i)), all.refusals());
    Result result = analysis.run(Context.of(kept, Optional.empty()), values, progress);
    result.figures(); // drawn here, not in the window's own thread
    return result;
  }

  private void fitted(Result fitted) {
    result = fitted;
    figure.setStale(false);
    desk.publish(fitted.findings());
    filling = true;
    Object shown = picture.getSelectedItem();
    List<String> titles = fitted.figures().stream().map(Figure::title).toList();
    picture.setModel(new DefaultComboBoxModel<>(titles.toArray(String[]::new)));
    if (titles.contains(shown)) {
      picture.setSelectedItem(shown);
    }
    filling = false;
    showBest();
    counts.setText(
        Words.of(
            "counts",
            records.rows(),
            exclusions.reasons().size(),
            fitted.rows().map(Result.Rows::refused).orElse(0)));
    draw();
  }

  private void showBest() {
    best.removeAll();
    for (Entry entry : result.entries()) {
      if (entry instanceof Entry.Group group && group.name().equals("best")) {
        best.add(new JLabel(group.label()), "span 4");
        for (Entry.Value v : group.shown().values()) {
          String unit = Numbers.shown(v.unit());
          JLabel label = new JLabel(v.label());
          label.setToolTipText(v.label());
          best.add(label, "wmin 20");
          best.add(new JLabel(Cells.text(v.cell(), v.unit()) + (unit.isEmpty() ? "" : " " + unit)));
        }
      }
    }
    best.revalidate();
    best.repaint();
  }

  private void draw() {
    if (closed || filling || result == null || scenario == null) {
      return;
    }
    int at = picture.getSelectedIndex();
    if (at >= 0 && at < result.figures().size()) {
      figure.show(
          marked(result.figures().get(at)), scenario.dark() ? ChartTheme.DARK : ChartTheme.LIGHT);
    }
    selectedButtons();
  }

  /** The figure with the hours of the selected records marked, where its axis is one of hours. */
  private Figure marked(Figure f) {
    Optional<double[]> hours = records.numbers(HOURS);
    if (!overHours(f) || hours.isEmpty() || table.selected().isEmpty()) {
      return f;
    }
    List<Panel> panels = new ArrayList<>(f.panels());
    List<Layer> layers = new ArrayList<>(panels.get(0).layers());
    table.selected().stream()
        .map(i -> hours.get()[i])
        .filter(h -> h > 0)
        .distinct()
        .limit(8)
        .forEach(h -> layers.add(new Layer.At(Words.of("selected"), h, Layer.Style.REFERENCE)));
    panels.set(0, new Panel(panels.get(0).y(), layers));
    return new Figure(f.name(), f.title(), f.caption(), f.x(), panels);
  }

  private static boolean overHours(Figure f) {
    return f.x().unit().equals("h");
  }

  /** Selects the records nearest to where a picture was clicked. */
  private void pick(double x) {
    Optional<double[]> hours = records == null ? Optional.empty() : records.numbers(HOURS);
    if (hours.isEmpty() || figure.figure().filter(LifePane::overHours).isEmpty()) {
      return;
    }
    double nearest = Double.POSITIVE_INFINITY;
    List<Integer> rows = new ArrayList<>();
    for (int i = 0; i < hours.get().length; i++) {
      double far = Math.abs(Math.log(hours.get()[i] / x));
      if (far < nearest) {
        nearest = far;
        rows.clear();
      }
      if (far == nearest && far <= NEAR) {
        rows.add(i);
      }
    }
    table.select(rows);
  }

  private void selectedButtons() {
    exclude.setEnabled(!table.selected().isEmpty());
    include.setEnabled(
        table.selected().stream().anyMatch(i -> exclusions.reasons().containsKey(records.line(i))));
    report.setEnabled(result != null);
  }

  private void exclude() {
    int n = table.selected().size();
    String why =
        JOptionPane.showInputDialog(
            component,
            n == 1 ? Words.of("reasonOne") : Words.of("reason", n),
            Words.of("reasonTitle"),
            JOptionPane.QUESTION_MESSAGE);
    if (why != null && !why.isBlank()) {
      leaveOut(why.strip());
    }
  }

  private void include() {
    leaveOut("");
  }

  /** Leaves the selected records out, or takes them in again, keeps that and fits again. */
  void leaveOut(String reason) {
    table.selected().forEach(i -> exclusions.put(records.line(i), reason));
    try {
      exclusions.keep(records);
    } catch (IOException e) {
      desk.status(Words.of("notKept", e.toString()));
    }
    table.show(records, exclusions);
    refit();
  }

  private void report() {
    if (result != null) {
      desk.report(Words.of("title") + ": " + path.getFileName(), List.of(result));
    }
  }

  @Override
  public void close() {
    closed = true;
    figure.setPick(x -> {});
  }
}
