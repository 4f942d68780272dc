package siltwright.workbench.internal;

import io.github.andrewauclair.moderndocking.DockableTabPreference;
import io.github.andrewauclair.moderndocking.DockingRegion;
import io.github.andrewauclair.moderndocking.api.DockingAPI;
import io.github.andrewauclair.moderndocking.app.Docking;
import io.github.andrewauclair.moderndocking.app.RootDockingPanel;
import io.github.andrewauclair.moderndocking.event.DockingListener;
import io.github.andrewauclair.moderndocking.exception.DockingLayoutException;
import io.github.andrewauclair.moderndocking.settings.Settings;
import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Dimension;
import java.awt.KeyboardFocusManager;
import java.awt.Point;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import javax.swing.JFrame;
import javax.swing.JSplitPane;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import siltwright.workbench.Scenario;
import siltwright.workbench.View;

/** The panes in the window and how they are docked. */
final class Panes {
  // The library writes the id of a docked view like this.
  private static final Pattern ID = Pattern.compile("persistentID=\"([^\"]*)\"");
  // The library cuts the place of a border down to whole pixels: with a hair more in its share it
  // comes back where it was.
  private static final Pattern SHARE = Pattern.compile("(?<=divider-proportion=\")[0-9.]+(?=\")");
  private static final double HAIR = 1e-4;
  private static final int KEEP_AFTER_MS = 800;

  private final Bench bench;
  private final JFrame frame;
  private final Path layoutFile;
  private final Map<String, Docked> docked = new LinkedHashMap<>();
  private final Timer keep;
  private final DockingListener follow = e -> layoutChanged();
  private Docked last;

  Panes(Bench bench, JFrame frame, Path layoutFile) {
    this.bench = bench;
    this.frame = frame;
    this.layoutFile = layoutFile;
    Settings.setDefaultTabPreference(DockableTabPreference.TOP_ALWAYS);
    Settings.setActiveHighlighterEnabled(false);
    Docking.initialize(frame);
    RootDockingPanel root = new RootDockingPanel(frame);
    frame.add(root, BorderLayout.CENTER);
    Docking.addDockingListener(follow);
    keep = new Timer(KEEP_AFTER_MS, e -> keepLayout());
    keep.setRepeats(false);
  }

  private void layoutChanged() {
    keep.restart();
  }

  /** Returns the open panes. */
  List<Docked> open() {
    return List.copyOf(docked.values());
  }

  Optional<Docked> pane(String id) {
    return Optional.ofNullable(docked.get(id));
  }

  /** Opens a view, or brings the pane of it to the front that was used last. */
  Docked open(View view) {
    String id = view.id();
    if (last != null && last.viewId().equals(id)) {
      id = last.getPersistentID();
    } else if (!docked.containsKey(id)) {
      id =
          docked.values().stream()
              .filter(d -> d.viewId().equals(view.id()))
              .map(Docked::getPersistentID)
              .findFirst()
              .orElse(id);
    }
    return open(view, id);
  }

  /** Opens one more pane of a view that can have several. */
  Docked openAnother(View view) {
    String id = view.id();
    for (int n = 2; docked.containsKey(id); n++) {
      id = view.id() + "#" + n;
    }
    return open(view, id);
  }

  private Docked open(View view, String id) {
    Docked pane = docked.get(id);
    if (pane == null) {
      pane = place(id, view.title());
      dock(pane);
    }
    if (pane.pane().isEmpty()) {
      pane.fill(view, bench);
    }
    toFront(pane);
    return pane;
  }

  private Docked place(String id, String title) {
    Docked pane = new Docked(this, id, title);
    docked.put(id, pane);
    Docking.registerDockable(pane);
    return pane;
  }

  /** Docks a pane as a tab where views of its kind are. */
  private void dock(Docked pane) {
    Optional<Docked> beside =
        docked.values().stream()
            .filter(d -> d != pane && Docking.isDocked(d) && isWork(d) == isWork(pane))
            .findFirst();
    if (beside.isPresent()) {
      Docking.dock(pane, beside.get(), DockingRegion.CENTER);
    } else if (docked.values().stream().anyMatch(d -> d != pane && Docking.isDocked(d))) {
      Docking.dock(pane, frame, isWork(pane) ? DockingRegion.EAST : DockingRegion.WEST, 0.7);
    } else {
      Docking.dock(pane, frame);
    }
  }

  private static boolean isWork(Docked pane) {
    return !BuiltIn.IDS.contains(pane.viewId()) || pane.viewId().equals(BuiltIn.START);
  }

  void toFront(Docked pane) {
    if (!Docking.isDocked(pane)) {
      dock(pane);
    }
    Docking.bringToFront(pane);
    last = pane;
    SwingUtilities.invokeLater(pane::focus);
  }

  /** Closes a pane after the event that asked for it. */
  void closeLater(Docked pane) {
    SwingUtilities.invokeLater(() -> close(pane));
  }

  void close(Docked pane) {
    if (docked.remove(pane.getPersistentID()) == null) {
      return;
    }
    if (last == pane) {
      last = null;
    }
    pane.unfill();
    if (Docking.isDocked(pane)) {
      Docking.undock(pane);
    }
    Docking.deregisterDockable(pane);
    layoutChanged();
  }

  /** Tears a pane off into a window of its own, or docks it again. */
  void tearOff(Docked pane) {
    if (SwingUtilities.getWindowAncestor(pane) == frame) {
      Point at = pane.isShowing() ? pane.getLocationOnScreen() : frame.getLocation();
      Dimension size = pane.getWidth() > 100 ? pane.getSize() : new Dimension(700, 500);
      Docking.newWindow(pane, new Point(at.x + 40, at.y + 40), size);
    } else {
      Docking.undock(pane);
      dock(pane);
      toFront(pane);
    }
  }

  /** Returns the pane in which the focus is, or was last. */
  Optional<Docked> current() {
    Component focus =
        KeyboardFocusManager.getCurrentKeyboardFocusManager().getPermanentFocusOwner();
    Docked with =
        focus == null ? null : (Docked) SwingUtilities.getAncestorOfClass(Docked.class, focus);
    if (with != null && docked.containsValue(with)) {
      last = with;
    }
    return Optional.ofNullable(last);
  }

  /** Goes to the next open pane, or the one before. */
  void next(int direction) {
    List<Docked> all = open();
    if (!all.isEmpty()) {
      int at = current().map(all::indexOf).orElse(-1);
      toFront(all.get(Math.floorMod(at + direction, all.size())));
    }
  }

  /** Shows all panes a scenario. */
  void show(Scenario scenario) {
    open().forEach(pane -> pane.show(scenario));
  }

  /** Fills places whose view has come, and closes panes whose view has gone. */
  void follow(List<View> views) {
    Map<String, View> byId =
        views.stream().collect(Collectors.toMap(View::id, v -> v, (a, b) -> a, LinkedHashMap::new));
    for (Docked pane : open()) {
      View offered = byId.get(pane.viewId());
      View shown = pane.view().orElse(null);
      if (shown != null && !shown.equals(offered)) {
        if (offered == null) {
          close(pane);
        } else {
          pane.give(offered, bench);
        }
      } else if (shown == null && offered != null) {
        pane.give(offered, bench);
        Docking.updateTabInfo(pane);
      }
    }
  }

  /** Closes all panes and opens those of an arrangement. */
  void arrange(Arrangement arrangement, List<View> views) {
    open().forEach(this::close);
    Map<String, View> byId =
        views.stream().collect(Collectors.toMap(View::id, v -> v, (a, b) -> a));
    for (Arrangement.Place p : arrangement.places()) {
      View view = byId.get(p.view());
      if (view == null) {
        continue;
      }
      Docked pane = place(view.id(), view.title());
      Docked beside = p.beside().isEmpty() ? null : docked.get(p.beside());
      if (beside != null) {
        Docking.dock(pane, beside, p.region(), p.share());
      } else if (docked.size() == 1) {
        Docking.dock(pane, frame);
      } else {
        Docking.dock(pane, frame, p.region(), p.share());
      }
      pane.give(view, bench);
    }
    arrangement.places().stream()
        .map(p -> docked.get(p.view()))
        .filter(d -> d != null && arrangement.front().contains(d.getPersistentID()))
        .forEach(Docking::bringToFront);
    share(arrangement.places());
  }

  /**
   * Gives places at an edge their share of the window. The library does so for a window that is not
   * seen yet, and goes by the sizes of panes in one that is. What was docked last is outermost.
   */
  private void share(List<Arrangement.Place> places) {
    for (int i = places.size() - 1; i > 0; i--) {
      Arrangement.Place p = places.get(i);
      Docked pane = docked.get(p.view());
      if (pane != null && p.beside().isEmpty()) {
        frame.validate();
        JSplitPane split = (JSplitPane) SwingUtilities.getAncestorOfClass(JSplitPane.class, pane);
        if (split != null) {
          boolean first = p.region() == DockingRegion.WEST || p.region() == DockingRegion.NORTH;
          split.setDividerLocation(first ? p.share() : 1 - p.share());
        }
      }
    }
  }

  /** The library's own short cuts to these keep the first window's for ever. */
  private static DockingAPI docking() {
    return Docking.getSingleInstance();
  }

  /** Writes the present layout to a file. */
  void save(Path file) throws IOException {
    try {
      Files.createDirectories(file.getParent());
      docking()
          .getLayoutPersistence()
          .saveLayoutToFile(file.toFile(), docking().getDockingState().getApplicationLayout());
    } catch (DockingLayoutException e) {
      throw new IOException(e.getMessage(), e);
    }
    String text = Files.readString(file);
    Files.writeString(
        file,
        SHARE
            .matcher(text)
            .replaceAll(m -> Double.toString(Math.min(1, Double.parseDouble(m.group()) + HAIR))));
  }

  /** Keeps the layout, unless there is only the start. */
  private void keepLayout() {
    if (docked.keySet().equals(Set.of(BuiltIn.START))) {
      return;
    }
    try {
      save(layoutFile);
    } catch (IOException | RuntimeException e) {
      bench.status(Texts.of("layout.notKept", e.getMessage()));
    }
  }

  /**
   * Restores the layout of a file.
   *
   * @return whether it could be
   */
  boolean restore(Path file, List<View> views) {
    try {
      String text = Files.readString(file);
      List<String> ids = new ArrayList<>();
      for (Matcher m = ID.matcher(text); m.find(); ) {
        ids.add(m.group(1));
      }
      if (ids.isEmpty()) {
        return false;
      }
      open().forEach(this::close);
      for (String id : ids) {
        if (!docked.containsKey(id)) {
          place(id, id);
        }
      }
      docking()
          .getDockingState()
          .restoreApplicationLayout(
              docking().getLayoutPersistence().loadApplicationLayoutFromFile(file.toFile()));
      follow(views);
      // A place that the library did not restore is none.
      open().stream().filter(d -> !Docking.isDocked(d)).forEach(this::close);
      return !docked.isEmpty();
    } catch (IOException | DockingLayoutException | RuntimeException e) {
      return false;
    }
  }

  /** Restores the layout of the last run. */
  boolean restoreLast(List<View> views) {
    return Files.exists(layoutFile) && restore(layoutFile, views);
  }

  void fault(String title, RuntimeException e) {
    bench.status(Texts.of("pane.fault", title, e.toString()));
  }

  /** Keeps the layout and lets go of everything. */
  void end() {
    keep.stop();
    keepLayout();
    Docking.removeDockingListener(follow);
    for (Docked pane : open()) {
      pane.unfill();
    }
    docked.clear();
    last = null;
    Docking.deregisterAllDockables();
    Docking.deregisterAllDockingPanels();
    Docking.uninitialize();
  }
}
