package siltwright.launcher;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.osgi.framework.Bundle;
import org.osgi.framework.BundleContext;

/**
 * What is installed, as maps of JDK types for the bundle that shows it: {@code name}, {@code
 * version}, {@code file}, {@code from} (the feature or an add-ons folder), {@code stage}, {@code
 * state}, {@code bundle} (its number, -1 without one), {@code services} (interfaces that its
 * component descriptions name, whether or not it runs), {@code lacks}, {@code signed}, {@code
 * threads}.
 */
final class Inventory {
  private static final Pattern PROVIDED = Pattern.compile("<provide interface=['\"]([^'\"]+)");

  private final Feature feature;
  private final Path folder;
  private final BundleContext context;
  private final Function<Path, String> location;

  /**
   * @param location where a jar's bundle is installed from
   */
  Inventory(Feature feature, Path folder, BundleContext context, Function<Path, String> location) {
    this.feature = feature;
    this.folder = folder;
    this.context = context;
    this.location = location;
  }

  /** Returns a map for each bundle of the feature, in its order, and for each add-on. */
  List<Map<String, Object>> bundles(List<AddOn> addOns) {
    List<Map<String, Object>> all = new ArrayList<>();
    for (Feature.Artifact artifact : feature.bundles()) {
      Path jar = folder.resolve(artifact.fileName());
      Map<String, Object> of = ofJar(jar, context.getBundle(location.apply(jar)));
      of.put("from", "feature " + feature.id());
      of.put("stage", artifact.stage().word());
      all.add(of);
    }
    for (AddOn addOn : addOns) {
      Map<String, Object> of = ofJar(addOn.file(), addOn.bundle());
      of.put("from", addOn.file().getParent().toString());
      of.put("stage", "add-on");
      of.put("state", addOn.state().words());
      of.put("lacks", addOn.why());
      of.put("threads", (long) addOn.threads());
      of.put(
          "signed",
          addOn.signature().names().isEmpty()
              ? "no"
              : String.join(" and ", addOn.signature().names())
                  + (addOn.trusted() ? ", trusted" : ", not known to be trusted"));
      all.add(of);
    }
    return all;
  }

  private Map<String, Object> ofJar(Path jar, Bundle bundle) {
    Map<String, Object> of = new LinkedHashMap<>();
    of.put("name", jar.getFileName().toString());
    of.put("version", "");
    of.put("file", jar.toString());
    of.put("bundle", bundle == null ? -1L : bundle.getBundleId());
    of.put("state", state(bundle));
    of.put("lacks", bundle == null ? "" : lacks(bundle));
    of.put("signed", "");
    of.put("threads", 0L);
    List<String> services = new ArrayList<>();
    of.put("services", services);
    try (JarFile file = new JarFile(jar.toFile(), false)) {
      if (file.getManifest() == null) {
        return of;
      }
      String name = file.getManifest().getMainAttributes().getValue("Bundle-SymbolicName");
      String version = file.getManifest().getMainAttributes().getValue("Bundle-Version");
      String components = file.getManifest().getMainAttributes().getValue("Service-Component");
      of.put("name", name == null ? jar.getFileName().toString() : name.split(";")[0].strip());
      of.put("version", version == null ? "" : version);
      for (String description : components == null ? new String[0] : components.split(",")) {
        JarEntry entry = file.getJarEntry(description.strip());
        if (entry != null) {
          addServices(file, entry, services);
        }
      }
    } catch (IOException e) {
      of.put("lacks", "it cannot be read: " + e.getMessage());
    }
    return of;
  }

  private static void addServices(JarFile file, JarEntry entry, List<String> services)
      throws IOException {
    try (InputStream in = file.getInputStream(entry)) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      Matcher provided = PROVIDED.matcher(text);
      while (provided.find()) {
        services.add(provided.group(1));
      }
    }
  }

  private String lacks(Bundle bundle) {
    if (bundle.getState() == Bundle.INSTALLED) {
      return String.join(", and ", Diagnosis.missing(context, bundle));
    }
    return bundle.getState() == Bundle.ACTIVE
        ? String.join("; ", Diagnosis.ofComponents(context, bundle))
        : "";
  }

  private static String state(Bundle bundle) {
    if (bundle == null) {
      return "waits for its stage";
    }
    return switch (bundle.getState()) {
      case Bundle.ACTIVE -> "active";
      case Bundle.RESOLVED -> "library, not started";
      case Bundle.INSTALLED -> "lacks something";
      default -> "starts or stops";
    };
  }
}
