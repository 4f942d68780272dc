package siltwright.features;

import static siltwright.features.Hand.find;
import static siltwright.features.Hand.isShown;
import static siltwright.features.Hand.item;
import static siltwright.features.Hand.onScreen;
import static siltwright.features.Hand.until;

import java.awt.Component;
import java.awt.Dialog;
import java.awt.Frame;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.Window;
import java.awt.event.KeyEvent;
import java.io.IOException;
import java.lang.ref.WeakReference;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import javax.swing.JComponent;
import javax.swing.JFrame;
import javax.swing.JLabel;
import javax.swing.JMenuItem;
import javax.swing.JTabbedPane;
import javax.swing.JTable;
import javax.swing.JTextField;
import javax.swing.JTree;
import javax.swing.SwingUtilities;
import javax.swing.TransferHandler;
import javax.swing.UIManager;
import javax.swing.text.JTextComponent;
import org.osgi.framework.Bundle;
import org.osgi.framework.wiring.BundleWiring;
import siltwright.launcher.Feature;
import siltwright.launcher.Product;

/**
 * Drives the window of the built product, step by step; prints a line a step. Started by {@link
 * WindowIT} on a display of its own.
 */
public final class WindowDrive {
  private static final String FIRST_INTERVAL = "/machines/0/today/interval_h";
  private static final long END_MS = 40_000;
  private static final String INTERVAL = "/machines/2/today/interval_h";

  private final Path folder;
  private final Path addOns;
  private final Hand hand;
  private final Product product;
  private Thread window;

  private WindowDrive(Path folder) throws Exception {
    this.folder = folder;
    this.addOns = Files.createDirectories(folder.resolve("addons"));
    this.hand = new Hand();
    this.product =
        Product.startWindowFirst(
            Feature.read(Installation.BUILT.resolve("features/desk.json")),
            Installation.BUILT.resolve("bundles"),
            folder.resolve("framework" + ProcessHandle.current().pid()));
    product.startAddOns(List.of(addOns), folder.resolve("addons.properties"));
  }

  /**
   * Runs.
   *
   * @param arguments what to do, and a folder for it
   */
  public static void main(String[] arguments) throws Exception {
    try {
      WindowDrive drive = new WindowDrive(Path.of(arguments[1]));
      if (arguments[0].equals("edit")) {
        drive.editAndWait();
      } else if (arguments[0].equals("measure")) {
        drive.measure();
      } else {
        drive.all();
      }
    } catch (Throwable e) {
      e.printStackTrace(System.out);
    }
    System.out.flush();
    Runtime.getRuntime().halt(0);
  }

  private void open(String... arguments) {
    window =
        new Thread(
            () -> {
              try {
                product.window().applyAsInt(arguments);
              } catch (Exception e) {
                e.printStackTrace(System.out);
              }
            });
    window.start();
    until("the window", () -> frame() != null);
  }

  private static JFrame frame() {
    return Arrays.stream(Frame.getFrames())
        .filter(f -> "siltwright".equals(f.getName()) && f.isShowing())
        .map(JFrame.class::cast)
        .findFirst()
        .orElse(null);
  }

  private void editAndWait() throws Exception {
    open(folder.resolve("fleet.json").toString());
    JTextField interval = find(JTextField.class, FIRST_INTERVAL);
    hand.type(interval, "321");
    hand.press(KeyEvent.VK_ENTER);
    Path state = Path.of(System.getenv("XDG_STATE_HOME"), "siltwright");
    until("a copy of the work", () -> holds(state, "321"));
    System.out.println("kept");
    System.out.flush();
    window.join();
  }

  private static boolean holds(Path state, String text) throws Exception {
    try (Stream<Path> files = Files.list(state)) {
      for (Path file : files.toList()) {
        if (file.toString().endsWith(".json") && Files.readString(file).contains(text)) {
          return true;
        }
      }
    }
    return false;
  }

  /** A step and its name. */
  private interface Step {
    void run() throws Exception;
  }

  private boolean failed;

  private void step(String name, Step step) {
    if (failed) {
      return;
    }
    long begin = System.nanoTime();
    try {
      step.run();
      System.out.println("step " + name + " passed " + (System.nanoTime() - begin) / 1_000_000);
    } catch (Throwable e) {
      failed = true;
      System.out.println("step " + name + " failed " + e);
      e.printStackTrace(System.out);
      System.out.println("fleet: " + onScreen(() -> isShown("fleet") ? place("fleet") : null));
      System.out.println(
          "windows: " + Arrays.stream(Window.getWindows()).filter(Window::isShowing).toList());
    }
  }

  private void all() throws Exception {
    step("unsavedWorkOfAKilledWindowIsOfferedBack", this::recover);
    step("emptyWindowSaysWhatToDo", this::emptyWindow);
    step("aboutTellsVersionAndParts", this::about);
    step("demoOpensAndIsComputed", this::openDemo);
    step("selectionIsOneForAll", this::select);
    step("editRecomputesAndIsUndone", this::edit);
    step("whatTheReaderRefusesIsSaidWhileItIsTyped", this::refuse);
    step("chartReadsExactValues", this::readChart);
    step("findingLeadsToItsCause", this::finding);
    step("unitsAndThemeChangeEverywhere", this::look);
    step("viewIsOpenedOnceMore", this::onceMore);
    step("paneIsTornOffAndDockedAgain", this::tearOff);
    step("viewComesAndGoesWithItsBundle", this::addOn);
    step("layoutIsKept", this::layout);
    System.out.println(failed ? "stopped" : "end");
  }

  private void recover() {
    open();
    hand.answer("Take them back");
    until("the edited value", () -> fieldText(FIRST_INTERVAL).equals("321"));
    until("the mark of unsaved work", () -> frame().getTitle().startsWith("* fleet.json"));
    choose("File", "Save");
    until("the work saved", () -> !frame().getTitle().startsWith("*"));
    choose("File", "Close file");
  }

  private static String fieldText(String name) {
    return Hand.look(JTextComponent.class, c -> name.equals(c.getName()))
        .map(JTextComponent::getText)
        .orElse("");
  }

  private void choose(String... path) {
    JMenuItem item = onScreen(() -> item(frame().getJMenuBar(), path));
    until(String.join(" / ", path) + " to be possible", item::isEnabled);
    SwingUtilities.invokeLater(item::doClick);
  }

  private void emptyWindow() {
    find(Component.class, "start.demo");
    find(Component.class, "start.open");
    find(Component.class, "start.records");
  }

  private void about() {
    choose("Help", "About");
    find(
        JLabel.class,
        "the version",
        l -> l.getText() != null && l.getText().matches("Siltwright [0-9.]+ .desk.*"));
    JTabbedPane pages = find(JTabbedPane.class, "about");
    SwingUtilities.invokeLater(() -> pages.setSelectedIndex(1));
    JTable parts = find(JTable.class, "the parts", t -> SwingUtilities.isDescendingFrom(t, pages));
    until("the parts with their licences", () -> parts.getRowCount() > 40);
    until("a licence", () -> !parts.getValueAt(0, 2).toString().isEmpty());
    hand.answer("OK");
  }

  private void openDemo() {
    hand.click(find(Component.class, "start.demo"));
    until("the tree", () -> find0(JTree.class, "fleet.tree").getRowCount() > 12);
    // a richer view may stand in front of it
    choose("Analyses", "Change interval");
    until("a result", () -> valueOf("recommended", "interval_h").endsWith(" h"));
  }

  private static <T extends Component> T find0(Class<T> type, String name) {
    return Hand.look(type, c -> name.equals(c.getName())).orElseThrow();
  }

  private static String valueOf(String group, String value) {
    return fieldText("value." + group + "." + value);
  }

  private void select() {
    hand.choose(find(JTree.class, "fleet.tree"), "EX-13");
    until("the inspector", () -> labelText("inspector.title").startsWith("EX-13"));
    until("its interval of today", () -> valueOf("today", "interval_h").equals("500 h"));
  }

  private static String labelText(String name) {
    return Hand.look(JLabel.class, c -> name.equals(c.getName())).map(JLabel::getText).orElse("");
  }

  private void edit() {
    JTextField interval = find(JTextField.class, INTERVAL);
    hand.type(interval, "350");
    hand.press(KeyEvent.VK_ENTER);
    until("the result of the edit", () -> valueOf("today", "interval_h").equals("350 h"));
    hand.press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
    until("the value before", () -> fieldText(INTERVAL).equals("500"));
    until("the result before", () -> valueOf("today", "interval_h").equals("500 h"));
    hand.press(KeyEvent.VK_CONTROL, KeyEvent.VK_SHIFT, KeyEvent.VK_Z);
    until("the edit again", () -> fieldText(INTERVAL).equals("350"));
    until("its result again", () -> valueOf("today", "interval_h").equals("350 h"));
  }

  private void refuse() {
    JTextField interval = find(JTextField.class, INTERVAL);
    hand.type(interval, "-5");
    until(
        "what was expected",
        () ->
            Hand.look(
                    JLabel.class,
                    l ->
                        l.getText() != null
                            && l.getText().startsWith("expected a number from 1 to"))
                .isPresent());
    hand.press(KeyEvent.VK_ENTER);
    until("the field to keep what was typed", () -> fieldText(INTERVAL).equals("-5"));
    hand.type(interval, "350");
    until(
        "the fault to go",
        () ->
            Hand.look(
                    JLabel.class,
                    l -> l.getText() != null && l.getText().startsWith("expected a number"))
                .isEmpty());
  }

  private void readChart() {
    JComponent chart =
        find(
            JComponent.class,
            "a chart",
            c -> c.getName() != null && c.getName().startsWith("figure:"));
    onScreen(
        () -> {
          chart.scrollRectToVisible(new Rectangle(0, 0, chart.getWidth(), chart.getHeight()));
          return null;
        });
    Point at =
        onScreen(
            () -> {
              Point p = chart.getLocationOnScreen();
              return new Point(p.x + chart.getWidth() / 2, p.y + chart.getHeight() / 2);
            });
    hand.move(at);
    hand.move(new Point(at.x + 2, at.y));
    until(
        "a reading with its unit",
        () ->
            ((List<?>) call(chart, "readingLines"))
                .stream().anyMatch(l -> l.toString().contains(" h")));
    hand.drag(at, new Point(at.x + 50, at.y + 30));
    until("a part of the chart", () -> (Boolean) call(chart, "isZoomed"));
    hand.click(at, 2);
    until("all of the chart", () -> !(Boolean) call(chart, "isZoomed"));
  }

  /** Asks an object of a bundle, whose classes are not those of the same name here. */
  private static Object call(Object of, String method) throws ReflectiveOperationException {
    return of.getClass().getMethod(method).invoke(of);
  }

  private void finding() {
    JTable table = find(JTable.class, "findings.table");
    until("findings", () -> table.getRowCount() > 0);
    int row =
        onScreen(
            () -> {
              for (int r = 0; r < table.getRowCount(); r++) {
                if (table.getValueAt(r, 1).equals("EX-13")) {
                  return r;
                }
              }
              return 0;
            });
    Point at =
        onScreen(
            () -> {
              table.scrollRectToVisible(table.getCellRect(row, 2, true));
              Rectangle cell = table.getCellRect(row, 2, true);
              Point p = table.getLocationOnScreen();
              return new Point(p.x + cell.x + 30, p.y + cell.y + cell.height / 2);
            });
    hand.click(at, 1);
    until("the inspector in front", () -> isShown("inspector.title"));
  }

  private void look() {
    choose("Look", "US customary");
    until("gallons", () -> Hand.look(JLabel.class, l -> "psi".equals(l.getText())).isPresent());
    choose("Look", "SI units");
    until("litres", () -> Hand.look(JLabel.class, l -> "kPa".equals(l.getText())).isPresent());
    choose("Look", "Dark");
    until("a dark window", () -> UIManager.getBoolean("Siltwright.dark"));
    choose("Look", "Light");
    until("a light window", () -> !UIManager.getBoolean("Siltwright.dark"));
  }

  private void onceMore() {
    choose("Views", "Interval by hand");
    until("what the interval costs", () -> columns() == 3);
    choose("Views", "Open once more", "Interval by hand");
    until("a second pane", () -> isTab("Interval by hand 2") && columns() == 3);
    hand.click(find(Component.class, "interval.pin"));
    until("what is pinned in it", () -> columns() == 4);
    hand.press(KeyEvent.VK_CONTROL, KeyEvent.VK_W);
    until("the second pane closed", () -> !isTab("Interval by hand 2"));
    choose("Views", "Interval by hand");
    until("the first pane as it was", () -> columns() == 3);
  }

  /** Returns how many columns the readings at the interval have; 0 where they are not shown. */
  private static int columns() {
    return Hand.look(JTable.class, t -> "interval.table".equals(t.getName()))
        .map(JTable::getColumnCount)
        .orElse(0);
  }

  private void tearOff() {
    choose("Views", "Runs");
    hand.click(find(Component.class, "runs.table"));
    long before = windows();
    hand.press(KeyEvent.VK_CONTROL, KeyEvent.VK_T);
    until("a window of its own", () -> windows() == before + 1);
    until("the pane in it", () -> isShown("runs.table") && ancestor("runs.table") != frame());
    // without a window manager nothing puts a new window in front but itself
    onScreen(
        () -> {
          ancestor("runs.table").toFront();
          return null;
        });
    Component table = find(Component.class, "runs.table");
    until(
        "the focus there",
        () -> {
          table.requestFocus();
          return ancestor("runs.table").isFocused();
        });
    hand.press(KeyEvent.VK_CONTROL, KeyEvent.VK_T);
    until("the pane back", () -> isShown("runs.table") && ancestor("runs.table") == frame());
    until("the window gone", () -> windows() == before);
  }

  private static long windows() {
    return Arrays.stream(Window.getWindows())
        .filter(w -> w.isShowing() && (w instanceof Frame || w instanceof Dialog))
        .count();
  }

  private static Window ancestor(String name) {
    return Hand.look(Component.class, c -> name.equals(c.getName()))
        .map(SwingUtilities::getWindowAncestor)
        .orElse(null);
  }

  private void addOn() throws Exception {
    Path jar = folder.resolve("notice.jar");
    Installation.writeBundle(
        jar,
        "notice",
        "<implementation class='siltwright.features.NoticeView'/>"
            + "<service><provide interface='siltwright.workbench.View'/></service>",
        List.of(NoticeView.class, Class.forName(NoticeView.class.getName() + "$NoticePane")));
    Path dropped = addOns.resolve("notice.jar");
    Files.move(jar, dropped, StandardCopyOption.ATOMIC_MOVE);
    until("the view in the menu", () -> item(frame().getJMenuBar(), "Views", "Notice") != null);
    choose("Views", "Notice");
    until("its pane", () -> labelText("notice").equals("Machine EX-13"));
    Bundle bundle =
        Arrays.stream(product.context().getBundles())
            .filter(b -> "notice".equals(b.getSymbolicName()))
            .findFirst()
            .orElseThrow();
    WeakReference<ClassLoader> loader =
        new WeakReference<>(bundle.adapt(BundleWiring.class).getClassLoader());
    bundle = null;
    Files.delete(dropped);
    until("its pane to go", () -> !isShown("notice"));
    until("it to leave the menu", () -> item(frame().getJMenuBar(), "Views", "Notice") == null);
    until(
        "its class loader to be collected",
        () -> {
          System.gc();
          return loader.get() == null;
        });
  }

  private void layout() throws Exception {
    choose("Views", "Runs");
    until("the runs", () -> isShown("runs.table"));
    hand.click(find(Component.class, "runs.table"));
    hand.press(KeyEvent.VK_CONTROL, KeyEvent.VK_W);
    until("the runs closed", () -> !isShown("runs.table"));
    Rectangle fleet = onScreen(() -> place("fleet"));
    Rectangle findings = onScreen(() -> place("findings"));
    choose("File", "Quit");
    hand.answer("Do not save");
    ended();
    open();
    hand.click(find(Component.class, "start.demo"));
    until("the layout as it was", () -> isShown("fleet.tree") && isShown("findings.table"));
    if (onScreen(() -> isShown("runs.table") || isTab("Runs"))) {
      throw new AssertionError("a pane that was closed came back");
    }
    until("the fleet's size as it was, " + fleet, () -> place("fleet").equals(fleet));
    until("the findings' size as it was, " + findings, () -> place("findings").equals(findings));
    choose("File", "Quit");
    ended();
  }

  /** Returns where a pane stands in the window. */
  private static Rectangle place(String id) {
    Component pane = find0(Component.class, id);
    return SwingUtilities.convertRectangle(pane.getParent(), pane.getBounds(), frame());
  }

  /** Waits for the end of the window, and tells what its thread does where it does not come. */
  private void ended() throws InterruptedException {
    window.join(END_MS);
    if (window.isAlive()) {
      Thread.getAllStackTraces()
          .forEach((thread, at) -> System.out.println(thread + " " + Arrays.toString(at)));
      throw new AssertionError("the window did not end");
    }
  }

  /**
   * Measures with a large fleet how long the window keeps the user waiting. Prints times and the
   * longest event of each step.
   */
  private void measure() throws Exception {
    Path large = folder.resolve("large.json");
    LargeFleet.write(Path.of("../demo-data/three-pits.json"), large, 2000);
    manySamples();
    long begin = System.nanoTime();
    open();
    report("window", begin);
    Stalls stalls = onScreen(Stalls::new);
    stalls.tell("window");
    begin = System.nanoTime();
    open(large);
    report("open 2000 machines", begin);
    stalls.tell("open");
    JTree tree = find(JTree.class, "fleet.tree");
    for (String id : List.of("EX-11", "EX-12", "EX-13")) {
      begin = System.nanoTime();
      String machine = id + "-7";
      JTextField search = find(JTextField.class, "fleet.search");
      onScreen(
          () -> {
            search.setText(machine);
            return null;
          });
      hand.choose(tree, machine);
      until("the inspector", () -> labelText("inspector.title").startsWith(machine));
      report("search and select", begin);
    }
    stalls.tell("search and select");
    choose("Analyses", "Change interval");
    until("a result", () -> valueOf("today", "interval_h").endsWith(" h"));
    stalls.tell("result");
    JTextField field =
        find(
            JTextField.class,
            "interval",
            f -> f.getName() != null && f.getName().endsWith("today/interval_h"));
    hand.type(field, "345");
    begin = System.nanoTime();
    onScreen(
        () -> {
          field.postActionEvent();
          return null;
        });
    until("the edit", () -> frame().getTitle().startsWith("*"));
    report("edit seen in all", begin);
    until("its result", () -> valueOf("today", "interval_h").equals("345 h"));
    stalls.tell("edit");
    choose("Views", "Cleanliness");
    JComponent course = find(JComponent.class, "cleanliness.figure");
    until(
        "200 000 samples", () -> find0(JTable.class, "cleanliness.table").getRowCount() > 199_999);
    stalls.tell("200 000 samples");
    for (int i = 0; i < 30; i++) {
      onScreen(
          () -> {
            course.getActionMap().get("PLUS").actionPerformed(null);
            course.paintImmediately(0, 0, course.getWidth(), course.getHeight());
            return null;
          });
      stalls.tell("zoom in and draw");
    }
  }

  /** Writes 200 000 samples of a machine and has the window open them with its view. */
  private void manySamples() throws IOException {
    StringBuilder text = new StringBuilder("machine,hours,count4_per_mL,count6_per_mL\n");
    for (int i = 0; i < 200_000; i++) {
      double at6 = 150 * (1 + 0.3 * Math.sin(i * 0.7) * Math.cos(i * 0.013));
      text.append("EX-13-7,").append(i / 20.0).append(',').append(4 * at6).append(',').append(at6);
      text.append('\n');
    }
    Path samples = Files.writeString(folder.resolve("samples.csv"), text);
    Path settings = Path.of(System.getenv("XDG_CONFIG_HOME"), "siltwright", "settings.properties");
    Files.createDirectories(settings.getParent());
    Files.writeString(settings, "pane.cleanliness.file=" + samples);
  }

  private static void open(Path file) {
    SwingUtilities.invokeLater(
        () ->
            frame()
                .getTransferHandler()
                .importData(
                    new TransferHandler.TransferSupport(frame(), new FileList(file.toFile()))));
    until("the tree", () -> isShown("fleet.tree"));
  }

  private static void report(String what, long beginNs) {
    System.out.printf("%s: %d ms%n", what, (System.nanoTime() - beginNs) / 1_000_000);
  }

  private static boolean isTab(String title) {
    return Hand.look(JTabbedPane.class, tabs -> tabs.indexOfTab(title) >= 0).isPresent();
  }
}
