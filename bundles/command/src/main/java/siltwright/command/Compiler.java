package siltwright.command;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import javax.management.JMException;
import javax.management.ObjectName;

/** The JVM's compilers. */
final class Compiler {
  /** Form of the JVM's own compiler directives (JEP 165). */
  private static final String DIRECTIVES = "[{match: \"*.*\", c2: {Exclude: true}}]";

  /** How the JVM names itself where the compiler is off already. */
  private static final String SIMPLE = "emulated-client";

  private Compiler() {}

  /**
   * Leaves the optimising compiler off from now on, as the start script does, in a thread of its
   * own. It takes longer over the balance of a machine than a run of seconds does. A JVM that has
   * no such directives goes on as it is.
   */
  static void staySimple() {
    if (System.getProperty("java.vm.info", "").contains(SIMPLE)) {
      return;
    }
    Thread thread = new Thread(Compiler::exclude, "siltwright-compiler");
    thread.setDaemon(true);
    thread.start();
  }

  private static void exclude() {
    // a name of the process's own; a random one would cost more than it protects
    String name = "siltwright-" + ProcessHandle.current().pid() + "-" + System.nanoTime();
    Path file = Path.of(System.getProperty("java.io.tmpdir")).resolve(name + ".directives");
    try {
      Files.writeString(file, DIRECTIVES, StandardOpenOption.CREATE_NEW);
      try {
        ManagementFactory.getPlatformMBeanServer()
            .invoke(
                new ObjectName("com.sun.management:type=DiagnosticCommand"),
                "compilerDirectivesAdd",
                new Object[] {new String[] {file.toString()}},
                new String[] {String[].class.getName()});
      } finally {
        Files.deleteIfExists(file);
      }
    } catch (IOException | JMException | RuntimeException e) {
      // slower, and nothing else
    }
  }
}
