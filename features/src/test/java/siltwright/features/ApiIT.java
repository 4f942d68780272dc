package siltwright.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import aQute.bnd.differ.DiffPluginImpl;
import aQute.bnd.osgi.Jar;
import aQute.bnd.service.diff.Delta;
import aQute.bnd.service.diff.Diff;
import aQute.bnd.service.diff.Tree;
import aQute.bnd.service.diff.Type;
import aQute.bnd.version.Version;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import java.io.IOException;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The packages that add-ons build on keep their promise: what changed since the description that
 * lies in {@code src/test/resources/api} shows in the version. What a change is, bnd decides.
 *
 * <p>{@code -Dsiltwright.api=store} describes them anew; that is done with a release, and with a
 * change of a version before the first one.
 */
class ApiIT {
  private static final Path STORED = Path.of("src/test/resources/api");
  private static final Set<String> OBJECT =
      Arrays.stream(Object.class.getDeclaredMethods())
          .map(Method::getName)
          .collect(Collectors.toSet());
  private static final boolean STORE = "store".equals(System.getProperty("siltwright.api"));

  @ParameterizedTest
  @CsvSource({
    "siltwright-analysis, siltwright.analysis",
    "siltwright-model, siltwright.model",
    "siltwright-workbench, siltwright.workbench"
  })
  void changesShowInTheVersion(String bundle, String name) throws Exception {
    Tree now = described(bundle, name);
    Path file = STORED.resolve(name + ".txt");
    if (STORE) {
      List<String> lines = new ArrayList<>();
      write(now.serialize(), 0, lines);
      Files.createDirectories(STORED);
      Files.write(file, lines);
    }
    Tree before = read(Files.readAllLines(file));
    Diff diff = now.diff(before);
    Version old = version(before);
    Version least = least(old, diff.getDelta());
    List<String> changes = new ArrayList<>();
    collect(diff, "", changes);
    assertTrue(
        version(now).compareTo(least) >= 0,
        name
            + " has changed since "
            + old
            + " and needs version "
            + least
            + " in its package-info, and a new description (-Dsiltwright.api=store): "
            + changes);
  }

  /** Semantic versions; below 1 each place stands for the one before it. */
  private static Version least(Version old, Delta delta) {
    boolean young = old.getMajor() == 0;
    return switch (delta) {
      case MAJOR, REMOVED ->
          young ? new Version(0, old.getMinor() + 1, 0) : new Version(old.getMajor() + 1, 0, 0);
      case MINOR, ADDED ->
          young
              ? new Version(0, old.getMinor(), old.getMicro() + 1)
              : new Version(old.getMajor(), old.getMinor() + 1, 0);
      default -> old;
    };
  }

  private static void collect(Diff diff, String path, List<String> changes) {
    boolean part = diff.getChildren().stream().anyMatch(d -> d.getDelta() != Delta.UNCHANGED);
    if (diff.getDelta() != Delta.UNCHANGED && !part) {
      changes.add(diff.getDelta() + " " + path + diff.getName());
    }
    diff.getChildren().forEach(d -> collect(d, path + diff.getName() + " ", changes));
  }

  private static Version version(Tree of) {
    return Arrays.stream(of.getChildren())
        .filter(t -> t.getType() == Type.VERSION)
        .map(t -> new Version(t.getName()))
        .findFirst()
        .orElseThrow();
  }

  private static Tree described(String bundle, String name) throws Exception {
    try (Jar open = new Jar(jar(bundle).toFile())) {
      Tree.Data api = new DiffPluginImpl().tree(open).get("<api>").get(name).serialize();
      return new DiffPluginImpl().deserialize(withoutObject(api));
    }
  }

  private static Path jar(String bundle) throws IOException {
    try (Stream<Path> jars = Files.list(Installation.BUILT.resolve("bundles"))) {
      return jars.filter(f -> f.getFileName().toString().matches(bundle + "-[0-9].*"))
          .findFirst()
          .orElseThrow();
    }
  }

  /** What every object has is the JDK's, and differs from one to the next. */
  private static Tree.Data withoutObject(Tree.Data of) {
    if (of.children != null) {
      of.children =
          Arrays.stream(of.children)
              .filter(d -> d.type != Type.METHOD || !OBJECT.contains(d.name.split("[(]")[0]))
              .map(ApiIT::withoutObject)
              .toArray(Tree.Data[]::new);
    }
    return of;
  }

  /** One element a line: depth, type, what adding and removing it means, name. */
  private static void write(Tree.Data of, int depth, List<String> lines) {
    lines.add(" ".repeat(depth) + of.type + " " + of.add + " " + of.rem + " " + of.name);
    if (of.children != null) {
      for (Tree.Data child : of.children) {
        write(child, depth + 1, lines);
      }
    }
  }

  private static Tree read(List<String> lines) throws Exception {
    Deque<Tree.Data> open = new ArrayDeque<>();
    Deque<List<Tree.Data>> children = new ArrayDeque<>();
    Tree.Data root = null;
    for (String line : lines) {
      int depth = line.length() - line.stripLeading().length();
      while (open.size() > depth) {
        close(open, children);
      }
      String[] words = line.strip().split(" ", 4);
      Tree.Data data = new Tree.Data();
      data.type = Type.valueOf(words[0]);
      data.add = Delta.valueOf(words[1]);
      data.rem = Delta.valueOf(words[2]);
      data.name = words.length > 3 ? words[3] : "";
      if (children.isEmpty()) {
        root = data;
      } else {
        children.peek().add(data);
      }
      open.push(data);
      children.push(new ArrayList<>());
    }
    while (!open.isEmpty()) {
      close(open, children);
    }
    return new DiffPluginImpl().deserialize(root);
  }

  private static void close(Deque<Tree.Data> open, Deque<List<Tree.Data>> children) {
    open.pop().children = children.pop().toArray(Tree.Data[]::new);
  }

  /** Whoever extends the API knows whether others implement a type. */
  @Test
  void everyInterfaceSaysWhoImplementsIt() throws Exception {
    List<String> silent = new ArrayList<>();
    List<Path> bundles = new ArrayList<>();
    for (String bundle :
        List.of("siltwright-analysis", "siltwright-model", "siltwright-workbench")) {
      bundles.add(jar(bundle));
    }
    for (JavaClass type : new ClassFileImporter().importPaths(bundles)) {
      boolean api =
          type.isInterface()
              && type.getModifiers().contains(JavaModifier.PUBLIC)
              && !type.getPackageName().contains("internal")
              && !type.getPackageName().contains("testing")
              && !type.reflect().isSealed();
      if (api
          && !type.isAnnotatedWith("org.osgi.annotation.versioning.ProviderType")
          && !type.isAnnotatedWith("org.osgi.annotation.versioning.ConsumerType")) {
        silent.add(type.getName());
      }
    }
    assertEquals(List.of(), silent);
  }
}
