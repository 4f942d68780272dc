package siltwright.workbench.internal;

import com.formdev.flatlaf.FlatLaf;
import io.github.andrewauclair.moderndocking.DockingRegion;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;
import javax.swing.Timer;
import siltwright.analysis.ReportWriter;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.model.Problem;
import siltwright.model.Units;
import siltwright.model.json.Extensions;
import siltwright.model.json.FleetText;
import siltwright.workbench.Scenario;
import siltwright.workbench.View;

/** Holds the window together: document, runs, findings, settings and panes. Event thread only. */
final class Bench {
  private static final String THEME = "look.theme";
  private static final String UNITS = "look.units";
  private static final String ARRANGEMENT = "arrangement";
  private static final int KEEP_AFTER_MS = 1500;

  private final Folders folders;
  private final Offers offers;
  private final Supplier<Optional<ReportWriter>> report;
  private final Distribution distribution;
  private final Runnable closed;
  private final Settings settings;
  private final Document document = new Document();
  private final Runs runs = new Runs();
  private final FindingsBoard findings = new FindingsBoard();
  private final Timer keep = new Timer(KEEP_AFTER_MS, e -> keepCopy());
  private final Extensions extensions;
  private final List<View> builtIn = BuiltIn.of(this);
  private final List<View> ofAnalyses = new ArrayList<>();
  private Scenario scenario;
  private BenchWindow window;
  private Panes panes;
  private Recovery recovery;
  private Themes theme;
  private Units units;
  private boolean shownOpen;
  private final List<Runnable> waiting = new ArrayList<>();

  Bench(
      Folders folders,
      Offers offers,
      Supplier<Optional<ReportWriter>> report,
      Distribution distribution,
      Runnable closed) {
    this.folders = folders;
    this.offers = offers;
    this.extensions = Extensions.of(offers.laws::all, offers.terms::all, offers.lives::all);
    this.report = report;
    this.distribution = distribution;
    this.closed = closed;
    this.settings = new Settings(folders.settings());
    this.theme = settings.get(THEME).map(Bench::theme).orElse(Themes.SYSTEM);
    this.units = settings.get(UNITS).map(Bench::units).orElse(Units.SI);
    keep.setRepeats(false);
  }

  private static Themes theme(String name) {
    return name.equals("DARK") ? Themes.DARK : name.equals("LIGHT") ? Themes.LIGHT : Themes.SYSTEM;
  }

  private static Units units(String name) {
    return name.equals("US") ? Units.US : Units.SI;
  }

  Distribution distribution() {
    return distribution;
  }

  /**
   * Shows the window.
   *
   * @param file a file to open in it, if one is named
   */
  void start(Optional<String> file) {
    theme.install();
    remake();
    offers.setListener(this::offered);
    offers.setExtensionListener(this::extensionsChanged);
    window = new BenchWindow(this);
    panes = new Panes(this, window.frame(), folders.settings().resolve("layout.xml"));
    document.addListener(this::documentChanged);
    offered();
    panes.arrange(welcome(), views());
    window.show();
    whenComplete(
        () -> {
          WarmUp.start();
          openRecovery();
          file.map(Path::of).ifPresent(this::open);
        });
  }

  /** Does something once the views are there, some of which come after the window is shown. */
  private void whenComplete(Runnable action) {
    if (offers.isComplete()) {
      action.run();
    } else {
      waiting.add(action);
    }
  }

  private static Arrangement welcome() {
    Arrangement.Place start = new Arrangement.Place(BuiltIn.START, "", DockingRegion.CENTER, 1);
    return new Arrangement(BuiltIn.START, List.of(start), List.of());
  }

  private void openRecovery() {
    try {
      recovery = new Recovery(folders.recovery());
    } catch (IOException e) {
      status(Texts.of("recovery.off", e.getMessage()));
      return;
    }
    List<Recovery.Left> left = recovery.left(extensions);
    if (!left.isEmpty()) {
      window.offer(left);
    }
  }

  /** Takes back what a killed window left. */
  void recover(Recovery.Left left) {
    document.recover(left.text(), left.file());
    keepCopy();
    discard(left);
    status(Texts.of("recovery.done"));
  }

  /** Throws away what a killed window left. */
  void discard(Recovery.Left left) {
    try {
      Recovery.discard(left);
    } catch (IOException e) {
      status(Texts.of("recovery.off", e.getMessage()));
    }
  }

  Document document() {
    return document;
  }

  Runs runs() {
    return runs;
  }

  FindingsBoard findings() {
    return findings;
  }

  Settings settings() {
    return settings;
  }

  Panes panes() {
    return panes;
  }

  BenchWindow window() {
    return window;
  }

  Scenario scenario() {
    return scenario;
  }

  Themes theme() {
    return theme;
  }

  boolean hasReport() {
    return report.get().isPresent();
  }

  /** Returns all views that can be opened: the window's own, the rich ones, one an analysis. */
  List<View> views() {
    List<View> all = new ArrayList<>(builtIn);
    all.addAll(offers.views());
    all.addAll(ofAnalyses);
    return all;
  }

  private void offered() {
    ofAnalyses.clear();
    offers.analyses().forEach(analysis -> ofAnalyses.add(offers.view(analysis)));
    if (window != null) {
      panes.follow(views());
      window.viewsChanged();
    }
    if (offers.isComplete()) {
      List<Runnable> now = List.copyOf(waiting);
      waiting.clear();
      now.forEach(Runnable::run);
    }
  }

  /** Reads the file anew where its numbers hang on laws or terms that came, went or changed. */
  private void extensionsChanged() {
    document
        .text()
        .filter(FleetText::hangsOnOthers)
        .ifPresent(
            text ->
                runs.start(
                    this,
                    "extensions",
                    Texts.of("open.extensions"),
                    progress -> text.with(text.bytes()),
                    now -> document.reread(text, now),
                    this::status));
  }

  private void remake() {
    Optional<FleetText> text = document.text();
    scenario =
        new Scenario(
            document.revision(),
            document.file(),
            text.map(FleetText::fleet),
            document.machine(),
            document.pointer(),
            text.map(FleetText::problems).orElse(List.of()),
            units,
            theme.isDark());
  }

  private void documentChanged() {
    remake();
    boolean open = document.text().isPresent();
    if (open != shownOpen) {
      shownOpen = open;
      if (open) {
        arrangeAgain();
      } else {
        panes.arrange(welcome(), views());
      }
    }
    findings.follow(document);
    panes.show(scenario);
    window.documentChanged();
    keep.restart();
  }

  /** Restores the last layout, or the arrangement that was chosen last. */
  private void arrangeAgain() {
    if (!panes.restoreLast(views())) {
      arrange(settings.get(ARRANGEMENT).orElse(Arrangement.RELIABILITY));
    }
  }

  /** Arranges the panes as one of the arrangements, or one of the user's own, says. */
  void arrange(String name) {
    settings.put(ARRANGEMENT, name);
    if (Arrangement.IDS.contains(name)) {
      panes.arrange(Arrangement.of(name, views()), views());
    } else if (!panes.restore(arrangementFile(name), views())) {
      status(Texts.of("arrangement.unreadable", name));
    }
    panes.show(scenario);
  }

  /** Returns the names of the user's own arrangements. */
  List<String> ownArrangements() {
    List<String> names = new ArrayList<>();
    try (var files = Files.newDirectoryStream(arrangements(), "*.xml")) {
      files.forEach(f -> names.add(f.getFileName().toString().replaceFirst("\\.xml$", "")));
    } catch (IOException e) {
      return List.of();
    }
    names.sort(null);
    return names;
  }

  private Path arrangements() {
    return folders.settings().resolve("arrangements");
  }

  private Path arrangementFile(String name) {
    return arrangements().resolve(name + ".xml");
  }

  /** Keeps the present layout under a name; one of that name is replaced. */
  void saveArrangement(String name) {
    try {
      panes.save(arrangementFile(name));
      settings.put(ARRANGEMENT, name);
      window.viewsChanged();
      status(Texts.of("arrangement.saved", name));
    } catch (IOException e) {
      status(Texts.of("layout.notKept", e.getMessage()));
    }
  }

  void deleteArrangement(String name) {
    try {
      Files.deleteIfExists(arrangementFile(name));
      window.viewsChanged();
    } catch (IOException e) {
      status(Texts.of("layout.notKept", e.getMessage()));
    }
  }

  void setTheme(Themes now) {
    theme = now;
    settings.put(THEME, now.name());
    now.install();
    FlatLaf.updateUI();
    lookChanged();
  }

  void setUnits(Units now) {
    units = now;
    settings.put(UNITS, now.name());
    lookChanged();
  }

  private void lookChanged() {
    remake();
    panes.show(scenario);
    window.documentChanged();
  }

  void status(String text) {
    if (window != null) {
      window.status(text);
    }
  }

  /** Reads a file off the event thread and opens it. */
  void open(Path path) {
    Path file = path.toAbsolutePath().normalize();
    status(Texts.of("open.reading", file.getFileName()));
    runs.start(
        this,
        "open",
        Texts.of("open.reading", file.getFileName()),
        progress -> FleetText.read(file, extensions),
        text -> whenComplete(() -> opened(text, file)),
        why -> {
          settings.forget(file);
          window.tell(Texts.of("open.title"), why);
          window.documentChanged();
        });
  }

  private void opened(FleetText text, Path file) {
    settings.opened(file);
    document.open(text, Optional.of(file));
    status(Texts.of("open.done", file.getFileName(), text.ids().size()));
  }

  /** Opens a copy of the demo, which belongs to no file. */
  void openDemo() {
    whenComplete(this::openDemoNow);
  }

  private void openDemoNow() {
    try (InputStream in = Bench.class.getResourceAsStream("three-pits.json")) {
      document.open(
          FleetText.of(in.readAllBytes(), Texts.of("document.demo"), extensions), Optional.empty());
      status(Texts.of("open.demo"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Opens a file of any kind that the window takes, by its ending. */
  void openAny(Path path) {
    whenComplete(() -> openAnyNow(path));
  }

  private void openAnyNow(Path path) {
    if (path.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(".csv")) {
      importRecords(path);
    } else if (window.mayLeave()) {
      open(path);
    }
  }

  /** Opens a table of records in a view of an analysis that takes one. */
  void importRecords(Path path) {
    whenComplete(() -> importRecordsNow(path));
  }

  private void importRecordsNow(Path path) {
    List<AnalysisView> takers =
        views().stream()
            .filter(v -> v instanceof AnalysisView && v.scope() == Scope.RECORDS)
            .map(AnalysisView.class::cast)
            .toList();
    window
        .choose(takers)
        .flatMap(v -> panes.open(v).pane())
        .ifPresent(
            pane -> {
              if (pane instanceof AnalysisPane records) {
                records.setRecords(path);
              }
            });
  }

  /**
   * Saves the document.
   *
   * @param to where; where it came from if empty
   * @return whether it was saved
   */
  boolean save(Optional<Path> to) {
    Optional<Path> place = to.or(document::file);
    try {
      document.save(place.orElseThrow());
      settings.opened(place.get().toAbsolutePath());
      status(Texts.of("save.done", place.get().getFileName()));
      return true;
    } catch (IOException e) {
      window.tell(Texts.of("save.title"), Texts.of("save.failed", place.get(), e.getMessage()));
      return false;
    }
  }

  /** Saves results as a report, off the event thread. */
  void saveReport(String title, List<Result> results) {
    Optional<ReportWriter> writer = report.get();
    Optional<Path> place = window.askReportFile();
    if (writer.isEmpty() || place.isEmpty()) {
      return;
    }
    String source = document.file().map(Path::toString).orElse("");
    List<Problem> problems = scenario.problems();
    runs.start(
        this,
        "report",
        Texts.of("report.writing"),
        progress -> {
          StringWriter page = new StringWriter();
          try {
            writer.get().write(title, source, Instant.now(), results, problems, page);
            Store.write(place.get(), page.toString().getBytes(StandardCharsets.UTF_8));
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
          return place.get();
        },
        file -> status(Texts.of("report.done", file)),
        why -> window.tell(Texts.of("report.title"), why));
  }

  /** Selects a machine and shows in the inspector what a pointer or path of it names. */
  void reveal(String machine, String pointsAt) {
    if (!machine.isEmpty()) {
      document.select(machine);
    }
    views().stream()
        .filter(v -> v.id().equals(BuiltIn.INSPECTOR))
        .findFirst()
        .flatMap(v -> panes.open(v).pane())
        .ifPresent(
            pane -> {
              if (pane instanceof InspectorPane inspector) {
                resolved(pointsAt).ifPresent(inspector::reveal);
              }
            });
  }

  private Optional<String> resolved(String pointsAt) {
    return pointsAt.startsWith("/")
        ? Optional.of(pointsAt)
        : document.text().flatMap(t -> document.pointer().flatMap(p -> t.resolved(p, pointsAt)));
  }

  private void keepCopy() {
    if (recovery == null) {
      return;
    }
    try {
      if (document.isDirty()) {
        recovery.keep(document.text().orElseThrow(), document.file());
      } else {
        recovery.forget();
      }
    } catch (IOException e) {
      status(Texts.of("recovery.off", e.getMessage()));
    }
  }

  /** Closes the window once the user has agreed. */
  void close() {
    if (window.mayLeave()) {
      try {
        if (recovery != null) {
          recovery.close();
        }
      } catch (IOException e) {
        status(Texts.of("recovery.off", e.getMessage()));
      }
      end();
    }
  }

  /** Closes the window as it is; unsaved work stays for recovery. */
  void end() {
    if (window == null) {
      return;
    }
    keep.stop();
    offers.setListener(() -> {});
    try {
      runs.close();
      window.keepBounds();
      settings.save();
      panes.end();
    } finally {
      // whatever failed, nobody waits for a window that is gone
      window.dispose();
      window = null;
      closed.run();
    }
  }
}
