package siltwright.workbench.internal;

import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.GraphicsEnvironment;
import java.awt.KeyEventPostProcessor;
import java.awt.KeyboardFocusManager;
import java.awt.Rectangle;
import java.awt.Window;
import java.awt.datatransfer.DataFlavor;
import java.awt.datatransfer.UnsupportedFlavorException;
import java.awt.event.KeyEvent;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.io.File;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import javax.swing.JFileChooser;
import javax.swing.JFrame;
import javax.swing.JOptionPane;
import javax.swing.KeyStroke;
import javax.swing.SwingUtilities;
import javax.swing.TransferHandler;
import javax.swing.WindowConstants;
import javax.swing.filechooser.FileNameExtensionFilter;
import siltwright.workbench.parts.Wrapped;

/** The window: menus, status bar, questions to the user. */
final class BenchWindow {
  private static final String BOUNDS = "window.bounds";
  private static final String MAXIMISED = "window.maximised";
  private static final String FOLDER = "window.folder";
  private static final int SMALL = 1500;
  private static final Dimension LEAST = new Dimension(760, 480);

  private final Bench bench;
  private final JFrame frame = new JFrame();
  private final StatusBar status;
  private final MenuBar menus;
  private final KeyEventPostProcessor keysElsewhere = this::keyElsewhere;
  private Rectangle normal;

  BenchWindow(Bench bench) {
    this.bench = bench;
    frame.setName("siltwright");
    frame.setDefaultCloseOperation(WindowConstants.DO_NOTHING_ON_CLOSE);
    frame.setMinimumSize(LEAST);
    frame.setIconImages(BenchIcon.images());
    frame.addWindowListener(
        new WindowAdapter() {
          @Override
          public void windowClosing(WindowEvent e) {
            bench.close();
          }
        });
    frame.setTransferHandler(new Dropped());
    status = new StatusBar(bench.runs());
    menus = new MenuBar(bench);
    frame.setJMenuBar(menus.bar());
    frame.add(status, BorderLayout.SOUTH);
    KeyboardFocusManager.getCurrentKeyboardFocusManager().addKeyEventPostProcessor(keysElsewhere);
    restoreBounds();
    documentTitle();
  }

  /** Windows of torn-off panes have no menus; their keys hold there all the same. */
  private boolean keyElsewhere(KeyEvent e) {
    Window in = SwingUtilities.getWindowAncestor(e.getComponent());
    boolean tornOff = in instanceof JFrame && in != frame;
    return tornOff && !e.isConsumed() && menus.perform(KeyStroke.getKeyStrokeForEvent(e));
  }

  JFrame frame() {
    return frame;
  }

  void show() {
    frame.setVisible(true);
  }

  void dispose() {
    status.end();
    KeyboardFocusManager.getCurrentKeyboardFocusManager()
        .removeKeyEventPostProcessor(keysElsewhere);
    frame.setJMenuBar(null);
    frame.dispose();
  }

  private void restoreBounds() {
    Optional<int[]> kept =
        bench
            .settings()
            .get(BOUNDS)
            .filter(b -> b.matches("-?\\d{1,5}( -?\\d{1,5}){3}"))
            .map(b -> Arrays.stream(b.split(" ")).mapToInt(Integer::parseInt).toArray());
    Rectangle screen = GraphicsEnvironment.getLocalGraphicsEnvironment().getMaximumWindowBounds();
    normal =
        kept.map(b -> new Rectangle(b[0], b[1], b[2], b[3]))
            .filter(r -> r.intersects(screen))
            .orElse(
                new Rectangle(
                    screen.x + screen.width / 20,
                    screen.y + screen.height / 20,
                    Math.min(1500, screen.width * 9 / 10),
                    Math.min(950, screen.height * 9 / 10)));
    frame.setBounds(normal);
    boolean small = kept.isEmpty() && screen.width < SMALL;
    if (small) {
      frame.setBounds(screen);
    }
    if (small || bench.settings().get(MAXIMISED).isPresent()) {
      frame.setExtendedState(JFrame.MAXIMIZED_BOTH);
    }
  }

  void keepBounds() {
    boolean maximised = (frame.getExtendedState() & JFrame.MAXIMIZED_BOTH) == JFrame.MAXIMIZED_BOTH;
    Rectangle b = maximised ? normal : frame.getBounds();
    bench.settings().put(BOUNDS, b.x + " " + b.y + " " + b.width + " " + b.height);
    bench.settings().put(MAXIMISED, maximised ? "yes" : "");
  }

  void status(String text) {
    status.tell(text);
  }

  void viewsChanged() {
    menus.viewsChanged();
  }

  void documentChanged() {
    documentTitle();
    menus.documentChanged();
    status.show(bench.scenario());
  }

  private void documentTitle() {
    Document document = bench.document();
    String name =
        document
            .text()
            .map(t -> document.file().map(f -> f.getFileName().toString()).orElse(t.source()))
            .orElse("");
    String mark = document.isDirty() ? "* " : "";
    frame.setTitle(name.isEmpty() ? "Siltwright" : mark + name + " – Siltwright");
    frame.getRootPane().putClientProperty("Window.documentModified", document.isDirty());
  }

  /** Tells what did not work. */
  void tell(String title, String text) {
    status(text);
    JOptionPane.showMessageDialog(frame, Wrapped.text(text), title, JOptionPane.WARNING_MESSAGE);
  }

  /**
   * Returns whether the document may be left: nothing is unsaved, or the user saved it or does not
   * want to.
   */
  boolean mayLeave() {
    if (!bench.document().isDirty()) {
      return true;
    }
    Object[] answers = {Texts.of("leave.save"), Texts.of("leave.discard"), Texts.of("cancel")};
    int answer =
        JOptionPane.showOptionDialog(
            frame,
            Texts.of("leave.question"),
            Texts.of("leave.title"),
            JOptionPane.DEFAULT_OPTION,
            JOptionPane.WARNING_MESSAGE,
            null,
            answers,
            answers[0]);
    return answer == 0 ? save() : answer == 1;
  }

  /** Offers work that a killed window left. */
  void offer(List<Recovery.Left> left) {
    for (Recovery.Left each : left) {
      String name = each.file().map(f -> f.getFileName().toString()).orElse(each.text().source());
      Object[] answers = {
        Texts.of("recovery.take"), Texts.of("recovery.later"), Texts.of("recovery.discard")
      };
      int answer =
          JOptionPane.showOptionDialog(
              frame,
              Texts.of("recovery.question", name),
              Texts.of("recovery.title"),
              JOptionPane.DEFAULT_OPTION,
              JOptionPane.QUESTION_MESSAGE,
              null,
              answers,
              answers[0]);
      if (answer == 0) {
        bench.recover(each);
        return;
      }
      if (answer == 2) {
        bench.discard(each);
      }
    }
  }

  void open() {
    if (mayLeave()) {
      choose(Texts.of("open.title"), "json", false).ifPresent(bench::open);
    }
  }

  void openDemo() {
    if (mayLeave()) {
      bench.openDemo();
    }
  }

  void closeDocument() {
    if (mayLeave()) {
      bench.document().close();
    }
  }

  void importRecords() {
    choose(Texts.of("records.title"), "csv", false).ifPresent(bench::importRecords);
  }

  boolean save() {
    if (bench.document().file().isEmpty()) {
      return saveAs();
    }
    if (bench.document().isOvertaken()
        && !agreed(Texts.of("save.title"), Texts.of("save.overtaken"))) {
      return false;
    }
    return bench.save(Optional.empty());
  }

  boolean saveAs() {
    Optional<Path> place = choose(Texts.of("save.title"), "json", true);
    return place.isPresent() && bench.save(place);
  }

  Optional<Path> askReportFile() {
    return choose(Texts.of("report.title"), "html", true);
  }

  boolean agreed(String title, String question) {
    return JOptionPane.showConfirmDialog(
            frame, Wrapped.text(question), title, JOptionPane.OK_CANCEL_OPTION)
        == JOptionPane.OK_OPTION;
  }

  /** Asks for a line of text. */
  Optional<String> ask(String title, String question, String standard) {
    Object answer =
        JOptionPane.showInputDialog(
            frame, question, title, JOptionPane.PLAIN_MESSAGE, null, null, standard);
    return Optional.ofNullable(answer).map(Object::toString).filter(a -> !a.isBlank());
  }

  private Optional<Path> choose(String title, String ending, boolean save) {
    JFileChooser chooser = new JFileChooser(bench.settings().get(FOLDER).orElse(null));
    chooser.setDialogTitle(title);
    chooser.setFileFilter(
        new FileNameExtensionFilter(Texts.of("files." + ending) + " (*." + ending + ")", ending));
    if (save) {
      String name =
          bench
              .document()
              .file()
              .map(f -> f.getFileName().toString().replaceFirst("\\.[^.]*$", ""))
              .orElse(Texts.of("document.unnamed"));
      chooser.setSelectedFile(new File(name + "." + ending));
    }
    int answer = save ? chooser.showSaveDialog(frame) : chooser.showOpenDialog(frame);
    if (answer != JFileChooser.APPROVE_OPTION) {
      return Optional.empty();
    }
    File file = chooser.getSelectedFile();
    if (save && !file.getName().contains(".")) {
      file = new File(file.getPath() + "." + ending);
    }
    bench.settings().put(FOLDER, file.getAbsoluteFile().getParent());
    boolean own = bench.document().file().map(Path::toFile).equals(Optional.of(file));
    return save && file.exists() && !own && !agreed(title, Texts.of("save.replace", file))
        ? Optional.empty()
        : Optional.of(file.toPath());
  }

  /** Lets the user choose one of several views; asks only if there is a choice. */
  Optional<AnalysisView> choose(List<AnalysisView> views) {
    if (views.size() < 2) {
      if (views.isEmpty()) {
        tell(Texts.of("records.title"), Texts.of("records.none"));
      }
      return views.stream().findFirst();
    }
    Object[] titles = views.stream().map(AnalysisView::title).toArray();
    Object answer =
        JOptionPane.showInputDialog(
            frame,
            Texts.of("records.question"),
            Texts.of("records.title"),
            JOptionPane.QUESTION_MESSAGE,
            null,
            titles,
            titles[0]);
    return views.stream().filter(v -> v.title().equals(answer)).findFirst();
  }

  /** Takes a file that is dragged in. */
  private final class Dropped extends TransferHandler {
    private static final long serialVersionUID = 1;

    @Override
    public boolean canImport(TransferSupport support) {
      return support.isDataFlavorSupported(DataFlavor.javaFileListFlavor);
    }

    @Override
    public boolean importData(TransferSupport support) {
      try {
        Object files = support.getTransferable().getTransferData(DataFlavor.javaFileListFlavor);
        if (files instanceof List<?> list && !list.isEmpty() && list.get(0) instanceof File file) {
          SwingUtilities.invokeLater(() -> bench.openAny(file.toPath()));
          return true;
        }
        return false;
      } catch (UnsupportedFlavorException | IOException e) {
        return false;
      }
    }
  }
}
