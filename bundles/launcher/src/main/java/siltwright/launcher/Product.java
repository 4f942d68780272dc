package siltwright.launcher;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Hashtable;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import java.util.function.Supplier;
import java.util.function.ToIntFunction;
import org.apache.felix.framework.FrameworkFactory;
import org.osgi.framework.Bundle;
import org.osgi.framework.BundleContext;
import org.osgi.framework.BundleException;
import org.osgi.framework.Constants;
import org.osgi.framework.InvalidSyntaxException;
import org.osgi.framework.ServiceReference;
import org.osgi.framework.launch.Framework;
import org.osgi.framework.wiring.BundleCapability;
import org.osgi.framework.wiring.BundleRevision;
import org.osgi.framework.wiring.FrameworkWiring;

/** A feature whose bundles run on a framework of their own. */
public final class Product implements AutoCloseable {

  private static final String ENTRY = "siltwright.entry";
  private static final String COMMAND = "command";
  private static final String WINDOW = "window";
  private static final String OPEN = "open";
  private static final String REST = "rest";
  private static final String PRODUCT = "product";
  private static final String DOCUMENTS = "documents";
  private static final long STOP_LIMIT_MS = 2000;

  /** Declared by a bundle for each command that it brings; its attribute has the same name. */
  private static final String BRINGS = "siltwright.command";

  private final Framework framework;
  private final Feature feature;
  private final Path folder;
  private final Path storage;
  private final boolean onClassPath;
  private List<Path> addOnFolders = List.of();
  private Path addOnPolicy;
  private volatile AddOns addOns;
  private final Set<Feature.Stage> started = EnumSet.noneOf(Feature.Stage.class);
  private final Set<String> leftOut = new LinkedHashSet<>();
  private volatile boolean waiting;

  /** Bundles that are to be started once they are needed, in the feature's order. */
  private final List<Bundle> startable = new ArrayList<>();

  /** The one command that is asked for, or empty where all may be. */
  private Optional<String> command;

  private Product(
      Framework framework, Feature feature, Path folder, Path storage, Optional<String> command) {
    this.framework = framework;
    this.command = command;
    this.feature = feature;
    this.folder = folder;
    this.storage = storage;
    onClassPath =
        OwnClassPath.isOf(
            feature.bundles().stream().map(a -> folder.resolve(a.fileName())).toList());
  }

  /**
   * Starts the bundles of a feature that are needed from the start; the command line can have those
   * of later stages started. A bundle that cannot be resolved or started is told on standard error
   * with what it lacks, and left out: what does not build on it works without it.
   *
   * @param feature what to start
   * @param folder where the bundles' jars are
   * @param storage a folder for the framework that no other process uses
   * @return the running product
   * @throws LaunchException if a jar is missing or is no bundle, or the framework does not start;
   *     nothing is left running then
   */
  public static Product start(Feature feature, Path folder, Path storage) throws LaunchException {
    return startFor(feature, folder, storage, framework(storage), Optional.empty());
  }

  /**
   * Starts a framework without bundles. It needs nothing of a feature, so the feature can be read
   * meanwhile.
   *
   * @param storage a folder for the framework that no other process uses
   * @return the running framework
   * @throws LaunchException if it does not start; nothing is left running then
   */
  static Framework framework(Path storage) throws LaunchException {
    Map<String, String> settings = new HashMap<>();
    settings.put(Constants.FRAMEWORK_STORAGE, storage.toString());
    // faults are reported by this launcher; the libraries would mix them into the output
    settings.put("felix.log.level", "0");
    settings.put("ds.log.enabled", "false");
    // what a bundle does not import is not there for it, whatever is on the JVM's class path
    settings.put("felix.bootdelegation.implicit", "false");
    Framework framework = new FrameworkFactory().newFramework(settings, new OwnClassPath());
    try {
      framework.init();
      framework.start();
      return framework;
    } catch (BundleException e) {
      stop(framework);
      throw new LaunchException("the framework does not start: " + e.getMessage(), e);
    }
  }

  /**
   * Starts what one command needs: bundles that declare to bring other commands are installed, but
   * not started unless this one builds on them. Where none brings it, all are.
   *
   * @param feature what to start
   * @param folder where the bundles' jars are
   * @param storage the framework's folder
   * @param framework a running one without bundles; stopped if this fails
   * @param command the command's name, or empty for all
   * @return the running product
   * @throws LaunchException as {@link #start}
   */
  static Product startFor(
      Feature feature, Path folder, Path storage, Framework framework, Optional<String> command)
      throws LaunchException {
    return start(new Product(framework, feature, folder, storage, command), false);
  }

  /**
   * Starts only the bundles whose entries have a place in the starting order: the component runtime
   * and what the window itself is made of. The window has the others started once it is shown.
   *
   * @param feature what to start; has bundles for a window
   * @param folder as above
   * @param storage as above
   * @return the running product
   * @throws LaunchException as above
   */
  public static Product startWindowFirst(Feature feature, Path folder, Path storage)
      throws LaunchException {
    return startWindowFirst(feature, folder, storage, framework(storage));
  }

  /** Does the same on a framework that runs, and that is stopped if this fails. */
  static Product startWindowFirst(Feature feature, Path folder, Path storage, Framework framework)
      throws LaunchException {
    return start(new Product(framework, feature, folder, storage, Optional.empty()), true);
  }

  private static Product start(Product product, boolean windowFirst) throws LaunchException {
    try {
      if (windowFirst) {
        product.startFirst();
      } else {
        product.startBundles(Feature.Stage.START);
      }
      product.offer();
      return product;
    } catch (LaunchException | RuntimeException e) {
      product.close();
      throw e;
    }
  }

  private void startBundles(Feature.Stage stage) throws LaunchException {
    if (!started.add(stage)) {
      return;
    }
    for (Feature.Artifact artifact : feature.bundles()) {
      if (artifact.stage() == stage) {
        install(artifact);
      }
    }
    if (startable.stream().noneMatch(b -> brings(b).stream().anyMatch(this::isAskedFor))) {
      command = Optional.empty();
    }
    startNeeded();
  }

  private void startFirst() throws LaunchException {
    for (Feature.Artifact artifact : feature.bundles()) {
      // one that is missing is told at once, not when the window is there
      jar(artifact);
      if (artifact.startOrder() != Integer.MAX_VALUE) {
        install(artifact);
      }
    }
    started.addAll(EnumSet.allOf(Feature.Stage.class));
    waiting = true;
    if (framework.adapt(FrameworkWiring.class).resolveBundles(startable)) {
      startNeeded();
      offer(
          REST,
          Runnable.class,
          new Runnable() {
            @Override
            public void run() {
              startRestFor();
            }
          });
    } else {
      // what it lacks may be among the others
      startRest();
    }
  }

  /** Starts the rest for the window, which is there and stays whatever becomes of that. */
  private void startRestFor() {
    try {
      startRest();
    } catch (LaunchException e) {
      System.err.println("siltwright: " + e.getMessage());
    } catch (IllegalStateException e) {
      // the window was closed, and the framework stopped
    }
  }

  /** Installs and starts the bundles that {@link #startWindowFirst} left, and the add-ons. */
  private void startRest() throws LaunchException {
    waiting = false;
    startable.clear();
    for (Feature.Artifact artifact : feature.bundles()) {
      install(artifact);
    }
    startNeeded();
    if (addOns != null) {
      addOns.start();
    }
    leaveOut(faultyComponents());
    watchAddOns();
  }

  /** Starts what is needed and not yet started, and what that builds on. */
  private void startNeeded() {
    List<Bundle> needed = startable.stream().filter(this::isNeeded).toList();
    if (!framework.adapt(FrameworkWiring.class).resolveBundles(needed)) {
      leaveOut(Diagnosis.ofUnresolved(context(), feature.id()));
    }
    for (Bundle bundle : startable) {
      boolean fragment =
          (bundle.adapt(BundleRevision.class).getTypes() & BundleRevision.TYPE_FRAGMENT) != 0;
      if (bundle.getState() == Bundle.RESOLVED && !fragment) {
        try {
          bundle.start();
        } catch (BundleException e) {
          leaveOut(
              List.of(
                  "bundle " + Diagnosis.name(bundle) + " does not start: " + Diagnosis.cause(e)));
        }
      }
    }
  }

  private boolean isNeeded(Bundle bundle) {
    Set<String> brought = brings(bundle);
    return brought.isEmpty() || brought.stream().anyMatch(this::isAskedFor);
  }

  private boolean isAskedFor(String name) {
    return command.map(name::equals).orElse(true);
  }

  /** Returns the commands that a bundle declares to bring. */
  private static Set<String> brings(Bundle bundle) {
    Set<String> commands = new HashSet<>();
    for (BundleCapability c : bundle.adapt(BundleRevision.class).getDeclaredCapabilities(BRINGS)) {
      commands.add(String.valueOf(c.getAttributes().get(BRINGS)));
    }
    return commands;
  }

  /** Starts what was left for other commands. */
  private void startAll() {
    command = Optional.empty();
    startNeeded();
  }

  /** Tells what the product has to do without, each thing once. */
  private void leaveOut(List<String> lines) {
    for (String line : lines) {
      if (leftOut.add(line)) {
        System.err.println("siltwright: " + line);
      }
    }
  }

  private Path jar(Feature.Artifact artifact) throws LaunchException {
    Path jar = folder.resolve(artifact.fileName());
    if (!Files.isReadable(jar)) {
      throw new LaunchException(
          "bundle " + artifact.name() + " " + artifact.version() + " is missing: no file " + jar);
    }
    return jar;
  }

  private void install(Feature.Artifact artifact) throws LaunchException {
    Path jar = jar(artifact);
    try {
      Bundle bundle = context().installBundle(location(jar));
      if (artifact.started()) {
        startable.add(bundle);
      }
    } catch (BundleException e) {
      throw new LaunchException(
          "bundle " + jar.getFileName() + " cannot be installed: " + Diagnosis.cause(e), e);
    }
  }

  private String location(Path jar) {
    return onClassPath ? OwnClassPath.location(jar) : reference(jar);
  }

  /**
   * Returns where a bundle with a loader of its own is installed from, so that it is not copied.
   */
  static String reference(Path jar) {
    return "reference:" + jar.toUri();
  }

  /** Returns whether nothing of the feature had to be left out so far. */
  public boolean isWhole() {
    return leftOut.isEmpty();
  }

  /** Returns whether the feature has bundles for a window. */
  public boolean hasWindow() {
    return feature.has(Feature.Stage.WINDOW);
  }

  /**
   * Tells which product this is, and lets the command line reach later stages, without anything of
   * them being there before.
   */
  private void offer() {
    offer(
        PRODUCT,
        Supplier.class,
        new Supplier<Map<String, String>>() {
          @Override
          public Map<String, String> get() {
            String[] id = feature.id().split(":");
            return Map.of(
                "version",
                id[id.length - 1],
                "feature",
                id[id.length - 2],
                "home",
                folder.toAbsolutePath().getParent().toString());
          }
        });
    if (feature.has(Feature.Stage.DOCUMENTS)) {
      offer(
          DOCUMENTS,
          new ToIntFunction<>() {
            @Override
            public int applyAsInt(String[] none) {
              return addDocuments();
            }
          });
    }
    if (hasWindow()) {
      offer(
          OPEN,
          new ToIntFunction<>() {
            @Override
            public int applyAsInt(String[] arguments) {
              return open(arguments);
            }
          });
    }
  }

  private void offer(String name, ToIntFunction<String[]> entry) {
    offer(name, ToIntFunction.class, entry);
  }

  private <T> void offer(String name, Class<T> type, T service) {
    Hashtable<String, Object> properties = new Hashtable<>();
    properties.put(ENTRY, name);
    context().registerService(type, service, properties);
  }

  /** Starts the bundles that write documents; the exit code if they do not start, else 0. */
  private int addDocuments() {
    try {
      startBundles(Feature.Stage.DOCUMENTS);
      leaveOut(faultyComponents());
      return 0;
    } catch (LaunchException e) {
      System.err.println("siltwright: " + e.getMessage());
      return 1;
    }
  }

  /**
   * Starts the bundles of all stages; the window is not opened yet. The folders of add-ons are
   * followed from then on.
   *
   * @throws LaunchException as {@link #start} does
   */
  public void startWindow() throws LaunchException {
    if (!started.contains(Feature.Stage.WINDOW)) {
      startAll();
      startBundles(Feature.Stage.DOCUMENTS);
      startBundles(Feature.Stage.WINDOW);
      watchAddOns();
    }
  }

  private void watchAddOns() throws LaunchException {
    if (!addOnFolders.isEmpty()) {
      if (addOns == null) {
        makeAddOns();
      }
      addOns.watch();
    }
  }

  /**
   * Opens the window and returns when it is closed.
   *
   * @param arguments a file, or nothing
   * @return the exit code
   */
  int open(String[] arguments) {
    try {
      Display.check();
      startWindow();
      return entry(WINDOW).applyAsInt(arguments);
    } catch (LaunchException e) {
      System.err.println("siltwright: " + e.getMessage());
      return 1;
    }
  }

  /**
   * Starts what lies in the add-on folders; what does not start is told and left out. Where nothing
   * lies there, nothing that deals with add-ons is loaded until the window is opened.
   *
   * @param folders the folders; need not exist
   * @param policy a file that says which are taken; need not exist
   * @throws LaunchException if the policy is at fault
   */
  public void startAddOns(List<Path> folders, Path policy) throws LaunchException {
    addOnFolders = List.copyOf(folders);
    addOnPolicy = policy;
    offer(
        "bundles",
        Supplier.class,
        new Supplier<List<Map<String, Object>>>() {
          @Override
          public List<Map<String, Object>> get() {
            List<AddOn> all = addOns == null ? List.of() : addOns.list();
            return new Inventory(feature, folder, context(), Product.this::location).bundles(all);
          }
        });
    offer(
        "addons",
        BiFunction.class,
        new BiFunction<Map<String, Object>, Callable<Object>, Object>() {
          @Override
          public Object apply(Map<String, Object> request, Callable<Object> task) {
            return addOns == null ? null : new AddOnCalls(addOns).apply(request, task);
          }
        });
    boolean any = Files.exists(policy);
    for (Path place : folders) {
      String[] names = place.toFile().list();
      // one that cannot be read has to be told
      any |= names == null ? Files.isDirectory(place) : names.length > 0;
    }
    if (any) {
      // an add-on may build on everything
      startAll();
      makeAddOns();
      if (!waiting) {
        addOns.start();
      }
    }
  }

  private void makeAddOns() throws LaunchException {
    addOns =
        new AddOns(
            context(),
            addOnFolders,
            storage.resolveSibling("admitted"),
            AddOnPolicy.read(addOnPolicy),
            new LaterPackages(feature, folder));
  }

  /** Returns the framework's own context. */
  public BundleContext context() {
    return framework.getBundleContext();
  }

  /**
   * Returns what keeps components from working: one text for each component of the feature's
   * bundles that lacks a service or failed when it was made. Empty when all is well.
   */
  public List<String> faultyComponents() {
    if (addOns == null || addOns.list().isEmpty()) {
      return Diagnosis.ofComponents(context());
    }
    List<Bundle> own = new ArrayList<>();
    for (Bundle bundle : context().getBundles()) {
      if (addOns.of(bundle.getBundleId()) == null) {
        own.add(bundle);
      }
    }
    return Diagnosis.ofComponents(context(), own.toArray(new Bundle[0]));
  }

  /**
   * Returns the service that takes the command line.
   *
   * @return a function from the arguments to the exit code
   * @throws LaunchException if there is none
   */
  public ToIntFunction<String[]> entry() throws LaunchException {
    return entry(COMMAND);
  }

  /** Returns the service that opens the window, given a file or nothing, and waits for its end. */
  public ToIntFunction<String[]> window() throws LaunchException {
    return entry(WINDOW);
  }

  private ToIntFunction<String[]> entry(String name) throws LaunchException {
    String filter = "(" + ENTRY + "=" + name + ")";
    ToIntFunction<String[]> entry = null;
    try {
      for (ServiceReference<?> reference :
          context().getServiceReferences(ToIntFunction.class, filter)) {
        if (entry != null) {
          throw new LaunchException("more than one bundle of the feature takes " + name + "s");
        }
        @SuppressWarnings("unchecked") // what the service property promises
        ToIntFunction<String[]> service = (ToIntFunction<String[]>) context().getService(reference);
        entry = service;
      }
    } catch (InvalidSyntaxException e) {
      throw new IllegalStateException(e); // the names are constants
    }
    if (!waiting) {
      // else told once the rest is there
      leaveOut(faultyComponents());
    }
    if (entry == null) {
      throw new LaunchException(
          "no bundle of the feature takes "
              + name
              + "s (service "
              + ToIntFunction.class.getName()
              + " with "
              + filter
              + ")");
    }
    return entry;
  }

  /** Stops the framework, and waits for it a short time. */
  @Override
  public void close() {
    if (addOns != null) {
      addOns.close();
    }
    stop(framework);
  }

  /**
   * Lets go of the product where the process ends next: add-ons are stopped as they may expect,
   * while the product's own bundles hold nothing that a command has not closed itself.
   */
  void leave() {
    if (addOns != null) {
      close();
    }
  }

  private static void stop(Framework framework) {
    try {
      framework.stop();
      framework.waitForStop(STOP_LIMIT_MS);
    } catch (BundleException e) {
      // it is on its way out anyway
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
