package siltwright.launcher;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToIntFunction;
import org.apache.felix.framework.FrameworkFactory;
import org.osgi.framework.Bundle;
import org.osgi.framework.BundleContext;
import org.osgi.framework.BundleException;
import org.osgi.framework.Constants;
import org.osgi.framework.InvalidSyntaxException;
import org.osgi.framework.ServiceReference;
import org.osgi.framework.launch.Framework;
import org.osgi.framework.wiring.BundleRevision;
import org.osgi.framework.wiring.FrameworkWiring;

/** A feature whose bundles run on a framework of their own. */
public final class Product implements AutoCloseable {

  private static final String ENTRY = "(siltwright.entry=command)";
  private static final long STOP_LIMIT_MS = 2000;

  private final Framework framework;

  private Product(Framework framework) {
    this.framework = framework;
  }

  /**
   * Starts every bundle of a feature.
   *
   * @param feature what to start
   * @param folder where the bundles' jars are
   * @param storage a folder for the framework that no other process uses
   * @return the running product
   * @throws LaunchException if a jar is missing, or a bundle cannot be resolved or started; the
   *     message names it and what it lacks. Nothing is left running then
   */
  public static Product start(Feature feature, Path folder, Path storage) throws LaunchException {
    Map<String, String> settings = new HashMap<>();
    settings.put(Constants.FRAMEWORK_STORAGE, storage.toString());
    // faults are reported by this launcher; the libraries would mix them into the output
    settings.put("felix.log.level", "0");
    settings.put("ds.log.enabled", "false");
    Product product = new Product(new FrameworkFactory().newFramework(settings));
    try {
      product.framework.init();
      product.framework.start();
      product.startBundles(feature, folder);
      return product;
    } catch (BundleException e) {
      product.close();
      throw new LaunchException("the framework does not start: " + e.getMessage(), e);
    } catch (LaunchException | RuntimeException e) {
      product.close();
      throw e;
    }
  }

  private void startBundles(Feature feature, Path folder) throws LaunchException {
    List<Bundle> installed = new ArrayList<>();
    for (Feature.Artifact artifact : feature.bundles()) {
      installed.add(install(artifact, folder));
    }
    if (!framework.adapt(FrameworkWiring.class).resolveBundles(installed)) {
      throw new LaunchException(Diagnosis.ofUnresolved(context(), feature.id()));
    }
    for (Bundle bundle : installed) {
      boolean fragment =
          (bundle.adapt(BundleRevision.class).getTypes() & BundleRevision.TYPE_FRAGMENT) != 0;
      if (!fragment) {
        try {
          bundle.start();
        } catch (BundleException e) {
          throw new LaunchException(
              "bundle " + Diagnosis.name(bundle) + " does not start: " + Diagnosis.cause(e), e);
        }
      }
    }
  }

  private Bundle install(Feature.Artifact artifact, Path folder) throws LaunchException {
    Path jar = folder.resolve(artifact.fileName());
    if (!Files.isReadable(jar)) {
      throw new LaunchException(
          "bundle " + artifact.name() + " " + artifact.version() + " is missing: no file " + jar);
    }
    try {
      // by reference, so that nothing is copied
      return context().installBundle("reference:" + jar.toUri());
    } catch (BundleException e) {
      throw new LaunchException(
          "bundle " + jar.getFileName() + " cannot be installed: " + Diagnosis.cause(e), e);
    }
  }

  /** Returns the framework's own context. */
  public BundleContext context() {
    return framework.getBundleContext();
  }

  /**
   * Returns what keeps components from working: one text for each component of any bundle that
   * lacks a service or failed when it was made. Empty when all is well.
   */
  public List<String> faultyComponents() {
    return Diagnosis.ofComponents(context());
  }

  /**
   * Returns the service that takes the command line.
   *
   * @return a function from the arguments to the exit code
   * @throws LaunchException if there is none, or if any component lacks something
   */
  public ToIntFunction<String[]> entry() throws LaunchException {
    ToIntFunction<String[]> entry = null;
    try {
      for (ServiceReference<?> reference :
          context().getServiceReferences(ToIntFunction.class, ENTRY)) {
        if (entry != null) {
          throw new LaunchException("more than one bundle of the feature takes commands");
        }
        @SuppressWarnings("unchecked") // what the service property promises
        ToIntFunction<String[]> service = (ToIntFunction<String[]>) context().getService(reference);
        entry = service;
      }
    } catch (InvalidSyntaxException e) {
      throw new IllegalStateException(e); // the filter is a constant
    }
    List<String> faults = faultyComponents();
    if (!faults.isEmpty()) {
      throw new LaunchException(String.join(System.lineSeparator(), faults));
    }
    if (entry == null) {
      throw new LaunchException(
          "no bundle of the feature takes commands (service "
              + ToIntFunction.class.getName()
              + " with "
              + ENTRY
              + ")");
    }
    return entry;
  }

  /** Stops the framework, and waits for it a short time. */
  @Override
  public void close() {
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
