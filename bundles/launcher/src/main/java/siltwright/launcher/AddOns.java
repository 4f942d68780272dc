package siltwright.launcher;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Predicate;
import org.osgi.framework.Bundle;
import org.osgi.framework.BundleContext;
import org.osgi.framework.BundleException;
import org.osgi.framework.ServiceReference;
import org.osgi.framework.hooks.service.EventListenerHook;
import org.osgi.framework.hooks.service.FindHook;
import org.osgi.framework.hooks.weaving.WeavingHook;

/**
 * Bundles that users drop into a folder: beside the product, or in their own data folder. A command
 * takes them as they lie there; the window looks again and again, and follows what is added,
 * replaced and removed.
 *
 * <p>What is looked at is a copy that only this user can write to, so that what was checked is what
 * runs. An add-on first starts where nobody sees its services, in a thread of its own and for a
 * limited time; only one that gets through is shown to the rest.
 */
final class AddOns {
  private static final long POLL_MS = 500;
  private static final long STOP_LIMIT_MS = 2000;

  private final BundleContext context;
  private final List<Path> folders;
  private final Path copies;
  private final AddOnPolicy policy;
  private final Predicate<String> comesLater;
  private final PrintStream out;
  private final PrintStream err;
  private final Hiding hiding = new Hiding();
  private final Map<Path, AddOn> byFile = new TreeMap<>();
  private final Map<Path, AddOn.Stamp> seen = new HashMap<>();
  private final Set<String> told = new HashSet<>();
  private boolean prepared;
  private int copied;
  private volatile Thread watch;

  /**
   * Makes the add-ons; none is started yet.
   *
   * @param context the framework's own
   * @param folders where add-ons are looked for; need not exist
   * @param copies a folder for copies, which only this user can write to
   * @param policy which are taken
   * @param comesLater whether a package that is missing now comes with a later stage
   */
  AddOns(
      BundleContext context,
      List<Path> folders,
      Path copies,
      AddOnPolicy policy,
      Predicate<String> comesLater) {
    this.context = context;
    this.folders = List.copyOf(folders);
    this.copies = copies;
    this.policy = policy;
    this.comesLater = comesLater;
    this.out = System.out;
    this.err = System.err;
  }

  /** Returns all that were found, by file. */
  synchronized List<AddOn> list() {
    return List.copyOf(byFile.values());
  }

  /** Returns the add-on that a bundle belongs to; null if the bundle is the product's own. */
  synchronized AddOn of(long bundle) {
    for (AddOn addOn : byFile.values()) {
      Bundle its = addOn.bundle();
      if (its != null && its.getBundleId() == bundle) {
        return addOn;
      }
    }
    return null;
  }

  AddOnPolicy policy() {
    return policy;
  }

  /** Starts what lies there now. */
  void start() {
    look(false);
  }

  /**
   * Starts what waited for the window, and follows the folders from then on, in a thread of its
   * own; folders are made where they can.
   */
  void watch() {
    for (Path folder : folders) {
      try {
        Files.createDirectories(folder);
      } catch (IOException e) {
        // a product folder that is not the user's to write to
      }
    }
    look(false);
    watch =
        new Thread("siltwright-addons") {
          @Override
          public void run() {
            try {
              while (!isInterrupted()) {
                look(true);
                sleep(POLL_MS);
              }
            } catch (InterruptedException e) {
              // the end
            }
          }
        };
    watch.setDaemon(true);
    watch.start();
  }

  /** Stops following; the standard streams are again what they were. */
  synchronized void close() {
    if (watch != null) {
      watch.interrupt();
    }
    if (prepared) {
      System.setOut(out);
      System.setErr(err);
    }
  }

  /**
   * Takes what changed since the last look. Holds no lock while add-ons start or stop: it is asked
   * for as their classes are loaded.
   *
   * @param settled take a file only once it has stayed the same for a while: it may be half written
   */
  private void look(boolean settled) {
    Map<Path, AddOn.Stamp> found = found();
    for (AddOn addOn : list()) {
      if (!addOn.stamp().equals(found.get(addOn.file()))) {
        uninstall(addOn);
      }
    }
    List<AddOn> fresh = new ArrayList<>();
    synchronized (this) {
      for (Map.Entry<Path, AddOn.Stamp> file : found.entrySet()) {
        boolean same = file.getValue().equals(seen.put(file.getKey(), file.getValue()));
        if (!byFile.containsKey(file.getKey()) && (same || !settled)) {
          AddOn addOn = new AddOn(file.getKey(), file.getValue(), err);
          byFile.put(file.getKey(), addOn);
          fresh.add(addOn);
        }
      }
      seen.keySet().retainAll(found.keySet());
    }
    if (!fresh.isEmpty() && !prepared) {
      prepared = true;
      prepare();
    }
    fresh.forEach(this::install);
    for (AddOn addOn : list()) {
      if (addOn.bundle() != null && addOn.state() == AddOn.State.WAITS) {
        start(addOn);
      }
    }
  }

  private Map<Path, AddOn.Stamp> found() {
    Map<Path, AddOn.Stamp> found = new TreeMap<>();
    for (Path folder : folders) {
      if (!Files.isDirectory(folder)) {
        continue;
      }
      try (DirectoryStream<Path> jars = Files.newDirectoryStream(folder, "*.jar")) {
        for (Path jar : jars) {
          BasicFileAttributes a = Files.readAttributes(jar, BasicFileAttributes.class);
          found.put(jar, new AddOn.Stamp(a.size(), a.lastModifiedTime().toMillis(), a.fileKey()));
        }
      } catch (IOException e) {
        tell("add-ons in " + folder + " cannot be read: " + e);
      }
    }
    return found;
  }

  /** Only where there is an add-on: the usual start pays nothing for it. */
  private void prepare() {
    context.registerService(
        new String[] {FindHook.class.getName(), EventListenerHook.class.getName()}, hiding, null);
    context.registerService(
        WeavingHook.class, new ForbiddenCalls(bundle -> of(bundle) != null), null);
    System.setOut(AddOnOutput.before(out));
    System.setErr(AddOnOutput.before(err));
  }

  private void install(AddOn addOn) {
    try {
      String unsafe = Places.fault(addOn.file());
      if (unsafe != null) {
        leaveOut(addOn, unsafe);
        return;
      }
      Files.createDirectories(copies);
      Path copy = copies.resolve(++copied + "-" + addOn.file().getFileName());
      Files.copy(addOn.file(), copy);
      Signature signature = Signature.read(copy);
      addOn.signed(signature, policy.trusts(signature));
      if (policy.signedOnly() && !addOn.trusted()) {
        leaveOut(
            addOn,
            signature.names().isEmpty()
                ? "it is not signed, and only signed ones are taken here"
                : "it is signed by "
                    + String.join(" and ", signature.names())
                    + ", whom no trusted certificate vouches for");
        return;
      }
      Bundle bundle = context.installBundle(Product.reference(copy));
      hiding.hide(bundle.getBundleId());
      addOn.installed(bundle);
      if (bundle.getSymbolicName() == null) {
        leaveOut(addOn, "it is no bundle: its manifest has no Bundle-SymbolicName");
        await(end(bundle));
      }
    } catch (SecurityException e) {
      leaveOut(addOn, "its content is not what was signed: " + e.getMessage());
    } catch (IOException e) {
      leaveOut(addOn, "it cannot be read: " + e.getMessage());
    } catch (BundleException e) {
      leaveOut(addOn, Diagnosis.cause(e));
    }
  }

  /** Starts it out of sight; shows it if it gets through. */
  private void start(AddOn addOn) {
    Bundle bundle = addOn.bundle();
    List<String> missing = Diagnosis.missing(context, bundle);
    if (!missing.isEmpty()) {
      if (missing.stream().allMatch(comesLater)) {
        addOn.become(AddOn.State.WAITS, "needs " + String.join(", and ", missing));
      } else {
        leaveOut(addOn, "it needs " + String.join(", and ", missing) + ", which nothing provides");
      }
      return;
    }
    AtomicReference<String> fault = new AtomicReference<>();
    Thread trial =
        addOn.thread(
            () -> {
              try {
                fault.set(tried(bundle));
              } catch (Throwable e) { // whatever it throws, it is the add-on's
                fault.set("it does not start: " + Diagnosis.cause(e));
              }
            });
    trial.start();
    try {
      trial.join(policy.startLimit().toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    if (trial.isAlive()) {
      // its end would wait for the start that hangs, so nobody waits for its end
      putAside(addOn, "it did not start within " + policy.startLimit().toSeconds() + " s");
    } else if (fault.get() != null) {
      setAside(addOn, fault.get());
    } else {
      addOn.become(AddOn.State.ACTIVE, "");
    }
  }

  /** Returns what is wrong with it; null if nothing is, and it is active and seen. */
  private String tried(Bundle bundle) throws BundleException {
    bundle.start();
    makeServices(bundle);
    List<String> faults = Diagnosis.ofComponents(context, bundle);
    if (!faults.isEmpty()) {
      return String.join("; ", faults);
    }
    bundle.stop();
    hiding.show(bundle.getBundleId());
    bundle.start();
    makeServices(bundle); // and keep them, so that nobody else's thread has to make them
    return null;
  }

  private void makeServices(Bundle bundle) {
    ServiceReference<?>[] services = bundle.getRegisteredServices();
    if (services != null) {
      for (ServiceReference<?> service : services) {
        context.getService(service);
      }
    }
  }

  /** Stops an add-on that did something it must not, and keeps it away until its file changes. */
  void setAside(AddOn addOn, String why) {
    await(putAside(addOn, why));
  }

  /** Returns the thread that stops it. */
  private Thread putAside(AddOn addOn, String why) {
    hiding.hide(addOn.bundle().getBundleId());
    leaveOut(addOn, why);
    addOn.interrupt();
    return end(addOn.bundle());
  }

  private void leaveOut(AddOn addOn, String why) {
    addOn.become(AddOn.State.SET_ASIDE, why);
    tell("add-on " + addOn.name() + " (" + addOn.file() + ") is set aside: " + why);
  }

  private synchronized void tell(String line) {
    if (told.add(line)) {
      err.println("siltwright: " + line);
    }
  }

  private void uninstall(AddOn addOn) {
    addOn.interrupt();
    if (addOn.bundle() != null && addOn.bundle().getState() != Bundle.UNINSTALLED) {
      await(end(addOn.bundle()));
    }
    synchronized (this) {
      byFile.remove(addOn.file());
      told.removeIf(line -> line.contains("(" + addOn.file() + ")"));
    }
    addOn.forget();
  }

  /** Ends a bundle in a thread of its own: one that hangs would take the caller along. */
  private static Thread end(Bundle bundle) {
    Thread end =
        new Thread("siltwright-addon-end") {
          @Override
          public void run() {
            try {
              bundle.uninstall();
            } catch (BundleException | IllegalStateException e) {
              // it stays hidden
            }
          }
        };
    end.setDaemon(true);
    end.start();
    return end;
  }

  private static void await(Thread end) {
    try {
      end.join(STOP_LIMIT_MS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
