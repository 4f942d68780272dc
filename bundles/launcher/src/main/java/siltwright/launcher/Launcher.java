package siltwright.launcher;

import java.io.File;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.net.URISyntaxException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.DecimalFormatSymbols;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import org.osgi.framework.launch.Framework;

/**
 * The program's main class: starts the product and hands it the command line.
 *
 * <p>Bundles, feature files and libraries are found beside this class's own jar, so the working
 * directory does not matter. The feature is {@value #DEFAULT_FEATURE}, or the only one that is
 * there, unless the system property {@value #FEATURE} gives the name of another one, or a path that
 * ends in {@code .json}.
 *
 * <p>Without arguments it opens the window, where the feature has one and there is a display.
 *
 * <p>Exit code: the command's own; 1 with a line on standard error if the product does not start.
 */
public final class Launcher {

  static final String FEATURE = "siltwright.feature";
  static final String DEFAULT_FEATURE = "desk";
  private static final int FAILED = 1;

  private Launcher() {}

  /**
   * Runs the program and ends the process.
   *
   * @param arguments the command line, handed on as it is
   */
  public static void main(String[] arguments) {
    useUtf8WherePlainAscii();
    useLatinDigits();
    int code;
    try {
      code = run(arguments);
    } catch (LaunchException e) {
      code = fail(e.getMessage());
    } catch (Throwable e) { // nothing below may reach the user as a stack trace
      code = fail("the program failed: " + e);
    }
    System.out.flush();
    System.err.flush();
    System.exit(code);
  }

  private static int fail(String message) {
    System.err.println("siltwright: " + message);
    return FAILED;
  }

  private static int run(String[] arguments)
      throws LaunchException, URISyntaxException, InterruptedException {
    Path home = home();
    Path bundles = home.resolve("bundles");
    Storage storage = Storage.create(Storage.place());
    // also where a signal ends the process
    Runtime.getRuntime()
        .addShutdownHook(
            new Thread() {
              @Override
              public void run() {
                storage.close();
              }
            });
    // beside the framework's start, which needs nothing of it
    FutureTask<Feature> reading = new FutureTask<>(() -> Feature.read(featureFile(home)));
    new Thread(reading).start();
    Framework framework = Product.framework(storage.framework());
    Feature feature = result(reading);
    boolean window = asksForWindow(arguments) && Display.isThere();
    if (window && feature.has(Feature.Stage.WINDOW)) {
      Thread display = Display.prepare();
      try (Product product =
          Product.startWindowFirst(feature, bundles, storage.framework(), framework)) {
        product.startAddOns(addOnFolders(home), home.resolve(AddOnPolicy.FILE));
        display.join();
        return product.open(
            Arrays.copyOfRange(arguments, arguments.length == 0 ? 0 : 1, arguments.length));
      }
    }
    Product product =
        Product.startFor(
            feature, bundles, storage.framework(), framework, Arrays.stream(arguments).findFirst());
    product.startAddOns(addOnFolders(home), home.resolve(AddOnPolicy.FILE));
    int code = product.entry().applyAsInt(arguments);
    // done, but not by the whole product: a script that counts on it has to learn of that
    boolean whole = product.isWhole();
    product.leave();
    return code == 0 && !whole ? FAILED : code;
  }

  private static Feature result(FutureTask<Feature> reading)
      throws LaunchException, InterruptedException {
    try {
      return reading.get();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof LaunchException refusal) {
        throw refusal;
      }
      throw new IllegalStateException(e.getCause());
    }
  }

  /**
   * Returns whether the window is all that is asked for. The command line would say so too, after
   * it has read itself in, which takes a third of a second.
   */
  static boolean asksForWindow(String... arguments) {
    return arguments.length == 0
        || arguments[0].equals("open")
            && (arguments.length == 1
                || arguments.length == 2
                    && !arguments[1].isEmpty()
                    && !arguments[1].startsWith("-")
                    && !arguments[1].startsWith("@"));
  }

  private static Path home() throws URISyntaxException {
    return Path.of(Launcher.class.getProtectionDomain().getCodeSource().getLocation().toURI())
        .getParent();
  }

  /** Returns the folders in which add-ons are looked for. */
  private static List<Path> addOnFolders(Path home) {
    return List.of(home.resolve("addons"), userData().resolve("addons"));
  }

  private static Path userData() {
    String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    Path user = Path.of(System.getProperty("user.home"));
    if (system.contains("windows") && System.getenv("APPDATA") != null) {
      return Path.of(System.getenv("APPDATA"), "Siltwright");
    }
    if (system.contains("mac")) {
      return user.resolve("Library/Application Support/Siltwright");
    }
    String data = System.getenv("XDG_DATA_HOME");
    return data != null && data.startsWith("/")
        ? Path.of(data, "siltwright")
        : user.resolve(".local/share/siltwright");
  }

  private static Path featureFile(Path home) {
    String feature = System.getProperty(FEATURE, DEFAULT_FEATURE);
    if (feature.endsWith(".json")) {
      return Path.of(feature);
    }
    Path file = home.resolve("features" + File.separator + feature + ".json");
    return System.getProperty(FEATURE) == null && !Files.exists(file) ? only(file) : file;
  }

  /** Returns the one feature that is there where a product has another one than the usual. */
  private static Path only(Path usual) {
    File[] files = usual.getParent().toFile().listFiles((folder, name) -> name.endsWith(".json"));
    return files != null && files.length == 1 ? files[0].toPath() : usual;
  }

  /**
   * Writes UTF-8 where the surroundings name no character set at all: plain ASCII is the default
   * there, and would turn every µ into a question mark.
   */
  private static void useUtf8WherePlainAscii() {
    if (Charset.defaultCharset().equals(StandardCharsets.US_ASCII)) {
      System.setOut(utf8(FileDescriptor.out));
      System.setErr(utf8(FileDescriptor.err));
    }
  }

  /**
   * Keeps numbers readable for programs where the user's language has digits of its own: the
   * framework writes the version of Java with them, and would find none that suits a bundle.
   */
  private static void useLatinDigits() {
    Locale locale = Locale.getDefault(Locale.Category.FORMAT);
    if (DecimalFormatSymbols.getInstance(locale).getZeroDigit() != '0') {
      Locale.setDefault(
          Locale.Category.FORMAT,
          new Locale.Builder()
              .setLanguage(locale.getLanguage())
              .setScript(locale.getScript())
              .setRegion(locale.getCountry())
              .setUnicodeLocaleKeyword("nu", "latn")
              .build());
    }
  }

  private static PrintStream utf8(FileDescriptor stream) {
    return new PrintStream(new FileOutputStream(stream), true, StandardCharsets.UTF_8);
  }
}
