package siltwright.cleanliness.view;

import java.awt.BorderLayout;
import java.awt.CardLayout;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javax.swing.BorderFactory;
import javax.swing.DefaultComboBoxModel;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.Figure;
import siltwright.analysis.Numbers;
import siltwright.analysis.Progress;
import siltwright.charts.ChartTheme;
import siltwright.charts.screen.FigurePanel;
import siltwright.exchange.RecordsReader;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.samples.OilRecord;
import siltwright.samples.OilRecords;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.parts.Bar;
import siltwright.workbench.parts.RecordsFile;
import siltwright.workbench.parts.Sides;
import siltwright.workbench.parts.Wrapped;

/** A table of samples, the pictures of a machine's, and its restart wash-out. */
final class CleanlinessPane implements Pane {
  private static final String FILE = "file";
  private static final String EMPTY = "empty";
  private static final String FULL = "full";
  private static final int COURSE = 0;
  private static final int SIZE_AT_FIRST = 1;
  private static final double PICTURE_SHARE = 0.62;

  private final Desk desk;
  private final CardLayout cards = new CardLayout();
  private final JPanel component = new JPanel(cards);
  private final RecordsFile file =
      new RecordsFile(component, "cleanliness.open", Words.of("open"), Words.of("csv"), this::open);
  private final JComboBox<String> machines = box("machine");
  private final JComboBox<String> size =
      box("size", sizeName(0), sizeName(SIZE_AT_FIRST), sizeName(2));
  private final JComboBox<String> picture =
      box("picture", Words.of("picture.course"), Words.of("picture.washOut"));
  private final JCheckBox doubtfulOnly = new JCheckBox(Words.of("doubtfulOnly"));
  private final FigurePanel figure = new FigurePanel();
  private final JTextArea note = Wrapped.area("");
  private final JTextArea summary = Wrapped.area(" ");
  private final SamplesTable table = new SamplesTable();
  private boolean filling;
  private boolean closed;
  private Scenario scenario;
  private OilRecords records;
  private Optional<Machine> machine = Optional.empty();
  private Looked looked;

  CleanlinessPane(Desk desk) {
    this.desk = desk;
    component.setName("cleanliness.pane");
    component.add(file.invitation(Words.of("empty")), EMPTY);
    component.add(full(), FULL);
    size.setSelectedIndex(SIZE_AT_FIRST);
    figure.setName("cleanliness.figure");
    figure.setPick(this::pick);
    figure.setWhenZoomed(this::draw);
    machines.addActionListener(e -> chosen());
    size.addActionListener(e -> look());
    picture.addActionListener(e -> draw());
    doubtfulOnly.setName("cleanliness.doubtfulOnly");
    doubtfulOnly.addActionListener(e -> order(-1));
    table.component().getSelectionModel().addListSelectionListener(e -> draw());
    table
        .component()
        .getTableHeader()
        .addMouseListener(
            new MouseAdapter() {
              @Override
              public void mouseClicked(MouseEvent e) {
                int column = table.component().columnAtPoint(e.getPoint());
                if (column >= 0) {
                  order(table.component().convertColumnIndexToModel(column));
                }
              }
            });
    desk.recall(FILE).map(Path::of).ifPresent(this::open);
  }

  private static String sizeName(int i) {
    return Words.of("sizeUm", SizeBands.edgeUmC(i));
  }

  private static JComboBox<String> box(String key, String... choices) {
    JComboBox<String> box = new JComboBox<>(choices);
    box.setName("cleanliness." + key);
    box.getAccessibleContext().setAccessibleName(Words.of(key));
    return box;
  }

  private JPanel full() {
    Bar bar = new Bar();
    bar.addTogether(file.button(), file.label());
    for (JComboBox<String> box : List.of(machines, size, picture)) {
      bar.addLabelled(box.getAccessibleContext().getAccessibleName(), box);
    }
    JPanel left = new JPanel(new MigLayout("insets 0 8 8 0, fill, wrap 1, hidemode 3"));
    left.add(note, "wmin 0, growx");
    left.add(figure, "grow, push, wmin 0, hmin 0");
    Bar over = new Bar();
    over.add(doubtfulOnly);
    JPanel right = new JPanel(new BorderLayout());
    right.setBorder(BorderFactory.createEmptyBorder(0, 0, 8, 8));
    JScrollPane rows = new JScrollPane(table.component());
    rows.setColumnHeaderView(table.component().getTableHeader());
    right.add(over, BorderLayout.NORTH);
    right.add(rows, BorderLayout.CENTER);
    JPanel top = new JPanel(new BorderLayout());
    top.add(bar, BorderLayout.NORTH);
    JPanel said = new JPanel(new MigLayout("insets 0 12 8 12, fillx", "[grow, fill]"));
    said.add(summary, "wmin 0, growx");
    top.add(said, BorderLayout.CENTER);
    JPanel all = new JPanel(new BorderLayout());
    all.add(top, BorderLayout.NORTH);
    all.add(new Sides(left, right, PICTURE_SHARE), BorderLayout.CENTER);
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
    if (records == null) {
      return;
    }
    Optional<String> selected = now.machine().map(Machine::id);
    if (selected.isPresent() && has(selected.get())) {
      filling = true;
      machines.setSelectedItem(selected.get());
      filling = false;
    }
    if (looked == null || !looked.samples().id().equals(id()) || !inFleet().equals(machine)) {
      look();
    } else if (sameLook) {
      tell();
    } else {
      draw();
    }
  }

  private String id() {
    return (String) machines.getSelectedItem();
  }

  private boolean has(String id) {
    return ((DefaultComboBoxModel<String>) machines.getModel()).getIndexOf(id) >= 0;
  }

  private Optional<Machine> inFleet() {
    return scenario == null ? Optional.empty() : scenario.fleet().flatMap(f -> f.machine(id()));
  }

  /** A table with the machines in it. */
  private record Opened(Path path, OilRecords records, List<String> machines) {}

  /** Opens a table of samples. */
  void open(Path chosen) {
    desk.compute(
        FILE,
        Words.of("title") + ": " + chosen.getFileName(),
        progress -> {
          OilRecords read = OilRecords.of(RecordsReader.read(chosen, OilRecords.columns()));
          return new Opened(chosen, read, List.copyOf(read.machines()));
        },
        this::opened,
        problem -> desk.status(Words.of("failed", problem)));
  }

  private void opened(Opened o) {
    records = o.records();
    looked = null;
    desk.keep(FILE, o.path().toString());
    file.show(o.path());
    filling = true;
    machines.setModel(new DefaultComboBoxModel<>(o.machines().toArray(String[]::new)));
    filling = false;
    var refusals = records.kept().refusals();
    if (!refusals.listed().isEmpty()) {
      desk.status(
          Words.of("refused", Numbers.text(refusals.count()), refusals.listed().get(0).toString()));
    }
    cards.show(component, FULL);
    show(desk.scenario());
  }

  private void chosen() {
    if (!filling) {
      look();
      if (inFleet().isPresent()) {
        desk.select(id());
      }
    }
  }

  /** What is shown of a machine, computed off the event thread. */
  private record Looked(
      MachineSamples samples,
      SamplesTable.Contents contents,
      CourseFigure course,
      Optional<Figure> washOut) {}

  private void look() {
    if (filling || closed || records == null) {
      return;
    }
    figure.setStale(true);
    machine = inFleet();
    OilRecords of = records;
    String id = id();
    Optional<Machine> in = machine;
    int at = size.getSelectedIndex();
    SamplesTable.Order order = order();
    desk.compute(
        "machine",
        Words.of("title") + ": " + id,
        progress -> look(of, id, in, at, order, progress),
        this::looked,
        problem -> {
          figure.setStale(false);
          desk.status(Words.of("failed", problem));
        });
  }

  private static Looked look(
      OilRecords records,
      String id,
      Optional<Machine> machine,
      int size,
      SamplesTable.Order order,
      Progress progress) {
    MachineSamples samples = MachineSamples.of(records, id, machine, size, progress);
    return new Looked(
        samples,
        SamplesTable.Contents.of(samples, order),
        new CourseFigure(samples, size),
        machine.map(m -> WashOutFigure.of(m, samples, size, progress)));
  }

  private void looked(Looked now) {
    looked = now;
    figure.setStale(false);
    table.show(now.contents());
    summary.setText(Verdict.summary(now.samples()));
    boolean selected =
        scenario.machine().map(Machine::id).filter(now.samples().id()::equals).isPresent();
    desk.publish(selected ? Verdict.findings(now.samples()) : List.of());
    draw();
  }

  private void draw() {
    if (closed || looked == null || scenario == null) {
      return;
    }
    boolean course = picture.getSelectedIndex() == COURSE;
    Optional<Figure> now = course ? Optional.of(course()) : looked.washOut();
    tell();
    figure.setVisible(now.isPresent());
    now.ifPresent(
        f -> figure.show(marked(f, course), scenario.dark() ? ChartTheme.DARK : ChartTheme.LIGHT));
  }

  /** The course, with all that is to be seen of the part that is looked at. */
  private Figure course() {
    double[] part = part();
    return looked.course().near(part[0], part[1]);
  }

  /** Returns the least and greatest hours of the course that are looked at. */
  private double[] part() {
    boolean zoomed =
        figure.isZoomed()
            && figure.figure().map(Figure::name).filter(CourseFigure.NAME::equals).isPresent();
    return zoomed
        ? figure.shownX().orElseThrow()
        : new double[] {Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY};
  }

  private void tell() {
    note.setText(note(picture.getSelectedIndex() == COURSE));
    note.setVisible(!note.getText().isEmpty());
  }

  private String note(boolean course) {
    if (!course && looked.washOut().isEmpty()) {
      return Words.of("noFleet", looked.samples().id());
    }
    return scenario
        .machine()
        .map(Machine::id)
        .filter(id -> !has(id))
        .map(id -> Words.of("notInTable", id))
        .orElse(course ? thinned() : "");
  }

  /** Says of the course that not every sample is drawn, where it is so. */
  private String thinned() {
    double[] part = part();
    return looked.course().thinned(part[0], part[1]).orElse("");
  }

  /** The figure with the selected sample marked, where it has a place in it. */
  private Figure marked(Figure f, boolean course) {
    int selected = table.selected();
    if (selected < 0) {
      return f;
    }
    OilRecord sample = looked.samples().samples().get(selected);
    double x = course ? sample.hours() : sample.minutes();
    return Double.isNaN(x) ? f : CourseFigure.marked(f, x);
  }

  /** Selects the sample nearest to where a picture was clicked. */
  private void pick(double x) {
    if (looked == null || looked.samples().samples().isEmpty()) {
      return;
    }
    List<OilRecord> all = looked.samples().samples();
    boolean course = picture.getSelectedIndex() == COURSE;
    int nearest = -1;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < all.size(); i++) {
      OilRecord r = all.get(i);
      double far =
          course == Double.isNaN(r.minutes())
              ? Math.abs((course ? r.hours() : r.minutes()) - x)
              : Double.POSITIVE_INFINITY;
      if (far < least) {
        least = far;
        nearest = i;
      }
    }
    if (nearest >= 0) {
      table.select(nearest);
    }
  }

  private SamplesTable.Order order() {
    SamplesTable.Order now = looked == null ? SamplesTable.Order.HOURS : looked.contents().order();
    return new SamplesTable.Order(now.column(), now.falling(), doubtfulOnly.isSelected());
  }

  /** Orders the table by a column, the other way round at the second click; -1 for as it is. */
  private void order(int column) {
    if (looked == null) {
      return;
    }
    SamplesTable.Order now = order();
    SamplesTable.Order next =
        column < 0
            ? now
            : new SamplesTable.Order(
                column, column == now.column() && !now.falling(), now.doubtfulOnly());
    Looked of = looked;
    desk.compute(
        "order",
        Words.of("title") + ": " + of.samples().id(),
        progress -> SamplesTable.Contents.of(of.samples(), next),
        contents -> ordered(of, contents),
        problem -> desk.status(Words.of("failed", problem)));
  }

  private void ordered(Looked of, SamplesTable.Contents contents) {
    if (of == looked) {
      looked = new Looked(of.samples(), contents, of.course(), of.washOut());
      table.show(contents);
    }
  }

  @Override
  public void close() {
    closed = true;
    figure.setPick(x -> {});
    figure.setWhenZoomed(() -> {});
  }
}
