package siltwright.features;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.jar.Attributes;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import java.util.jar.Manifest;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The built product copied elsewhere, with bundles and features of the tests' own added. */
final class Installation {

  /** Where the module's build leaves the product; failsafe runs in the module's folder. */
  static final Path BUILT = Path.of("target");

  /** The part of a component's description that makes it take the command line. */
  static final String ENTRY =
      "<implementation class='siltwright.features.EchoCommand'/>"
          + "<property name='siltwright.entry' value='command'/>"
          + "<service><provide interface='java.util.function.ToIntFunction'/></service>";

  private final Path home;
  private final Path temporary;

  private Installation(Path home, Path temporary) {
    this.home = home;
    this.temporary = temporary;
  }

  /** What a process left: its exit code and what it wrote. */
  record Outcome(int code, String out, String err) {}

  static Installation copyTo(Path home, Path temporary) throws IOException {
    for (String part : List.of("siltwright.jar", "lib", "bundles", "features")) {
      copy(BUILT.resolve(part), home.resolve(part));
    }
    copy(Path.of("src/main/dist/bin"), home.resolve("bin"));
    Files.createDirectories(temporary);
    Installation installation = new Installation(home, temporary);
    installation.addBundle("test-command", ENTRY);
    installation.addBundle(
        "test-lacking",
        "<implementation class='siltwright.features.FailingComponent'/>"
            + "<service><provide interface='java.lang.Runnable'/></service>"
            + "<reference name='clock' interface='java.time.InstantSource'/>");
    installation.addBundle(
        "test-failing",
        "<implementation class='siltwright.features.FailingComponent'/>"
            + "<property name='siltwright.entry' value='command'/>"
            + "<service><provide interface='java.util.function.ToIntFunction'/></service>");
    return installation;
  }

  private static void copy(Path from, Path to) throws IOException {
    try (Stream<Path> files = Files.walk(from)) {
      for (Path file : files.toList()) {
        Path target = to.resolve(from.relativize(file).toString());
        if (Files.isDirectory(file)) {
          Files.createDirectories(target);
        } else {
          Files.createDirectories(target.getParent());
          Files.copy(file, target);
        }
      }
    }
  }

  /** Adds a bundle with a component; the class of the component and more may be named. */
  void addBundle(String name, String component, Class<?>... more) throws IOException {
    List<Class<?>> types = new ArrayList<>(List.of(EchoCommand.class, FailingComponent.class));
    types.addAll(List.of(more));
    writeBundle(home.resolve("bundles").resolve(name + "-1.0.0.jar"), name, component, types);
  }

  /** Writes a bundle with a component and its classes, which finds packages as it needs them. */
  static void writeBundle(Path jar, String name, String component, List<Class<?>> types)
      throws IOException {
    writeBundle(jar, name, component, types, "DynamicImport-Package", "*");
  }

  /** Writes a bundle that imports packages as a header tells. */
  static void writeBundle(
      Path jar,
      String name,
      String component,
      List<Class<?>> types,
      String importHeader,
      String packages)
      throws IOException {
    Manifest manifest = new Manifest();
    Attributes headers = manifest.getMainAttributes();
    headers.put(Attributes.Name.MANIFEST_VERSION, "1.0");
    headers.putValue("Bundle-ManifestVersion", "2");
    headers.putValue("Bundle-SymbolicName", name);
    headers.putValue("Bundle-Version", "1.0.0");
    headers.putValue(importHeader, packages);
    headers.putValue("Service-Component", "OSGI-INF/component.xml");
    try (OutputStream bytes = Files.newOutputStream(jar);
        JarOutputStream out = new JarOutputStream(bytes, manifest)) {
      out.putNextEntry(new JarEntry("OSGI-INF/component.xml"));
      String start = "<scr:component xmlns:scr='http://www.osgi.org/xmlns/scr/v1.3.0' name='";
      out.write((start + name + "'>" + component + "</scr:component>").getBytes(UTF_8));
      for (Class<?> type : types) {
        String entry = type.getName().replace('.', '/') + ".class";
        out.putNextEntry(new JarEntry(entry));
        try (InputStream in = type.getClassLoader().getResourceAsStream(entry)) {
          in.transferTo(out);
        }
      }
    }
  }

  Path home() {
    return home;
  }

  Path temporary() {
    return temporary;
  }

  /** Writes the product's feature with some bundles left out and others added. */
  Path feature(String name, List<String> without, List<String> added) throws IOException {
    List<String> lines = new ArrayList<>();
    for (String line : Files.readAllLines(BUILT.resolve("features/desk.json"))) {
      if (line.contains("\"bundles\"")) {
        lines.add(line);
        for (String bundle : added) {
          lines.add("{ \"id\": \"test:" + bundle + ":1.0.0\" },");
        }
      } else if (!isOfWindow(line) && without.stream().noneMatch(line::contains)) {
        // their command calls for nothing later
        lines.add(line.replace(", \"stage\": \"documents\"", ""));
      }
    }
    Path file = home.resolve("features").resolve(name + ".json");
    // the bundle left out may have been the last
    Files.writeString(file, String.join("\n", lines).replaceAll(",(\\s*\\])", "$1"));
    return file;
  }

  /** The small products of the tests have no window. */
  private static boolean isOfWindow(String line) {
    return line.contains("\"stage\": \"window\"") || line.strip().startsWith("//");
  }

  /** Returns the Java that runs this. */
  static String java() {
    return Path.of(System.getProperty("java.home"), "bin", "java").toString();
  }

  /** Returns the same with flags of the start script, which only save the tests time. */
  static List<String> quickJava() {
    return new ArrayList<>(List.of(java(), "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"));
  }

  /** Returns the words after {@code java} by which the start script runs an installation. */
  static List<String> onOneClassPath(Path home, String feature) throws IOException {
    String file = Files.readString(home.resolve("features").resolve(feature + ".json"));
    String path =
        Stream.concat(
                Stream.of(home.resolve("siltwright.jar")),
                Pattern.compile("\"id\": \"[^:\"]+:([^:\"]+):([^:\"]+)\"")
                    .matcher(file)
                    .results()
                    .map(m -> home.resolve("bundles/" + m.group(1) + "-" + m.group(2) + ".jar"))
                    .filter(Files::exists))
            .map(Path::toString)
            .collect(Collectors.joining(File.pathSeparator));
    return List.of("-cp", path, "siltwright.launcher.Launcher");
  }

  /** Prepares {@code java -jar} on a feature. */
  ProcessBuilder java(String feature, String... arguments) {
    return java(List.of("-jar", home.resolve("siltwright.jar").toString()), feature, arguments);
  }

  /** Runs a feature by jar and as the start script does, which must come to the same. */
  Outcome bothWays(String feature, String... arguments) throws IOException, InterruptedException {
    Outcome byJar = run(java(feature, arguments));
    assertEquals(byJar, run(java(onOneClassPath(home, feature), feature, arguments)));
    return byJar;
  }

  /** Prepares a feature, started by words after {@code java}. */
  ProcessBuilder java(List<String> start, String feature, String... arguments) {
    List<String> command = quickJava();
    command.add("-Djava.io.tmpdir=" + temporary);
    command.add("-Dsiltwright.feature=" + feature);
    command.addAll(start);
    command.addAll(List.of(arguments));
    return new ProcessBuilder(command).directory(temporary.toFile());
  }

  /** Prepares the start script, with a cache folder for its archives. */
  ProcessBuilder script(Path script, Path cache, String... arguments) {
    List<String> command = new ArrayList<>();
    command.add(script.toString());
    command.addAll(List.of(arguments));
    ProcessBuilder process = new ProcessBuilder(command).directory(temporary.toFile());
    process.environment().put("JAVA_HOME", System.getProperty("java.home"));
    process.environment().put("XDG_CACHE_HOME", cache.toString());
    return process;
  }

  static Outcome run(ProcessBuilder builder) throws IOException, InterruptedException {
    Path err = Files.createTempFile("siltwright-test", ".err");
    try {
      Process process = builder.redirectError(err.toFile()).start();
      process.getOutputStream().close();
      String out = new String(process.getInputStream().readAllBytes(), UTF_8);
      return new Outcome(process.waitFor(), out, Files.readString(err));
    } finally {
      Files.delete(err);
    }
  }
}
