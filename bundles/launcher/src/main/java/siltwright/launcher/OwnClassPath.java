package siltwright.launcher;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.net.URISyntaxException;
import java.nio.file.FileSystemNotFoundException;
import java.nio.file.Path;
import java.security.CodeSource;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.osgi.framework.Bundle;
import org.osgi.framework.BundleActivator;
import org.osgi.framework.BundleContext;
import org.osgi.framework.connect.ConnectContent;
import org.osgi.framework.connect.ConnectModule;
import org.osgi.framework.connect.FrameworkUtilHelper;
import org.osgi.framework.connect.ModuleConnector;

/**
 * The bundles of a feature where the JVM was started with just their jars on its class path: their
 * classes come from there (OSGi Core 8, chapter 60, Connect), since the JVM's class archive keeps
 * only such classes with all that belongs to them. Otherwise, and for add-ons always, each bundle
 * has a class loader of its own. What a bundle imports and exports is resolved the same either way.
 */
public final class OwnClassPath implements ModuleConnector, FrameworkUtilHelper {
  private static final String SCHEME = "class-path:";

  private static volatile BundleContext running;

  /**
   * Returns whether the class path holds these jars beside the launcher's own and nothing else: a
   * bundle that has its classes from there finds no others, nor an older version of its own.
   */
  static boolean isOf(Collection<Path> bundles) {
    Set<Path> jars =
        Arrays.stream(System.getProperty("java.class.path").split(File.pathSeparator))
            .map(Path::of)
            .collect(Collectors.toSet());
    // the launcher's own is the one more
    return jars.size() == bundles.size() + 1 && jars.containsAll(bundles);
  }

  /** Returns where a bundle is installed from so that its classes come from the class path. */
  static String location(Path jar) {
    return SCHEME + jar;
  }

  @Override
  public void initialize(File storage, Map<String, String> configuration) {
    // nothing is kept
  }

  @Override
  public Optional<ConnectModule> connect(String location) {
    return location.startsWith(SCHEME)
        ? Optional.of(new Module(new File(location.substring(SCHEME.length()))))
        : Optional.empty();
  }

  @Override
  public Optional<BundleActivator> newBundleActivator() {
    return Optional.of(
        new BundleActivator() {
          @Override
          public void start(BundleContext framework) {
            running = framework;
          }

          @Override
          public void stop(BundleContext framework) {
            running = null;
          }
        });
  }

  /** Tells a library that asks which bundle its class is of; the JVM's own loader does not know. */
  @Override
  public Optional<Bundle> getBundle(Class<?> of) {
    BundleContext framework = running;
    CodeSource source = of.getProtectionDomain().getCodeSource();
    if (framework == null || source == null || source.getLocation() == null) {
      return Optional.empty();
    }
    try {
      return Optional.ofNullable(
          framework.getBundle(location(Path.of(source.getLocation().toURI()))));
    } catch (URISyntaxException | IllegalArgumentException | FileSystemNotFoundException e) {
      return Optional.empty(); // not of a file
    }
  }

  /** A jar that is open as long as its bundle is installed. */
  private static final class Module implements ConnectModule, ConnectContent {
    private final File file;
    private ZipFile jar;

    Module(File file) {
      this.file = file;
    }

    @Override
    public ConnectContent getContent() {
      return this;
    }

    @Override
    public void open() throws IOException {
      jar = new ZipFile(file);
    }

    @Override
    public void close() throws IOException {
      jar.close();
    }

    @Override
    public Optional<Map<String, String>> getHeaders() {
      return Optional.empty(); // those of the manifest
    }

    @Override
    public Iterable<String> getEntries() {
      List<String> names = new ArrayList<>(jar.size());
      jar.entries().asIterator().forEachRemaining(e -> names.add(e.getName()));
      return names;
    }

    @Override
    public Optional<ConnectEntry> getEntry(String path) {
      ZipEntry entry = jar.getEntry(path);
      return entry == null ? Optional.empty() : Optional.of(new Entry(jar, entry));
    }

    @Override
    public Optional<ClassLoader> getClassLoader() {
      return Optional.of(OwnClassPath.class.getClassLoader());
    }
  }

  private record Entry(ZipFile jar, ZipEntry entry) implements ConnectContent.ConnectEntry {
    @Override
    public String getName() {
      return entry.getName();
    }

    @Override
    public long getContentLength() {
      return entry.getSize();
    }

    @Override
    public long getLastModified() {
      return entry.getTime();
    }

    @Override
    public InputStream getInputStream() throws IOException {
      return jar.getInputStream(entry);
    }
  }
}
