package siltwright.launcher;

import java.lang.reflect.Array;
import java.lang.reflect.Method;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.osgi.framework.Bundle;
import org.osgi.framework.BundleContext;
import org.osgi.framework.BundleException;
import org.osgi.framework.ServiceReference;
import org.osgi.framework.namespace.ExecutionEnvironmentNamespace;
import org.osgi.framework.namespace.PackageNamespace;
import org.osgi.framework.wiring.BundleCapability;
import org.osgi.framework.wiring.BundleRequirement;
import org.osgi.framework.wiring.BundleRevision;
import org.osgi.resource.Namespace;

/**
 * Says why something did not start.
 *
 * <p>The framework's own message follows one chain of requirements and stops at the first. Here the
 * roots are looked for instead: every requirement that no bundle at all could meet.
 */
final class Diagnosis {

  private static final String SCR = "org.osgi.service.component.runtime.ServiceComponentRuntime";

  // ComponentConfigurationDTO's constants; its class belongs to a bundle and is not shared
  private static final int UNSATISFIED_CONFIGURATION = 1;
  private static final int UNSATISFIED_REFERENCE = 2;
  private static final int FAILED_ACTIVATION = 16;

  private Diagnosis() {}

  /** Returns lines that name each bundle that does not resolve, with what it lacks. */
  static List<String> ofUnresolved(BundleContext context, String feature) {
    List<BundleRevision> revisions = new ArrayList<>();
    for (Bundle bundle : context.getBundles()) {
      revisions.add(bundle.adapt(BundleRevision.class));
    }
    List<String> lines = new ArrayList<>();
    List<String> dependent = new ArrayList<>();
    for (BundleRevision revision : revisions) {
      if (revision.getBundle().getState() != Bundle.INSTALLED) {
        continue;
      }
      List<String> missing = missing(revision, revisions);
      if (missing.isEmpty()) {
        dependent.add(name(revision.getBundle()));
      } else {
        lines.add(
            "bundle "
                + name(revision.getBundle())
                + " cannot start: it needs "
                + String.join(", and ", missing)
                + ", which nothing in feature "
                + feature
                + " provides");
      }
    }
    if (lines.isEmpty()) {
      return List.of(ofConflict(context));
    }
    if (!dependent.isEmpty()) {
      lines.add(
          "so these, which build on it, cannot start either: " + String.join(", ", dependent));
    }
    return lines;
  }

  private static List<String> missing(BundleRevision revision, List<BundleRevision> revisions) {
    List<String> missing = new ArrayList<>();
    for (BundleRequirement requirement : revision.getDeclaredRequirements(null)) {
      if (isMandatory(requirement) && !isMet(requirement, revisions)) {
        missing.add(describe(requirement));
      }
    }
    return missing;
  }

  /** Returns what one bundle needs and nothing provides, such as "package a.b (version>=1.0.0)". */
  static List<String> missing(BundleContext context, Bundle bundle) {
    List<BundleRevision> revisions = new ArrayList<>();
    for (Bundle other : context.getBundles()) {
      revisions.add(other.adapt(BundleRevision.class));
    }
    revisions.removeIf(Objects::isNull);
    return missing(bundle.adapt(BundleRevision.class), revisions);
  }

  /** Every requirement has a provider, but not all can be had at once: the framework explains. */
  private static String ofConflict(BundleContext context) {
    for (Bundle bundle : context.getBundles()) {
      if (bundle.getState() == Bundle.INSTALLED) {
        try {
          bundle.start();
        } catch (BundleException e) {
          return "bundle " + name(bundle) + " cannot start: " + cause(e);
        }
      }
    }
    return "the bundles cannot be resolved together";
  }

  private static boolean isMandatory(BundleRequirement requirement) {
    Map<String, String> directives = requirement.getDirectives();
    String effective =
        directives.getOrDefault(
            Namespace.REQUIREMENT_EFFECTIVE_DIRECTIVE, Namespace.EFFECTIVE_RESOLVE);
    String resolution =
        directives.getOrDefault(
            Namespace.REQUIREMENT_RESOLUTION_DIRECTIVE, Namespace.RESOLUTION_MANDATORY);
    return effective.equals(Namespace.EFFECTIVE_RESOLVE)
        && resolution.equals(Namespace.RESOLUTION_MANDATORY);
  }

  private static boolean isMet(BundleRequirement requirement, List<BundleRevision> revisions) {
    for (BundleRevision revision : revisions) {
      for (BundleCapability capability :
          revision.getDeclaredCapabilities(requirement.getNamespace())) {
        if (requirement.matches(capability)) {
          return true;
        }
      }
    }
    return false;
  }

  private static String describe(BundleRequirement requirement) {
    String filter =
        requirement
            .getDirectives()
            .getOrDefault(Namespace.REQUIREMENT_FILTER_DIRECTIVE, requirement.getNamespace());
    return switch (requirement.getNamespace()) {
      case PackageNamespace.PACKAGE_NAMESPACE -> "package " + packageOf(filter);
      case ExecutionEnvironmentNamespace.EXECUTION_ENVIRONMENT_NAMESPACE -> "Java " + filter;
      default -> "capability " + filter;
    };
  }

  /** Returns the package of a filter as bnd and the framework write it, with the versions asked. */
  private static String packageOf(String filter) {
    String prefix = "(" + PackageNamespace.PACKAGE_NAMESPACE + "=";
    int start = filter.indexOf(prefix) + prefix.length();
    int end = filter.indexOf(')', start);
    String versions = filter.substring(end + 1, Math.max(end + 1, filter.length() - 1));
    return filter.substring(start, end) + (versions.isEmpty() ? "" : " " + versions);
  }

  /**
   * Returns a text for each component that lacks a service or failed when it was made.
   *
   * @param of the bundles whose components to look at; all if there are none
   */
  static List<String> ofComponents(BundleContext context, Bundle... of) {
    List<String> faults = new ArrayList<>();
    ServiceReference<?> reference = context.getServiceReference(SCR);
    if (reference == null) {
      return faults;
    }
    // by reflection, since sharing the types would mean exporting them to the bundles from here
    Object runtime = context.getService(reference);
    try {
      Method descriptions =
          runtime.getClass().getMethod("getComponentDescriptionDTOs", Bundle[].class);
      for (Object description : (Collection<?>) descriptions.invoke(runtime, (Object) of)) {
        Method configurations =
            runtime.getClass().getMethod("getComponentConfigurationDTOs", description.getClass());
        for (Object configuration : (Collection<?>) configurations.invoke(runtime, description)) {
          String lack = lack(description, configuration);
          if (lack != null) {
            faults.add("component " + field(description, "name") + " " + lack);
          }
        }
      }
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("the component runtime is not as the standard has it", e);
    }
    return faults;
  }

  private static String lack(Object description, Object configuration)
      throws ReflectiveOperationException {
    switch ((Integer) field(configuration, "state")) {
      case UNSATISFIED_CONFIGURATION:
        return "cannot start: it needs a configuration";
      case UNSATISFIED_REFERENCE:
        List<String> needed = new ArrayList<>();
        Object unsatisfied = field(configuration, "unsatisfiedReferences");
        for (int i = 0; i < Array.getLength(unsatisfied); i++) {
          needed.add(service(description, Array.get(unsatisfied, i)));
        }
        return "cannot start: it needs the service " + String.join(", and ", needed);
      case FAILED_ACTIVATION:
        return "failed when it was made: "
            + rootOf(String.valueOf(field(configuration, "failure")));
      default:
        return null;
    }
  }

  /** Returns the innermost cause that a printed stack trace names. */
  private static String rootOf(String stackTrace) {
    String caused = "Caused by: ";
    int last = stackTrace.lastIndexOf(caused);
    String root = last < 0 ? stackTrace : stackTrace.substring(last + caused.length());
    return root.lines().findFirst().orElse("");
  }

  /** Returns the interface of the service that a reference of a component looks for. */
  private static String service(Object description, Object unsatisfied)
      throws ReflectiveOperationException {
    Object references = field(description, "references");
    for (int i = 0; i < Array.getLength(references); i++) {
      Object reference = Array.get(references, i);
      if (field(reference, "name").equals(field(unsatisfied, "name"))) {
        Object target = field(unsatisfied, "target");
        Object type = field(reference, "interfaceName");
        return target == null ? type.toString() : type + " with " + target;
      }
    }
    return field(unsatisfied, "name").toString();
  }

  private static Object field(Object dto, String name) throws ReflectiveOperationException {
    return dto.getClass().getField(name).get(dto);
  }

  static String name(Bundle bundle) {
    return bundle.getSymbolicName() + " " + bundle.getVersion();
  }

  /** Returns the first line of the innermost message. */
  static String cause(Throwable thrown) {
    Throwable cause = thrown;
    while (cause.getCause() != null) {
      cause = cause.getCause();
    }
    String message = cause.getMessage() == null ? "" : cause.getMessage();
    String line = message.lines().findFirst().orElse("");
    return cause instanceof BundleException ? line : cause.getClass().getName() + ": " + line;
  }
}
