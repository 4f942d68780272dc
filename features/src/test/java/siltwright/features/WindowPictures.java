package siltwright.features;

import static siltwright.features.Hand.find;
import static siltwright.features.Hand.isShown;
import static siltwright.features.Hand.item;
import static siltwright.features.Hand.onScreen;
import static siltwright.features.Hand.until;

import java.awt.Component;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import javax.accessibility.AccessibleState;
import javax.imageio.ImageIO;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JFrame;
import javax.swing.JLabel;
import javax.swing.JMenuItem;
import javax.swing.JPanel;
import javax.swing.JProgressBar;
import javax.swing.JTextField;
import javax.swing.JTree;
import javax.swing.SwingUtilities;
import siltwright.launcher.Feature;
import siltwright.launcher.Product;

/**
 * Takes the pictures of the window that the documents show: every view, light and dark, small and
 * on a fine screen. {@code mvn -q -Ppictures -DskipTests verify} runs it.
 */
public final class WindowPictures {
  private static final int LOOKS = 3;
  private static final Path DOCUMENTS = Path.of("../docs/images");
  private static final Path ALL = Installation.BUILT.resolve("pictures");

  private final Path folder;
  private final String theme;
  private final int scale;
  private final Hand hand;

  private WindowPictures(String theme, int scale, Path folder) throws Exception {
    this.theme = theme;
    this.scale = scale;
    this.folder = folder;
    this.hand = new Hand();
  }

  /**
   * Runs.
   *
   * @param arguments nothing; or theme, scale and a folder, for one set of pictures
   */
  public static void main(String[] arguments) throws Exception {
    if (arguments.length > 0) {
      try {
        new WindowPictures(arguments[0], Integer.parseInt(arguments[1]), Path.of(arguments[2]))
            .take();
      } catch (Throwable e) {
        e.printStackTrace();
        Runtime.getRuntime().halt(1);
      }
      Runtime.getRuntime().halt(0);
    }
    Files.createDirectories(ALL);
    for (int scale : new int[] {1, 2}) {
      try (VirtualDisplay display =
          VirtualDisplay.start(scale == 1 ? "1280x800x24" : "2560x1440x24")) {
        for (String theme : List.of("Light", "Dark")) {
          int code = run(display, theme, scale);
          if (code != 0) {
            System.exit(code);
          }
        }
      }
    }
  }

  private static int run(VirtualDisplay display, String theme, int scale)
      throws IOException, InterruptedException {
    Path folder = Files.createTempDirectory("siltwright-pictures");
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.add("-Dfile.encoding=UTF-8");
    command.add("-Dsun.java2d.uiScale=" + scale);
    command.add("-cp");
    command.add(System.getProperty("java.class.path"));
    command.add(WindowPictures.class.getName());
    command.addAll(List.of(theme, Integer.toString(scale), folder.toString()));
    ProcessBuilder builder = new ProcessBuilder(command).inheritIO();
    display.useFor(builder);
    for (String kind : List.of("CONFIG", "STATE", "DATA")) {
      builder.environment().put("XDG_" + kind + "_HOME", folder.resolve(kind).toString());
    }
    Path settings = folder.resolve("CONFIG/siltwright/settings.properties");
    Files.createDirectories(settings.getParent());
    Files.writeString(
        settings,
        "pane.component-life.file=%s%npane.cleanliness.file=%s%n"
            .formatted(demo("pump-lives.csv"), demo("pit-samples.csv")));
    return builder.start().waitFor();
  }

  private static Path demo(String file) {
    return Path.of("../demo-data").toAbsolutePath().normalize().resolve(file);
  }

  private void take() throws Exception {
    Product product =
        Product.start(
            Feature.read(Installation.BUILT.resolve("features/desk.json")),
            Installation.BUILT.resolve("bundles"),
            folder.resolve("framework"));
    product.startWindow();
    new Thread(
            () -> {
              try {
                product.window().applyAsInt(new String[0]);
              } catch (Exception e) {
                e.printStackTrace();
              }
            })
        .start();
    until("the window", () -> frame() != null);
    choose("Look", theme);
    find(Component.class, "start.demo");
    picture("start");
    hand.click(find(Component.class, "start.demo"));
    JTree tree = find(JTree.class, "fleet.tree");
    hand.choose(tree, "EX-13");
    idle();
    openView("analysis-tune");
    idle();
    picture("tune");
    openView("interval");
    idle();
    picture("interval");
    for (String id :
        List.of(
            "circuit",
            "component-life",
            "cleanliness",
            "analysis-simulate",
            "analysis-code",
            "analysis-life",
            "runs")) {
      openView(id);
      idle();
      picture(id.replace("analysis-", ""));
    }
    openView("filled-cards");
    fillCard();
    idle();
    picture("filled-cards");
    openView("analysis-tune");
    hand.click(find(Component.class, "every.tune"));
    idle();
    picture("every");
    choose("Look", "US customary");
    choose("Window", "Arrangements", "Analyst");
    idle();
    picture("analyst");
  }

  /** Fills a card but for one place, and with one thing that cannot be true. */
  private void fillCard() {
    hand.click(find(Component.class, "card.take"));
    JTextField id = find(JTextField.class, "card.id");
    until("the id of the card", () -> id.getText().startsWith("EX-13/"));
    idle();
    onScreen(
        () -> {
          Map.of("date", "2026-03-02", "doneBy", "crew A", "checkedBy", "crew A", "meter_h", "4310")
              .forEach((name, text) -> field(JTextField.class, name).setText(text));
          for (String name : List.of("tankAtZero", "portsShut", "elementState")) {
            field(JComboBox.class, name).setSelectedIndex(1);
          }
          return null;
        });
  }

  private static <T extends Component> T field(Class<T> type, String name) {
    return Hand.look(type, c -> ("card." + name).equals(c.getName())).orElseThrow();
  }

  private static JFrame frame() {
    return Hand.look(JFrame.class, f -> "siltwright".equals(f.getName())).orElse(null);
  }

  private void choose(String... path) {
    JMenuItem item = onScreen(() -> item(frame().getJMenuBar(), path));
    SwingUtilities.invokeLater(item::doClick);
  }

  private void openView(String id) {
    onScreen(
        () -> {
          for (int i = 0; i < frame().getJMenuBar().getMenuCount(); i++) {
            for (Component c : frame().getJMenuBar().getMenu(i).getMenuComponents()) {
              if (("open." + id).equals(c.getName())) {
                ((JMenuItem) c).doClick();
              }
            }
          }
          return null;
        });
  }

  /** Waits until nothing is computed or laid out any more, and what that led to has happened. */
  private void idle() {
    for (int i = 0; i < LOOKS; i++) {
      until("nothing to compute", WindowPictures::isQuiet);
      hand.rest();
    }
  }

  private static boolean isQuiet() {
    return Hand.look(JProgressBar.class, b -> true).isEmpty()
        && Hand.look(
                JLabel.class,
                l ->
                    l.getName() != null
                        && l.getName().startsWith("state.")
                        && l.getText().startsWith("Computing"))
            .isEmpty()
        && Hand.look(JPanel.class, WindowPictures::isBusy).isEmpty()
        && (isShown("fleet.tree") || isShown("start.demo"));
  }

  /** A result says so while it is laid out, in one event after the other. */
  private static boolean isBusy(JPanel panel) {
    return panel.getAccessibleContext().getAccessibleStateSet().contains(AccessibleState.BUSY);
  }

  private void picture(String name) throws IOException {
    BufferedImage image =
        onScreen(
            () -> {
              JComponent root = frame().getRootPane();
              BufferedImage drawn =
                  new BufferedImage(
                      root.getWidth() * scale,
                      root.getHeight() * scale,
                      BufferedImage.TYPE_INT_RGB);
              Graphics2D g2 = drawn.createGraphics();
              g2.scale(scale, scale);
              root.printAll(g2);
              g2.dispose();
              return drawn;
            });
    boolean first = name.equals("circuit") && theme.equals("Light");
    String file =
        first ? "workbench.png" : "window-" + name + "-" + theme.toLowerCase(Locale.ROOT) + ".png";
    ImageIO.write(image, "png", ALL.resolve(scale + "x-" + file).toFile());
    if (scale == 1 && !name.equals("runs")) {
      ImageIO.write(indexed(image), "png", DOCUMENTS.resolve(file).toFile());
    }
  }

  /** Returns a picture with the 256 colours that it has most of, which is a third of the bytes. */
  private static BufferedImage indexed(BufferedImage image) {
    return Palette.reduce(image);
  }
}
