package siltwright.features;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.ZipFile;
import jdk.security.jarsigner.JarSigner;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.osgi.framework.BundleListener;
import siltwright.analysis.Analysis;
import siltwright.analysis.ReportSection;
import siltwright.features.Installation.Outcome;
import siltwright.features.hostile.Hostile;
import siltwright.features.hostile.HostileLaw;
import siltwright.features.hostile.HostileLife;
import siltwright.features.hostile.HostileSection;
import siltwright.features.hostile.HostileTerm;
import siltwright.launcher.Feature;
import siltwright.launcher.LaunchException;
import siltwright.launcher.Product;
import siltwright.model.CostTerm;
import siltwright.model.LifeLaw;
import siltwright.model.LoadingLaw;

/** Add-ons that misbehave are named and set aside, and the product goes on as without them. */
class AddOnIT {
  private static final String[] CODE = {"code", "--counts", "4=1950,6=420,14=61", "--json"};

  @TempDir static Path folder;
  private static Installation installation;
  private static Path addOns;

  @BeforeAll
  static void install() throws IOException {
    installation = Installation.copyTo(folder.resolve("home"), folder.resolve("temporary"));
    addOns = Files.createDirectories(installation.home().resolve("addons"));
    policy("start-limit_s=3\nsilence-limit_s=2\n");
  }

  @BeforeEach
  void clear() throws IOException {
    try (var files = Files.list(addOns)) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
  }

  private static void policy(String text) throws IOException {
    Path file = installation.home().resolve("addons.properties");
    Files.writeString(file, text);
    ownersOnly(file);
  }

  private static void ownersOnly(Path file) throws IOException {
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
  }

  private static Path add(Class<?> type) throws IOException {
    return add(type, Hostile.class, Analysis.class);
  }

  private static Path add(Class<?> type, Class<?> all, Class<?> service) throws IOException {
    String name = "hostile." + type.getSimpleName();
    List<Class<?>> types = new ArrayList<>(List.of(all));
    types.addAll(List.of(all.getDeclaredClasses()));
    Path jar = addOns.resolve(name + ".jar");
    Installation.writeBundle(
        jar,
        name,
        "<implementation class='"
            + type.getName()
            + "'/><service><provide interface='"
            + service.getName()
            + "'/></service>",
        types);
    ownersOnly(jar);
    return jar;
  }

  private static Outcome run(String... arguments) throws Exception {
    return Installation.run(process(installation.home(), arguments));
  }

  private static ProcessBuilder process(Path home, String... arguments) {
    List<String> command = Installation.quickJava();
    command.addAll(List.of("-Xmx200m", "-Djava.io.tmpdir=" + installation.temporary(), "-jar"));
    command.add(home.resolve("siltwright.jar").toAbsolutePath().toString());
    command.addAll(List.of(arguments));
    ProcessBuilder java = new ProcessBuilder(command).directory(folder.toFile());
    java.environment().put("XDG_DATA_HOME", folder.resolve("data").toString());
    return java;
  }

  @Test
  void commandsOfTheProductPrintTheSameBesideThemAll() throws Exception {
    for (Class<?> type : Hostile.class.getDeclaredClasses()) {
      add(type);
    }
    CompletableFuture<Outcome> beside = later(process(installation.home(), CODE));
    Outcome without = Installation.run(process(Installation.BUILT, CODE)); // has none
    assertEquals(new Outcome(0, without.out(), ""), without);
    Outcome with = beside.get();
    assertEquals(0, with.code(), with.err());
    assertEquals(without.out(), with.out());
    Map<String, String> told = new TreeMap<>();
    for (String line : with.err().lines().toList()) {
      assertTrue(line.startsWith("siltwright: add-on hostile."), line);
      told.merge(line.split(" ")[2].substring(8), line, (a, b) -> a + "\n" + b);
    }
    assertEquals(Set.of("ThrowsEarly", "LoopsEarly", "ExitsEarly", "Prints"), told.keySet());
    assertTrue(told.get("ThrowsEarly").contains("is set aside: "), told.toString());
    assertTrue(told.get("ThrowsEarly").contains("made to fail"), told.toString());
    assertTrue(told.get("LoopsEarly").contains("it did not start within 3 s"), told.toString());
    assertTrue(told.get("ExitsEarly").contains("may not call System.exit"), told.toString());
    assertTrue(told.get("Prints").contains("printed: { printed while"), told.toString());
  }

  /** In a process of its own, with little memory. */
  @Test
  void oneThatTakesAllMemoryIsNamed() throws Exception {
    add(Hostile.Floods.class);
    assertNamed(run("floods"), "Floods", "OutOfMemoryError");
  }

  private static void assertNamed(Outcome outcome, String type, String why) {
    assertEquals(1, outcome.code(), outcome.toString());
    assertEquals("", outcome.out());
    assertEquals(1, outcome.err().lines().count(), outcome.err());
    assertTrue(
        outcome.err().startsWith("siltwright: add-on hostile." + type + " 1.0.0 ("), outcome.err());
    assertTrue(outcome.err().contains("is set aside: "), outcome.err());
    assertTrue(outcome.err().contains(why), outcome.err());
  }

  /** All in one process, which goes on after each. */
  @Test
  void oneThatFailsWhenItRunsIsNamedAndTheRestGoesOn() throws Exception {
    for (Class<?> type : Hostile.class.getDeclaredClasses()) {
      if (!type.getSimpleName().endsWith("Early")) {
        add(type);
      }
    }
    try (Inside product = new Inside()) {
      assertNamed(product.run("throws"), "Throws", "IllegalStateException: asked to fail");
      assertNamed(product.run("loops"), "Loops", "it told no progress for 2 s");
      assertNamed(product.run("exits"), "Exits", "an add-on may not call System.exit");
      assertNamed(product.run("recurses"), "Recurses", "StackOverflowError");
      assertEquals(2, product.run("throws").code(), "a command that is no more");

      Outcome prints = product.run("prints", "--json");
      assertEquals(0, prints.code(), prints.toString());
      assertTrue(prints.out().startsWith("{") && prints.out().contains("\"done\": \"yes\""));
      assertTrue(prints.err().lines().count() < 15, prints.err());
      assertTrue(prints.err().contains("more, which is dropped"), prints.err());

      assertEquals(0, product.run("leaks").code());
      Outcome good = product.run("good");
      assertTrue(good.out().contains("All is well. (add-on hostile.Good 1.0.0)"), good.out());

      String bundles = product.run("bundles").out();
      assertTrue(bundles.contains("siltwright.interval"), bundles);
      assertTrue(bundles.matches("(?s).*hostile[.]Good .*active.*analysis good.*"), bundles);
      assertTrue(bundles.matches("(?s).*hostile[.]Throws .*set aside.*"), bundles);
      assertTrue(bundles.contains("has left 4 threads running"), bundles);
      assertTrue(product.run("bundles", "--all", "--json").out().contains("\"file\": \"" + addOns));
      assertEquals(0, product.run(CODE).code());
    }
  }

  /** The machines that hang on such a law or term are left out; the others are computed. */
  @Test
  void aLawOrTermThatFailsIsNamedAndTheOtherMachinesGoOn() throws Exception {
    for (Class<?> type : HostileLaw.class.getDeclaredClasses()) {
      add(type, HostileLaw.class, LoadingLaw.class);
    }
    for (Class<?> type : HostileTerm.class.getDeclaredClasses()) {
      add(type, HostileTerm.class, CostTerm.class);
    }
    String demo = Files.readString(Path.of("..", "demo-data", "three-pits.json"));
    try (Inside product = new Inside()) {
      for (Map.Entry<String, String> law :
          Map.of(
                  "ThrowingLaw", "IllegalStateException: asked to fail",
                  "FallingLaw", "a loading law must rise",
                  "LoopingLaw", "it told no progress for 2 s")
              .entrySet()) {
        String named = "$0, \"loadingLaw\": {\"law\": \"" + law.getKey() + "\"}";
        Path fleet = folder.resolve(law.getKey() + ".json");
        Files.writeString(fleet, demo.replaceFirst("\"blockingExponent\": 0.65", named));
        Outcome outcome = product.run("tune", fleet.toString(), "--draws", "0", "--json");
        assertEquals(2, outcome.code(), outcome.err()); // some of the file was refused
        assertTrue(outcome.out().contains("\"HT-14\""), outcome.out());
        assertFalse(outcome.out().contains("\"EX-11\""), outcome.out());
        String told = outcome.err();
        assertTrue(told.contains("add-on hostile." + law.getKey() + " 1.0.0 ("), told);
        assertTrue(told.contains(law.getValue()), told);
        assertTrue(told.contains("machine EX-11 /elements/mat-m/loadingLaw/law: found "), told);
        assertFalse(told.contains("\tat "), told);
      }
      Path failing = priced(demo, "ThrowingTerm");
      Outcome outcome = product.run("tune", failing.toString(), "--draws", "0", "--json");
      assertEquals(2, outcome.code(), outcome.err());
      assertTrue(outcome.out().contains("\"EX-12\""), outcome.out());
      assertTrue(outcome.err().contains("add-on hostile.ThrowingTerm 1.0.0 ("), outcome.err());
      assertTrue(
          outcome.err().contains("machine EX-11 /machines/0/costs/terms/0/term: found "),
          outcome.err());
      // a dearer change is made less often, and what a change costs counts as service
      String[] plain = {"tune", "../demo-data/three-pits.json", "--machine", "EX-11"};
      Outcome without = product.run(plain);
      assertEquals(0, without.code(), without.err());
      plain[1] = priced(demo, "Trip").toString();
      Outcome with = product.run(plain);
      assertEquals(0, with.code(), with.err());
      assertTrue(interval(with) > interval(without), with.out());
      assertTrue(product.run("bundles", "--json").out().contains("cost term Trip"));
      String bundles = product.run("bundles").out();
      assertTrue(bundles.contains("hostile.LoopingLaw 1.0.0: it told no progress"), bundles);
    }
  }

  @Test
  void aLifeLawOrSectionThatFailsIsNamedAndTheRestGoesOn() throws Exception {
    for (Class<?> type : HostileLife.class.getDeclaredClasses()) {
      add(type, HostileLife.class, LifeLaw.class);
    }
    for (Class<?> type : HostileSection.class.getDeclaredClasses()) {
      add(type, HostileSection.class, ReportSection.class);
    }
    Path page = folder.resolve("sections.html");
    try (Inside product = new Inside()) {
      String bundles = product.run("bundles", "--json").out();
      assertTrue(bundles.contains("life law MildLife"), bundles);
      assertTrue(bundles.contains("section of the report"), bundles);
      String[] tune = {
        "tune", "../demo-data/three-pits.json", "--machine", "EX-11", "--draws", "0"
      };
      Outcome plain = product.run(tune);
      tune[1] = living("MildLife").toString();
      Outcome shorter = product.run(tune);
      assertEquals(0, shorter.code(), shorter.err());
      assertTrue(interval(shorter) < interval(plain), shorter.out());

      String failing = living("ThrowingLife").toString();
      Outcome outcome =
          product.run("tune", failing, "--draws", "0", "--report", page.toString(), "--json");
      assertEquals(2, outcome.code(), outcome.err());
      assertTrue(outcome.out().contains("\"EX-12\""), outcome.out());
      String told = outcome.err();
      assertTrue(told.contains("add-on hostile.ThrowingLife 1.0.0 ("), told);
      assertTrue(told.contains("machine EX-11 /machines/0/components/0/lifeLaw/law: found"), told);
      assertFalse(told.contains("\tat "), told);
      String html = Files.readString(page);
      assertTrue(html.contains("Signed by hand"), html);
      assertTrue(html.contains("(add-on hostile.GoodSection 1.0.0)"), html);
      assertTrue(html.contains("lifeLaw/law"), html); // the product's own: what was left out
      assertTrue(html.contains("id=\"result-1\""), html);
      for (String name : List.of("ThrowingSection", "NullSection", "LoopingSection")) {
        assertTrue(html.contains("Section of the add-on hostile." + name + " 1.0.0"), name);
      }
      assertTrue(html.contains("told no progress for 2 s"), html);
    }
  }

  private static Path living(String law) throws IOException {
    Path fleet = folder.resolve(law + ".json");
    String demo = Files.readString(Path.of("..", "demo-data", "three-pits.json"));
    String named = "$0, \"lifeLaw\": {\"law\": \"" + law + "\"}";
    Files.writeString(fleet, demo.replaceFirst("\"life\": \\{[^}]*\\}", named));
    return fleet;
  }

  private static Path priced(String demo, String term) throws IOException {
    String named = "$0, \"terms\": [{\"term\": \"" + term + "\"}]";
    Path file = folder.resolve(term + ".json");
    return Files.writeString(file, demo.replaceFirst("\"oil_money_per_L\": [0-9.]+", named));
  }

  /** Returns the best interval of the first procedure, h. */
  private static int interval(Outcome tuned) {
    Matcher found = Pattern.compile("(?m)^Interval \\(h\\) +(\\d+) ").matcher(tuned.out());
    assertTrue(found.find(), tuned.out());
    return Integer.parseInt(found.group(1));
  }

  @Test
  void anOpenWindowFollowsTheFolder() throws Exception {
    try (Inside product = new Inside()) {
      product.product.startWindow();
      assertEquals(2, product.run("good").code());
      Path jar = add(Hostile.Good.class);
      product.until("good", 0);
      Files.move(add(Hostile.LeaksThreads.class), jar, StandardCopyOption.REPLACE_EXISTING);
      product.until("good", 2);
      product.until("leaks", 0);
      Files.delete(jar);
      product.until("leaks", 2);
      assertEquals(0, product.run(CODE).code());
    }
  }

  @Test
  void oneThatNeedsTheWindowStartsWithIt() throws Exception {
    Path jar = addOns.resolve("notice.jar");
    Installation.writeBundle(
        jar,
        "notice",
        "<implementation class='siltwright.features.NoticeView'/>"
            + "<service><provide interface='siltwright.workbench.View'/></service>",
        List.of(NoticeView.class, Class.forName(NoticeView.class.getName() + "$NoticePane")),
        "Import-Package",
        "javax.swing,siltwright.analysis,siltwright.model,siltwright.workbench");
    ownersOnly(jar);
    try (Inside product = new Inside()) {
      String before = product.run("bundles").out();
      assertTrue(before.matches("(?s).*notice .*waits for a later.*"), before);
      product.product.startWindow();
      String after = product.run("bundles").out();
      assertTrue(after.matches("(?s).*notice +1[.]0[.]0 +active +view.*"), after);
    }
  }

  /** The product in this process; what it prints is caught. */
  private static final class Inside implements AutoCloseable {
    private static final long LIMIT_NS = 20_000_000_000L;

    private final PrintStream out = System.out;
    private final PrintStream err = System.err;
    private final ByteArrayOutputStream printed = new ByteArrayOutputStream();
    private final ByteArrayOutputStream told = new ByteArrayOutputStream();
    private final Product product;

    Inside() throws Exception {
      System.setOut(new PrintStream(printed, true, UTF_8));
      System.setErr(new PrintStream(told, true, UTF_8));
      try {
        product = started();
      } catch (LaunchException e) {
        restore();
        throw e;
      }
    }

    private Product started() throws Exception {
      Product made =
          Product.start(
              Feature.read(installation.home().resolve("features/desk.json")),
              installation.home().resolve("bundles"),
              Files.createTempDirectory(folder, "run").resolve("framework"));
      try {
        made.startAddOns(List.of(addOns), installation.home().resolve("addons.properties"));
      } catch (LaunchException e) {
        made.close();
        throw e;
      }
      return made;
    }

    Outcome run(String... arguments) throws Exception {
      printed.reset();
      told.reset();
      int code = product.entry().applyAsInt(arguments);
      return new Outcome(code, printed.toString(UTF_8), told.toString(UTF_8));
    }

    /** Runs a command again whenever a bundle has come or gone, until it gives a code. */
    void until(String command, int code) throws Exception {
      long limit = System.nanoTime() + LIMIT_NS;
      Semaphore changes = new Semaphore(0);
      // told once the bundle's services are there for everybody, or gone
      BundleListener listener = event -> changes.release();
      product.context().addBundleListener(listener);
      try {
        while (run(command).code() != code) {
          assertTrue(
              changes.tryAcquire(limit - System.nanoTime(), TimeUnit.NANOSECONDS),
              command + " does not give " + code);
          changes.drainPermits();
        }
      } finally {
        product.context().removeBundleListener(listener);
      }
    }

    @Override
    public void close() {
      product.close();
      restore();
    }

    private void restore() {
      System.setOut(out);
      System.setErr(err);
    }
  }

  /** Signed by the JDK's own signer with keys of its own key tool, checked by the launcher. */
  @Test
  void signaturesAreCheckedAndAPolicyMayAskForThem() throws Exception {
    Path keys = folder.resolve("keys.p12");
    CompletableFuture<Signer> other =
        CompletableFuture.supplyAsync(
            () -> new Signer(folder.resolve("stranger.p12"), "CN=A stranger"));
    Signer ours = new Signer(keys, "CN=A consultant");
    Signer stranger = other.get();
    KeyStore trusted = KeyStore.getInstance("PKCS12");
    trusted.load(null, null);
    trusted.setCertificateEntry("consultant", ours.certificate());
    Path store = installation.home().resolve("trusted.p12");
    try (OutputStream out = Files.newOutputStream(store)) {
      trusted.store(out, Signer.PASSWORD.toCharArray());
    }
    ownersOnly(store);

    ours.sign(add(Hostile.Good.class));
    stranger.sign(add(Hostile.Prints.class));
    add(Hostile.Fine.class); // not signed
    Path changed = ours.sign(add(Hostile.Throws.class));
    try (FileSystem zip = FileSystems.newFileSystem(changed)) {
      Files.writeString(zip.getPath("OSGI-INF/component.xml"), "<changed/>");
    }
    ownersOnly(changed);
    try (Inside product = new Inside()) {
      Outcome bundles = product.run("bundles", "--json");
      assertTrue(bundles.out().contains("\"signed\": \"CN=A consultant, not known"), bundles.out());
      assertEquals(0, product.run("good").code());
      assertEquals(0, product.run("fine").code());
      assertEquals(2, product.run("throws").code());
      assertTrue(bundles.out().contains("its content is not what was signed"), bundles.out());
    }
    policy("signed-only=true\ntrusted=trusted.p12\ntrusted-password=" + Signer.PASSWORD + "\n");
    try (Inside product = new Inside()) {
      assertEquals(0, product.run("good").code());
      assertEquals(2, product.run("prints").code());
      assertEquals(2, product.run("fine").code());
      String bundles = product.run("bundles", "--json").out();
      assertTrue(bundles.contains("\"signed\": \"CN=A consultant, trusted"), bundles);
      assertTrue(bundles.contains("signed by CN=A stranger, whom no trusted"), bundles);
      assertTrue(bundles.contains("it is not signed, and only signed ones"), bundles);
    } finally {
      policy("start-limit_s=3\nsilence-limit_s=2\n");
    }
    policy("signed-only=true\n");
    LaunchException fault = assertThrows(LaunchException.class, Inside::new);
    assertTrue(fault.getMessage().contains("expected trusted beside it"), fault.getMessage());
    policy("start-limit_s=3\nsilence-limit_s=2\n");
  }

  /** A key and what signs with it. */
  private record Signer(Path keys, String name) {
    static final String PASSWORD = "only-a-test";

    Signer {
      String[] command = {
        Path.of(System.getProperty("java.home"), "bin", "keytool").toString(),
        "-genkeypair",
        "-keyalg",
        "EC",
        "-keystore",
        keys.toString(),
        "-storepass",
        PASSWORD,
        "-alias",
        name,
        "-dname",
        name
      };
      try {
        Outcome made = Installation.run(new ProcessBuilder(command));
        assertEquals(0, made.code(), made.toString());
      } catch (IOException | InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }

    private KeyStore.PrivateKeyEntry key() throws Exception {
      return (KeyStore.PrivateKeyEntry)
          KeyStore.getInstance(keys.toFile(), PASSWORD.toCharArray())
              .getEntry(name, new KeyStore.PasswordProtection(PASSWORD.toCharArray()));
    }

    Certificate certificate() throws Exception {
      return key().getCertificate();
    }

    Path sign(Path jar) throws Exception {
      Path signed = jar.resolveSibling("signed");
      try (ZipFile in = new ZipFile(jar.toFile());
          OutputStream out = Files.newOutputStream(signed)) {
        new JarSigner.Builder(key()).signerName("TEST").build().sign(in, out);
      }
      Files.move(signed, jar, StandardCopyOption.REPLACE_EXISTING);
      ownersOnly(jar);
      return jar;
    }
  }

  @Test
  void nothingIsLoadedFromWhereOthersCanWrite() throws Exception {
    Path jar = add(Hostile.Good.class);
    Files.setPosixFilePermissions(jar, PosixFilePermissions.fromString("rw-rw-r--"));
    refused("others can write to " + jar.toRealPath());
    ownersOnly(jar);
    Files.setPosixFilePermissions(addOns, PosixFilePermissions.fromString("rwxrwxrwx"));
    refused("others can write to " + addOns.toRealPath());
    Files.setPosixFilePermissions(addOns, PosixFilePermissions.fromString("rwxr-xr-x"));
    Path home = installation.home();
    Files.setPosixFilePermissions(home, PosixFilePermissions.fromString("rwxrwxr-x"));
    Outcome outcome = run("good");
    assertEquals(1, outcome.code(), outcome.toString());
    assertRefused(outcome.err(), "others can write to " + home.toRealPath());
    Files.setPosixFilePermissions(home, PosixFilePermissions.fromString("rwxr-xr-x"));
    try (Inside product = new Inside()) {
      assertEquals(0, product.run("good").code());
    }
  }

  private static void refused(String why) throws Exception {
    try (Inside product = new Inside()) {
      assertRefused(product.told.toString(UTF_8), why);
      assertEquals(2, product.run("good").code());
    }
  }

  private static void assertRefused(String told, String why) {
    assertTrue(told.lines().findFirst().orElse("").contains(why), told);
    assertFalse(told.contains("\tat "), told);
  }

  private static CompletableFuture<Outcome> later(ProcessBuilder process) {
    return CompletableFuture.supplyAsync(
        () -> {
          try {
            return Installation.run(process);
          } catch (IOException | InterruptedException e) {
            throw new IllegalStateException(e);
          }
        });
  }
}
